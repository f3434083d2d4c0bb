using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>
/// Leaves out the warnings that a record, or the whole archive, accepts with a reason, and those about a record that has an error: they
/// may only follow from it. Warns of those that are accepted and do not occur, so that a reason does not outlive its fact.
/// </summary>
public static class AcceptedWarnings
{
    /// <summary>How to accept a warning, for its help.</summary>
    public static string Help(DiagnosticDescriptor warning) => $"if it is right, say why: `accept: {{{warning.Code}: …}}` on the record";

    /// <param name="found">What all checks found.</param>
    /// <param name="isJudged">Whether a warning was looked for at all.</param>
    /// <remarks>
    /// n log n in the records of files that have errors or accept anything; each warning is looked up in logarithmic time.
    /// </remarks>
    public static IEnumerable<Diagnostic> Apply(
        IReadOnlyCollection<Diagnostic> found, ArchiveModel record, Func<DiagnosticDescriptor, bool> isJudged)
    {
        var all = record.Statement.Accepts.ToDictionary(accepted => accepted.Code, _ => false, StringComparer.Ordinal);
        var errors = found.Where(diagnostic => diagnostic.Severity == Severity.Error).ToList();
        var accepting = record.ById.Values.Where(each => !each.Accepts.IsEmpty).ToList();
        var places = Places(record, [.. accepting.Select(each => each.Span.Path), .. errors.Select(error => error.Span.Path)]);
        var broken = errors.Select(error => Around(places, error)).OfType<ArchiveRecord>().ToHashSet(ReferenceEqualityComparer.Instance);
        var used = new HashSet<AcceptedWarning>(ReferenceEqualityComparer.Instance);
        foreach (var diagnostic in found)
        {
            var about = DiagnosticDescriptors.Acceptable.Contains(diagnostic.Descriptor) ? Around(places, diagnostic) : null;
            if (about is not null && broken.Contains(about)) continue;
            if (about?.Accepts.FirstOrDefault(accepted => accepted.Code == diagnostic.Code) is { } own) used.Add(own);
            else if (all.ContainsKey(diagnostic.Code)) all[diagnostic.Code] = true;
            else yield return diagnostic;
        }

        var unused = accepting.SelectMany(each => each.Accepts).Where(accepted => !used.Contains(accepted))
            .Concat(record.Statement.Accepts.Where(accepted => !all[accepted.Code]))
            .Where(accepted => isJudged(DiagnosticDescriptors.Find(accepted.Code)!));
        foreach (var accepted in unused)
        {
            yield return DiagnosticDescriptors.NothingToAccept.At(
                accepted.Span, $"`{accepted.Code}` is accepted here, but there is no such warning", "remove it");
        }
    }

    // The records of some files, in their order.
    private static Dictionary<string, ImmutableArray<ArchiveRecord>> Places(ArchiveModel record, HashSet<string> paths) => paths.Count == 0
        ? []
        : record.ById.Values
            .Where(each => paths.Contains(each.Span.Path))
            .GroupBy(each => each.Span.Path, StringComparer.Ordinal)
            .ToDictionary(file => file.Key, file => file.OrderBy(each => each.Span.Start).ToImmutableArray(), StringComparer.Ordinal);

    // Records of a file do not overlap: the last that begins before a place is the one around it, if any is.
    private static ArchiveRecord? Around(Dictionary<string, ImmutableArray<ArchiveRecord>> places, Diagnostic diagnostic)
    {
        if (!places.TryGetValue(diagnostic.Span.Path, out var records)) return null;
        int low = 0, high = records.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (records[middle].Span.Start <= diagnostic.Span.Start) low = middle + 1;
            else high = middle;
        }

        return low > 0 && diagnostic.Span.Start <= records[low - 1].Span.End ? records[low - 1] : null;
    }
}
