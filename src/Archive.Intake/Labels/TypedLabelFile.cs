using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Reading;
using Archive.Records.Terms;
using Archive.SchemeSearch.Labels;

namespace Archive.Intake.Labels;

/// <summary>Labels that were typed from cables, in a text file or a CSV table.</summary>
/// <param name="Labels">Each once, in their order.</param>
/// <remarks>
/// Text: a label a line; <c> | </c> stands for the break between two printed lines, and the ends that were seen follow <c> @ </c>.
/// Lines that begin with <c># </c> are comments. CSV: columns <c>label</c>, <c>a</c> and <c>b</c>, as in cable lists; others are ignored.
/// </remarks>
public sealed record TypedLabelFile(ImmutableArray<TypedLabel> Labels, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>Fifty are usually enough; the search grows with their number.</summary>
    public const int MostLabels = 2000;

    private const int LongestLabel = 200;
    private const int MostEnds = 2;

    private static readonly char[] BetweenEnds = [' ', '\t', ',', ';'];

    /// <param name="path">For diagnostics; a name that ends in .csv or .tsv is a table.</param>
    /// <param name="ports">Addresses of all ports of the record.</param>
    public static TypedLabelFile Read(string path, ReadOnlySpan<byte> bytes, IEnumerable<string> ports)
    {
        var source = TextFile.Decode(path, bytes, out var diagnostics);
        if (source is null || diagnostics.Any(diagnostic => diagnostic.Severity == Severity.Error))
            return new TypedLabelFile([], diagnostics);
        var reader = new Reader(ports);
        if (IsTable(source)) reader.ReadTable(source);
        else reader.ReadLines(source);
        return new TypedLabelFile([.. reader.Labels], [.. diagnostics, .. reader.Diagnostics]);
    }

    private static bool IsTable(SourceText source) =>
        source.Path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase)
        || source.Path.EndsWith(".tsv", StringComparison.OrdinalIgnoreCase);

    private sealed class Reader(IEnumerable<string> ports)
    {
        private readonly Dictionary<Address, string> _ports = Known(ports);
        private readonly Dictionary<string, SourceSpan> _typed = new(StringComparer.Ordinal);
        private HashSet<string>? _frames;
        private bool _isFull;

        internal List<TypedLabel> Labels { get; } = [];

        internal List<Diagnostic> Diagnostics { get; } = [];

        internal void ReadLines(SourceText source)
        {
            for (var line = 0; line < source.LineCount && !_isFull; line++)
            {
                var text = source.Line(line);
                var trimmed = text.Trim();
                if (trimmed.Length == 0 || trimmed == "#" || trimmed.StartsWith("# ", StringComparison.Ordinal)) continue;
                var start = source.OffsetOf(line, text.Length - text.TrimStart().Length);
                // Behind the mark are ends; before it may be nothing, which is reported.
                var at = trimmed.StartsWith("@ ", StringComparison.Ordinal) ? 0 : trimmed.LastIndexOf(" @ ", StringComparison.Ordinal);
                var label = (at < 0 ? trimmed : trimmed[..at]).TrimEnd();
                var behind = at < 0 ? trimmed.Length : trimmed.IndexOf('@', at) + 2;
                var ends = EndsIn(trimmed[behind..], new SourceSpan(source, start + behind, trimmed.Length - behind));
                Add(label.Replace(" | ", "\n", StringComparison.Ordinal), new SourceSpan(source, start, label.Length), ends);
            }
        }

        internal void ReadTable(SourceText source)
        {
            var table = CsvTable.Read(source);
            Diagnostics.AddRange(table.Diagnostics);
            if (table.Rows is not [var header, .. var rows]) return;
            var (label, a, b) = (Column(header, "label"), Column(header, "a"), Column(header, "b"));
            if (label < 0)
            {
                Diagnostics.Add(DiagnosticDescriptors.LabelColumnMissing.At(
                    header[0].Span, "this table has no column `label`", "write the names of the columns in the first line: label, a, b"));
                return;
            }

            foreach (var row in rows)
            {
                if (_isFull) return;
                if (label >= row.Length || row[label].Text.Length == 0) continue;
                var ends = new[] { a, b }.Where(column => column >= 0 && column < row.Length)
                    .SelectMany(column => EndsIn(row[column].Text, row[column].Span));
                Add(row[label].Text.ReplaceLineEndings("\n"), row[label].Span, ends);
            }
        }

        private static int Column(ImmutableArray<CsvCell> header, string name)
        {
            for (var at = 0; at < header.Length; at++)
            {
                if (string.Equals(header[at].Text.Trim(), name, StringComparison.OrdinalIgnoreCase)) return at;
            }

            return -1;
        }

        private static IEnumerable<(string Text, SourceSpan Span)> EndsIn(string text, SourceSpan span)
        {
            var from = 0;
            while (from < text.Length)
            {
                var length = text.AsSpan(from).IndexOfAny(BetweenEnds);
                var word = length < 0 ? text[from..] : text.Substring(from, length);
                if (word.Length > 0) yield return (word, span.Length == text.Length ? span.Slice(from, word.Length) : span);
                from += word.Length + 1;
            }
        }

        private void Add(string text, SourceSpan span, IEnumerable<(string Text, SourceSpan Span)> ends)
        {
            if (Labels.Count == MostLabels)
            {
                _isFull = true;
                Diagnostics.Add(DiagnosticDescriptors.TooManyLabels.At(
                    span, $"more than {MostLabels} labels", "fifty from all over the machine are enough: leave the others out"));
                return;
            }

            if (text.Length is 0 or > LongestLabel)
            {
                Diagnostics.Add(DiagnosticDescriptors.TooManyLabels.At(
                    span.Slice(0, Math.Min(span.Length, 1)),
                    text.Length == 0
                        ? "there are ends, but no label"
                        : $"this label has {text.Length} characters, more than {LongestLabel}",
                    "write one label a line, then ` @ ` and the ends that were seen"));
                return;
            }

            // Both ends of a cable have the same print: typed twice, it would count as two cables.
            if (_typed.TryGetValue(text, out var first))
            {
                Diagnostics.Add(DiagnosticDescriptors.LabelTypedTwice.At(
                    span, "this label was typed before, and counts once", "remove it", new Related(first, "typed here")));
                return;
            }

            _typed[text] = span;
            Labels.Add(new TypedLabel(text, Seen(ends)));
        }

        private ImmutableArray<string> Seen(IEnumerable<(string Text, SourceSpan Span)> ends)
        {
            var seen = ImmutableArray.CreateBuilder<string>(MostEnds);
            foreach (var (text, span) in ends)
            {
                if (seen.Count == MostEnds)
                {
                    Diagnostics.Add(DiagnosticDescriptors.SeenEndsTooMany.At(
                        span, "a third end of one cable", "a label names two ends at most: keep the two that it is on"));
                    break;
                }

                if (Port(text, span) is { } port) seen.Add(port);
            }

            return seen.ToImmutable();
        }

        private string? Port(string text, SourceSpan span)
        {
            if (Address.TryParse(text, out var address))
            {
                if (_ports.TryGetValue(address, out var known)) return known;
                _frames ??= [.. _ports.Keys.Select(port => LeadingZeros.Strip(port.Frame))];
                if (address.Port is null && _frames.Contains(LeadingZeros.Strip(address.Frame)))
                {
                    Diagnostics.Add(DiagnosticDescriptors.SeenEndVague.At(
                        span,
                        $"`{text}` names no port, so it says nothing of how the label is read",
                        "write it as FRAME/POSITION/PORT, such as R2-05/S3/J1"));
                    return null;
                }
            }

            var near = Diagnostics.Count < 50 ? NearestName.Find(text, _ports.Values) : null;
            Diagnostics.Add(DiagnosticDescriptors.SeenEndUnknown.At(
                span,
                $"the record has no port `{(text.Length > 60 ? text[..60] + "…" : text)}`",
                near is null ? "write it as FRAME/POSITION/PORT, or record the port first" : $"did you mean `{near}`?"));
            return null;
        }

        private static Dictionary<Address, string> Known(IEnumerable<string> ports)
        {
            var known = new Dictionary<Address, string>();
            foreach (var port in ports)
            {
                if (Address.TryParse(port, out var address)) known.TryAdd(address, port);
            }

            return known;
        }
    }
}
