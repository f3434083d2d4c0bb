using System.Globalization;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Preservation.Bags;

/// <summary>Whether a bag is complete (RFC 8493, 3): the required parts, all that is listed, all of the payload listed.</summary>
internal static class BagCompleteness
{
    /// <summary>Reports what keeps a bag from being complete.</summary>
    /// <param name="lists">What it writes of itself.</param>
    internal static IEnumerable<Diagnostic> Check(BagContents bag, BagLists lists) =>
        Required(bag, lists)
            .Concat(lists.All.SelectMany(manifest => Listed(bag, lists, manifest)))
            .Concat(Unlisted(bag, lists))
            .Concat(UnlistedTags(bag, lists))
            .Concat(TagRules(lists))
            .Concat(Fetched(bag, lists));

    private static IEnumerable<Diagnostic> Required(BagContents bag, BagLists lists)
    {
        // A folder without a file in it is still a folder; one that is a link is none.
        if (!bag.HasFolder("data"))
        {
            yield return DiagnosticDescriptors.BagPartMissing.At(
                At("data"), "the folder data/, which holds the payload, is missing", "restore it, even if it is empty");
        }

        if (lists.Payload.IsEmpty)
        {
            yield return DiagnosticDescriptors.BagPartMissing.At(
                At("manifest-sha512.txt"),
                "there is no manifest listing the payload and its checksums",
                "restore it: without it nothing can be verified");
        }
    }

    private static IEnumerable<Diagnostic> Listed(BagContents bag, BagLists lists, BagManifest manifest)
    {
        var first = new Dictionary<string, ManifestLine>(StringComparer.Ordinal);
        var addresses = manifest.IsOfTags ? null : lists.Fetch
            .DistinctBy(fetch => fetch.Path, StringComparer.Ordinal)
            .ToDictionary(fetch => fetch.Path, fetch => fetch.Address, StringComparer.Ordinal);
        foreach (var line in manifest.Lines)
        {
            if (first.TryGetValue(line.Path, out var before)) yield return Twice(line, before, lists.Declaration.Version);
            else first[line.Path] = line;
            if (lists.FileOf(bag, line.Path) is not null) continue;
            var address = addresses?.GetValueOrDefault(line.Path);
            yield return DiagnosticDescriptors.ListedFileMissing.At(
                line.PathSpan, $"{line.Path} is listed but missing", address is null
                    ? "restore it from another copy"
                    : $"download it from {address}: the bag is complete once everything in fetch.txt is there");
        }
    }

    private static Diagnostic Twice(ManifestLine line, ManifestLine before, BagVersion version)
    {
        var related = new Related(before.PathSpan, "first listed here");
        if (!line.Digest.AsSpan().SequenceEqual(before.Digest))
        {
            return DiagnosticDescriptors.FileListedTwice.At(
                line.PathSpan,
                $"{line.Path} is listed again, with another checksum",
                "one of the two is wrong; find out which, and remove it",
                related);
        }

        return (version.IsStandard ? DiagnosticDescriptors.FileListedTwice : DiagnosticDescriptors.FileListedAgain).At(
            line.PathSpan, $"{line.Path} is listed again, with the same checksum", "remove one of the two lines", related);
    }

    private static IEnumerable<Diagnostic> Unlisted(BagContents bag, BagLists lists)
    {
        if (lists.Payload.IsEmpty) yield break;
        var listed = lists.Payload
            .Select(manifest => (manifest.Source.Path, Files: manifest.Lines
                .Select(line => lists.FileOf(bag, line.Path))
                .OfType<string>()
                .ToHashSet(StringComparer.Ordinal))).ToList();
        foreach (var file in bag.Files.Where(file => file.StartsWith(BagPath.Payload, StringComparison.Ordinal)))
        {
            var without = listed.Where(manifest => !manifest.Files.Contains(file)).Select(manifest => manifest.Path).ToList();
            if (without.Count == 0 || (!lists.Declaration.Version.IsStandard && without.Count < listed.Count)) continue;
            yield return DiagnosticDescriptors.UnlistedFile.At(
                At(file), without.Count == listed.Count
                    ? $"{file} is listed in no manifest"
                    : $"{file} is not listed in {string.Join(", ", without)}",
                "it was added or renamed after the bag was made, or its line was lost; it cannot be verified");
        }
    }

    // RFC 8493 lets a tag manifest leave tag files out; anyone who unpacks the bag should still know what nothing verifies.
    private static IEnumerable<Diagnostic> UnlistedTags(BagContents bag, BagLists lists)
    {
        if (lists.Tags.IsEmpty) return [];
        var listed = lists.Tags
            .SelectMany(manifest => manifest.Lines)
            .Select(line => lists.FileOf(bag, line.Path))
            .OfType<string>()
            .ToHashSet(StringComparer.Ordinal);
        listed.UnionWith(lists.Payload.Select(manifest => manifest.Source.Path)); // one that is left out is an error below
        return bag.Files
            .Where(file => !file.StartsWith(BagPath.Payload, StringComparison.Ordinal)
                && !BagManifest.IsForTags(file)
                && !listed.Contains(file))
            .Select(file => DiagnosticDescriptors.UnlistedTagFile.At(
                At(file),
                $"{file} is listed in no tag manifest, so nothing says whether it was changed or added",
                "ask the person who made the bag what it is, before you use it"));
    }

    // RFC 8493, 2.2.1. The drafts before it said "should".
    private static IEnumerable<Diagnostic> TagRules(BagLists lists)
    {
        foreach (var manifest in lists.Tags)
        {
            foreach (var line in manifest.Lines.Where(line => line.Path.StartsWith(BagPath.Payload, StringComparison.Ordinal)
                || BagManifest.IsForTags(line.Path)))
            {
                yield return DiagnosticDescriptors.TagManifestScope.At(
                    line.PathSpan,
                    $"{line.Path} does not belong in a tag manifest",
                    "a tag manifest lists neither payload nor tag manifests; remove the line");
            }

            if (!lists.Declaration.Version.IsStandard) continue;
            var listed = manifest.Lines.Select(line => line.Path).ToHashSet(StringComparer.Ordinal);
            foreach (var payload in lists.Payload.Where(payload => !listed.Contains(payload.Source.Path)))
            {
                yield return DiagnosticDescriptors.TagManifestScope.At(
                    At(manifest.Source.Path),
                    $"{manifest.Source.Path} does not list {payload.Source.Path}",
                    "a tag manifest lists every payload manifest; without this line, that one could change unnoticed");
            }
        }
    }

    private static IEnumerable<Diagnostic> Fetched(BagContents bag, BagLists lists)
    {
        if (lists.Fetch.IsEmpty) yield break;
        var listed = lists.Payload
            .Select(manifest => (manifest.Source.Path, Files: manifest.Lines.Select(line => line.Path).ToHashSet(StringComparer.Ordinal)))
            .ToList();
        foreach (var fetch in lists.Fetch)
        {
            var without = listed.Where(manifest => !manifest.Files.Contains(fetch.Path)).Select(manifest => manifest.Path).ToList();
            if (without.Count > 0 && (lists.Declaration.Version.IsStandard || without.Count == listed.Count))
            {
                yield return DiagnosticDescriptors.FetchUnlisted.At(
                    fetch.Span,
                    $"{fetch.Path} is in fetch.txt but not listed in {string.Join(", ", without)}",
                    "files to download must be listed with their checksum in every payload manifest");
            }

            if (fetch.Length is { } length && bag.Sizes.TryGetValue(fetch.Path, out var size) && size != length)
            {
                yield return DiagnosticDescriptors.FetchLength.At(
                    fetch.Span,
                    string.Create(CultureInfo.InvariantCulture, $"{fetch.Path} has {size} bytes, but fetch.txt says {length}"),
                    "the checksum decides: if it matches, correct fetch.txt");
            }
        }
    }

    private static SourceSpan At(string path) => new SourceText(path, "").Whole;
}
