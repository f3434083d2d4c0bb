using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Reading;

/// <summary>
/// Turns each row of a CSV table into the mapping that the same record would be in YAML, so that one reader reads both.
/// </summary>
internal sealed class RecordTableReader
{
    // Far above those that are known; a header of a million commas must not be compared each with each.
    private const int MostColumns = 200;

    // Names in the lists of one table, and links and tags in its prose, far above any machine's: what one costs to check does not depend
    // on how few bytes it has.
    private const int MostParts = 500_000;

    private readonly TableLayout _layout;
    private readonly ImmutableArray<string> _known;
    private readonly SourceText _source;
    private readonly CsvDialect _dialect;
    private readonly DiagnosticBag _diagnostics;
    private readonly List<ScalarNode> _header;
    private readonly bool[] _isKnown;
    private readonly bool[] _isRepeated;
    private readonly ImmutableArray<MappingEntry> _missing;
    private int _parts;

    private RecordTableReader(
        TableLayout layout, SourceText source, List<ScalarNode> header, CsvDialect dialect, DiagnosticBag diagnostics)
    {
        _layout = layout;
        _known = Known(layout);
        _source = source;
        _dialect = dialect;
        _diagnostics = diagnostics;
        _header = header;
        _isKnown = [.. header.Select(column => _known.Contains(column.Text))];
        _isRepeated = [.. header.Select((column, i) => header.FindIndex(other => other.Text == column.Text) < i)];
        _missing = Missing();
        CheckHeader();
    }

    /// <summary>Reads the rows of a file.</summary>
    /// <param name="kind">The kind of record that the table lists.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    public static IEnumerable<SyntaxNode> Rows(RecordKind kind, SourceText source, DiagnosticBag diagnostics)
    {
        var layout = kind == RecordKind.Unit ? UnitTableFormat.Layout : CableTableFormat.Layout;
        var known = Known(layout);
        using var cells = new CsvTableReader(source, diagnostics);
        if (cells.Next() is not { } header) yield break;
        // Spreadsheets write the width of their sheet: columns without a name at its right have nothing in them either, or it is reported.
        while (header.Count > 1 && header[^1].Text.Length == 0) header.RemoveAt(header.Count - 1);
        if (header.Count > MostColumns)
        {
            diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
                header[MostColumns].Span, $"this table has {header.Count} columns", KnownColumns(layout)));
            yield break;
        }

        if (!header.Exists(column => known.Contains(column.Text)
            || NearestName.Find(column.Text, known) is not null && column.Text.Length > 1))
        {
            diagnostics.Add(DiagnosticDescriptors.UnknownColumn.At(
                header[0].Span,
                "the first line of this table names no column",
                $"write the column names there; {KnownColumns(layout)}"));
            yield break;
        }

        var table = new RecordTableReader(layout, source, header, cells.Dialect, diagnostics);
        // Of a table that is full of errors no one reads the rest.
        while (!diagnostics.IsFull && cells.Next() is { } row)
        {
            if (table.CellBeyond(row) is { } cell)
            {
                diagnostics.Add(DiagnosticDescriptors.TooManyValues.At(
                    cell.Span.Slice(0, 1),
                    $"this table holds more than {MostParts} names in lists and `[` and `<` in prose; nothing from this row on is read",
                    "split the file into several"));
                yield break;
            }

            yield return table.Row(row);
        }
    }

    // The cell that holds one name, link or tag too many.
    private ScalarNode? CellBeyond(List<ScalarNode> row)
    {
        for (var i = 0; i < Math.Min(row.Count, _header.Count); i++)
        {
            var text = row[i].Text.AsSpan();
            if (text.Length > 0) _parts += IsList(i) ? text.Count(' ') + 1 : text.Count('[') + text.Count('<');
            if (_parts > MostParts) return row[i];
        }

        return null;
    }

    private void CheckHeader()
    {
        for (var i = 0; i < _header.Count; i++)
        {
            var column = _header[i];
            if (!_isKnown[i])
            {
                // A column of evidence is meant only where its name says of what.
                var isOfFact = column.Text.Contains('_', StringComparison.Ordinal);
                var likely = isOfFact ? _known : _known.Where(name => !_layout.Evidence.ContainsKey(name));
                var nearest = NearestName.Find(column.Text, likely);
                if (column.Text is "from" or "to" && _known.Contains("a")) nearest = column.Text == "from" ? "a" : "b";
                _diagnostics.Add(DiagnosticDescriptors.UnknownColumn.At(
                    column.Span,
                    column.Text.Length == 0 ? "a column without a name" : $"unknown column `{column.Short}`",
                    column.Text.Length == 0
                        ? "write its name in the first line, or remove the column"
                        : nearest is null ? KnownColumns(_layout) : $"did you mean `{nearest}`?"));
            }
            else if (_isRepeated[i])
            {
                var first = _header.FindIndex(other => other.Text == column.Text);
                _diagnostics.Add(DiagnosticDescriptors.DuplicateKey.At(
                    column.Span,
                    $"column `{column.Text}` is given twice",
                    "remove one of the two",
                    new Related(_header[first].Span, "first written here")));
            }
        }
    }

    // A required column that is missing is reported once; the rows then carry it as refused, so that none tells it again.
    private ImmutableArray<MappingEntry> Missing()
    {
        var missing = ImmutableArray.CreateBuilder<MappingEntry>();
        foreach (var name in _layout.Required)
        {
            if (_header.Exists(column => column.Text == name)) continue;
            var isMisspelt = _header.Exists(column => !_known.Contains(column.Text) && NearestName.Find(column.Text, _known) == name);
            if (!isMisspelt) _diagnostics.Add(
                DiagnosticDescriptors.MissingKey.At(_header[0].Span, $"this table has no column `{name}`", $"add a column `{name}`"));
            missing.Add(new MappingEntry(new ScalarNode(_header[0].Span, name, ScalarNotation.Cell), new RejectedNode(_header[0].Span)));
        }

        // A reason that stands in a misspelt column is there: that it is missing is not reported for every row.
        if (_header.Find(column => !_known.Contains(column.Text) && NearestName.Find(column.Text, _known) == "reason") is { } reason
            && !_header.Exists(column => column.Text == "reason"))
        {
            missing.Add(new MappingEntry(reason with { Text = "reason" }, new RejectedNode(reason.Span)));
        }

        return missing.DrainToImmutable();
    }

    private SyntaxNode Row(List<ScalarNode> cells)
    {
        var span = new SourceSpan(_source, cells[0].Span.Start, cells[^1].Span.End - cells[0].Span.Start);

        if (!IsOfReadableSize(cells)) return new RejectedNode(span);

        // Which cell belongs to which column is a guess then: a comma without quotes would be reported a second time for every cell behind
        // it.
        if (!IsOfItsLength(cells, span) || HasCommaInNumber(cells)) return new RejectedNode(span);
        var entries = ImmutableArray.CreateBuilder<MappingEntry>(_header.Count + 1);
        entries.AddRange(_missing);
        var evidence = EvidenceOf(cells);
        var ends = ImmutableArray.CreateBuilder<SyntaxNode>(2);
        for (var i = 0; i < _header.Count; i++)
        {
            var (column, cell) = (_header[i], cells[i]);
            if (cell.Text.Length == 0 || !_isKnown[i] || _isRepeated[i] || _layout.Evidence.ContainsKey(column.Text)) continue;
            switch (column.Text)
            {
                case "a" or "b" when _layout == CableTableFormat.Layout:
                    ends.Add(new MappingNode(cell.Span, [WithEvidence(column, cell, evidence) with { Key = column with { Text = "at" } }]));
                    break;
                case "accept":
                    if (Accepted(cells, column, cell) is { } accepted) entries.Add(accepted);
                    break;
                case var pairs when pairs == _layout.Pairs:
                    entries.Add(new MappingEntry(column, Pairs(column.Text, cell)));
                    break;
                case var list when _layout.Lists.Contains(list):
                    entries.Add(new MappingEntry(column, List(column.Text, cell)));
                    break;
                default:
                    entries.Add(WithEvidence(column, column.Text == _layout.Quantity && _dialect.HasDecimalCommas
                        ? DecimalComma.WithPoint(cell)
                        : cell, evidence));
                    break;
            }
        }

        if (ends.Count > 0) entries.Add(new MappingEntry(
            new ScalarNode(ends[0].Span, "ends", ScalarNotation.Cell), new ListNode(ends[0].Span, ends.DrainToImmutable())));
        ReportLeft(evidence);
        return new MappingNode(span, entries.DrainToImmutable());
    }

    // The note of the row is the reason for each.
    private MappingEntry? Accepted(List<ScalarNode> cells, ScalarNode column, ScalarNode cell)
    {
        if (_header.FindIndex(other => other.Text == "note") is >= 0 and var at && cells[at] is { Text.Length: > 0 } note)
        {
            var codes = Words(cell).Items.Cast<ScalarNode>().DistinctBy(code => code.Text, StringComparer.Ordinal);
            return new MappingEntry(column, new MappingNode(cell.Span, [.. codes.Select(code => new MappingEntry(code, note))]));
        }

        _diagnostics.Add(DiagnosticDescriptors.MissingKey.At(
            cell.Span, $"this row accepts `{cell.Short}`, but has no `note`", "add a `note` that says why what looks impossible is true"));
        return null;
    }

    // What a row says of how its facts are known, by the facts; null where it says nothing.
    private Dictionary<string, List<MappingEntry>>? EvidenceOf(List<ScalarNode> cells)
    {
        Dictionary<string, List<MappingEntry>>? evidence = null;
        for (var i = 0; i < _header.Count; i++)
        {
            if (cells[i].Text.Length == 0 || _isRepeated[i]) continue;
            if (!_layout.Evidence.TryGetValue(_header[i].Text, out var said)) continue;
            evidence ??= new(StringComparer.Ordinal);
            if (!evidence.TryGetValue(said.Fact, out var all)) evidence[said.Fact] = all = [];
            all.Add(new MappingEntry(_header[i] with { Text = said.Key.Name }, cells[i]));
        }

        return evidence;
    }

    private static MappingEntry WithEvidence(ScalarNode column, ScalarNode cell, Dictionary<string, List<MappingEntry>>? evidence) =>
        evidence is null || !evidence.Remove(column.Text, out var said)
            ? new MappingEntry(column, cell)
            : new MappingEntry(column, new MappingNode(cell.Span, [new MappingEntry(column with { Text = "is" }, cell), .. said]));

    // Evidence of what the row does not say.
    private void ReportLeft(Dictionary<string, List<MappingEntry>>? evidence)
    {
        foreach (var (fact, said) in evidence ?? [])
        {
            _diagnostics.Add(DiagnosticDescriptors.MissingKey.At(
                said[0].Value.Span, $"this row has a `{fact}_{said[0].Key.Text}` but no `{fact}`", $"add `{fact}`, or remove this"));
        }
    }

    private bool IsOfItsLength(List<ScalarNode> cells, SourceSpan span)
    {
        var surplus = cells.FindIndex(Math.Min(_header.Count, cells.Count), cell => cell.Text.Length > 0);
        if (cells.Count < _header.Count)
        {
            _diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
                span,
                $"this row has {cells.Count} cells, and the header {_header.Count}",
                $"add the missing {_dialect.Noun}s; an empty cell means no value"));
        }
        else if (surplus >= 0)
        {
            _diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
                cells[surplus].Span,
                $"this row has {cells.Count} cells, and the header {_header.Count}",
                $"put a cell that contains a {_dialect.Noun} in quotes, or remove the cell"));
        }

        return cells.Count >= _header.Count && surplus < 0;
    }

    // The limits of a record are the same as in YAML.
    private bool IsOfReadableSize(List<ScalarNode> cells)
    {
        foreach (var cell in cells)
        {
            if (cell.Text.Length > YamlSyntax.LongestScalar)
            {
                _diagnostics.Add(DiagnosticDescriptors.ScalarTooLong.At(
                    cell.Span.Slice(0, 1),
                    $"this cell has {cell.Text.Length} characters, more than {YamlSyntax.LongestScalar}",
                    "split it, or move it to a story"));
                return false;
            }

            if (cell.Text.Length > YamlSyntax.LargestRecord
                && cell.Text.AsSpan().Count(' ') >= YamlSyntax.LargestRecord
                && IsList(cells.IndexOf(cell)))
            {
                _diagnostics.Add(DiagnosticDescriptors.ScalarTooLong.At(
                    cell.Span.Slice(0, 1), $"this cell names more than {YamlSyntax.LargestRecord} records", "write each once"));
                return false;
            }
        }

        return true;
    }

    private bool IsList(int column) =>
        column < _header.Count && (_layout.Lists.Contains(_header[column].Text) || _header[column].Text == _layout.Pairs);

    // All cells behind it stand one column too far.
    private bool HasCommaInNumber(List<ScalarNode> cells)
    {
        var at = _header.FindIndex(column => column.Text == _layout.Quantity);
        if (_dialect.HasDecimalCommas
            || at < 0
            || at + 1 >= cells.Count
            || DecimalComma.Joined(cells[at], cells[at + 1]) is not { } whole
            || !whole.Text.Any(char.IsLetter)) return false;
        _diagnostics.Add(DecimalComma.Report(whole));
        return true;
    }

    // No name has a comma or a semicolon in it.
    private SyntaxNode List(string column, ScalarNode cell)
    {
        if (cell.Text.AsSpan().IndexOfAny(',', ';') < 0) return Words(cell);
        var names = cell.Text.Split([',', ';', ' '], StringSplitOptions.RemoveEmptyEntries);
        _diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
            cell.Span,
            $"names in the column `{column}` are separated by spaces",
            $"write `{Quotation.Shorten(string.Join(' ', names))}`"));
        return new RejectedNode(cell.Span);
    }

    // S1=0110 W3=B-C
    private SyntaxNode Pairs(string column, ScalarNode cell)
    {
        var entries = ImmutableArray.CreateBuilder<MappingEntry>();
        var names = new HashSet<string>(StringComparer.Ordinal);
        foreach (var word in Words(cell).Items.Cast<ScalarNode>())
        {
            var at = word.Text.IndexOf('=', StringComparison.Ordinal);
            if (at <= 0 || at + 1 == word.Text.Length)
            {
                _diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
                    word.Span,
                    $"in the column `{column}`, `{word.Short}` is not a name joined to its value",
                    "write each as `S1=0110`, separated by spaces"));
                return new RejectedNode(cell.Span);
            }

            var (name, value) = (word.Text[..at], word.Text[(at + 1)..]);
            var isPlain = word.Span.Length == word.Text.Length;
            if (!names.Add(name))
            {
                _diagnostics.Add(DiagnosticDescriptors.DuplicateKey.At(
                    word.Span, $"`{Quotation.Shorten(name)}` is given twice in the column `{column}`", "remove one of the two"));
                return new RejectedNode(cell.Span);
            }

            entries.Add(new MappingEntry(
                word with { Text = name, Span = isPlain ? word.Span.Slice(0, at) : word.Span },
                word with { Text = value, Span = isPlain ? word.Span.Slice(at + 1, value.Length) : word.Span }));
        }

        return new MappingNode(cell.Span, entries.DrainToImmutable());
    }

    private static ImmutableArray<string> Known(TableLayout layout) => [.. layout.All.Keys.Select(key => key.Name)];

    private static string KnownColumns(TableLayout layout) => "known columns: "
        + string.Join(", ", Known(layout).Where(name => !layout.Evidence.ContainsKey(name)))
        + $", and columns such as `{layout.Quantity}_from` (see `asfound format {layout.Folder}`)";

    private static ListNode Words(ScalarNode cell)
    {
        var words = ImmutableArray.CreateBuilder<SyntaxNode>();
        foreach (var range in cell.Text.AsSpan().Split(' '))
        {
            var (start, length) = range.GetOffsetAndLength(cell.Text.Length);
            if (length == 0) continue;
            var span = cell.Span.Length == cell.Text.Length ? cell.Span.Slice(start, length) : cell.Span;
            words.Add(new ScalarNode(span, cell.Text.Substring(start, length), ScalarNotation.Cell));
        }

        return new ListNode(cell.Span, words.DrainToImmutable());
    }
}
