using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Preservation.Bags;

/// <summary>
/// Names that will be trouble when a bag is unpacked on another system (RFC 8493, 6.1). None of it keeps a bag from being valid.
/// </summary>
internal static class BagNames
{
    /// <summary>Tells such names, each once.</summary>
    /// <param name="lists">What the bag writes of itself.</param>
    internal static IEnumerable<Diagnostic> Check(BagLists lists)
    {
        var lines = lists.Payload.SelectMany(manifest => manifest.Lines).DistinctBy(line => line.Path, StringComparer.Ordinal);
        var first = new Dictionary<string, ManifestLine>(StringComparer.Ordinal);
        foreach (var line in lines)
        {
            if (BagPath.Trouble(line.Path) is { } why) yield return DiagnosticDescriptors.NameTrouble.At(
                line.PathSpan, $"{line.Path} causes trouble on some systems: {why}", "rename the file before making the bag");
            if (first.TryAdd(BagPath.Fold(line.Path), line)) continue;
            var other = first[BagPath.Fold(line.Path)];
            yield return DiagnosticDescriptors.NamesAlike.At(
                line.PathSpan,
                $"{line.Path} and {other.Path} differ only in {(CanonicalLetters.Apart(line.Path) == CanonicalLetters.Apart(other.Path) ? "how Unicode writes a letter" : "letter case")}",
                "on some systems one of them replaces the other; rename one before making the bag",
                    new Related(other.PathSpan, "the other one"));
        }
    }
}
