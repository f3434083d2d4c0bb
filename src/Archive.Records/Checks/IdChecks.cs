using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>Ids: each is given once, never again, and can be a part of a web address and a folder on any disk.</summary>
internal static class IdChecks
{
    // Names that Windows keeps for devices, with any extension: RFC 8493 section 6.1.2 warns of them for packages that travel.
    private static readonly HashSet<string> DeviceNames = new(
        [.. new[] { "CON", "PRN", "AUX", "NUL" }, .. Enumerable.Range(1, 9).SelectMany(n => new[] { $"COM{n}", $"LPT{n}" })],
        StringComparer.OrdinalIgnoreCase);

    public static IEnumerable<Diagnostic> UsedOnce(CheckContext context)
    {
        var first = new Dictionary<string, ArchiveRecord>(context.Draft.Records.Length, StringComparer.OrdinalIgnoreCase);
        foreach (var record in context.Draft.Records)
        {
            if (first.TryAdd(record.Id, record)) continue;
            var earlier = first[record.Id];
            var related = new Related(earlier.IdSpan, "first written here");
            yield return earlier.Id == record.Id
                ? DiagnosticDescriptors.DuplicateId.At(
                    record.IdSpan,
                    $"id `{record.Id}` is already the id of {RecordPhrases.One(earlier.RecordKind)}",
                    "give this record a different id",
                    related)
                : DiagnosticDescriptors.DuplicateIdByCase.At(
                    record.IdSpan,
                    $"ids `{record.Id}` and `{earlier.Id}` differ only by letter case",
                    "give this record an id that differs in more than case",
                    related);
        }
    }

    public static IEnumerable<Diagnostic> NeverUsedAgain(CheckContext context)
    {
        var renamed = context.Draft.Records.Where(record => !record.Was.IsEmpty).ToList();
        if (renamed.Count == 0) yield break;
        var now = new Dictionary<string, ArchiveRecord>(context.Draft.Records.Length, StringComparer.OrdinalIgnoreCase);
        foreach (var record in context.Draft.Records) now.TryAdd(record.Id, record);
        var former = new Dictionary<string, Stated<string>>(StringComparer.OrdinalIgnoreCase);
        foreach (var (record, was) in renamed.SelectMany(record => record.Was.Select(was => (record, was))))
        {
            if (string.Equals(was.Value, record.Id, StringComparison.OrdinalIgnoreCase))
            {
                yield return DiagnosticDescriptors.ReusedId.At(
                    was.Span,
                    $"`{was.Value}` is the present id of this record",
                    "remove it from `was`",
                    new Related(record.IdSpan, "its id"));
            }
            else if (now.TryGetValue(was.Value, out var other))
            {
                yield return DiagnosticDescriptors.ReusedId.At(
                    other.IdSpan,
                    $"id `{other.Id}` was the id of {record.RecordKind.Noun()} `{record.Id}`, and an id is never used again",
                    "give this record an id that was never used",
                    new Related(was.Span, "used before, by this record"));
            }
            else if (!former.TryAdd(was.Value, was))
            {
                yield return DiagnosticDescriptors.ReusedId.At(
                    was.Span,
                    $"`{was.Value}` is listed twice as a former id",
                    "keep it in the `was` of the one record that had it",
                    new Related(former[was.Value].Span, "first written here"));
            }
        }
    }

    public static IEnumerable<Diagnostic> IdsValidInAddresses(CheckContext context)
    {
        foreach (var record in context.Draft.Records)
        {
            if (Unfit(record.Id, record.IdSpan) is { } diagnostic) yield return diagnostic;
            foreach (var was in record.Was)
            {
                if (Unfit(was.Value, was.Span) is { } ofFormer) yield return ofFormer;
            }
        }
    }

    public static IEnumerable<Diagnostic> FrameIdsDistinct(CheckContext context)
    {
        var first = new Dictionary<string, Frame>(LeadingZeros.Comparer);
        foreach (var frame in context.Draft.Records.OfType<Frame>())
        {
            if (first.TryAdd(frame.Id, frame) || first[frame.Id].Id == frame.Id) continue;
            yield return DiagnosticDescriptors.AmbiguousFrame.At(
                frame.IdSpan,
                $"frames `{frame.Id}` and `{first[frame.Id].Id}` differ only by leading zeros, which addresses ignore",
                "give this frame an id that differs in more than zeros",
                new Related(first[frame.Id].IdSpan, "first written here"));
        }
    }

    private static Diagnostic? Unfit(string id, SourceSpan span) =>
        WhyUnfit(id) is { } why
            ? DiagnosticDescriptors.ReservedId.At(span, $"`{id}` {why}", "choose another id: ids become folders of the published site")
            : null;

    private static string? WhyUnfit(string id)
    {
        if (id.EndsWith('.')) return "ends in a dot, which some file systems drop";
        var dot = id.IndexOf('.', StringComparison.Ordinal);
        var stem = dot < 0 ? id : id[..dot];
        if (DeviceNames.Contains(stem)) return $"is `{stem.ToUpperInvariant()}` on Windows, the name of a device";
        return string.Equals(id, "index.html", StringComparison.OrdinalIgnoreCase) ? "is the name of a page of the published site" : null;
    }
}
