using System.Globalization;
using Archive.Diagnostics;

namespace Archive.Preservation;

/// <summary>Whether a bag is complete (RFC 8493, 3): the required parts, all that is listed, all of the payload listed.</summary>
internal static class BagCompleteness
{
    /// <summary>Tells what keeps a bag from being complete.</summary>
    /// <param name="bag">The bag.</param>
    /// <param name="lists">What it writes of itself.</param>
    internal static IEnumerable<Diagnostic> Check(BagContents bag, BagLists lists) =>
        Required(bag, lists).Concat(lists.All.SelectMany(manifest => Listed(bag, lists, manifest))).Concat(Unlisted(bag, lists)).Concat(TagRules(lists)).Concat(Fetched(bag, lists));

    private static IEnumerable<Diagnostic> Required(BagContents bag, BagLists lists)
    {
        // A folder without a file in it is still a folder; one that is a link is none.
        if (!bag.HasFolder("data"))
        {
            yield return Faults.BagPartMissing.At(At("data"), "there is no folder data/, which holds the payload of a bag", "bring it back, also where it is empty");
        }

        if (lists.Payload.IsEmpty)
        {
            yield return Faults.BagPartMissing.At(At("manifest-sha512.txt"), "there is no manifest, which lists the payload of a bag with its checksums", "bring it back: without it nothing can be verified");
        }
    }

    private static IEnumerable<Diagnostic> Listed(BagContents bag, BagLists lists, BagManifest manifest)
    {
        var first = new Dictionary<string, ManifestLine>(StringComparer.Ordinal);
        var addresses = manifest.IsOfTags ? null : lists.Fetch.DistinctBy(fetch => fetch.Path, StringComparer.Ordinal).ToDictionary(fetch => fetch.Path, fetch => fetch.Address, StringComparer.Ordinal);
        foreach (var line in manifest.Lines)
        {
            if (first.TryGetValue(line.Path, out var before)) yield return Twice(line, before, lists.Declaration.Version);
            else first[line.Path] = line;
            if (lists.FileOf(bag, line.Path) is not null) continue;
            var address = addresses?.GetValueOrDefault(line.Path);
            yield return Faults.ListedFileMissing.At(
                line.PathSpan, $"{line.Path} is listed and not there", address is null ? "bring it back from another copy" : $"fetch it from {address}: the bag is complete when all of fetch.txt is there");
        }
    }

    private static Diagnostic Twice(ManifestLine line, ManifestLine before, BagVersion version)
    {
        var related = new Related(before.PathSpan, "first listed here");
        if (!line.Digest.AsSpan().SequenceEqual(before.Digest))
        {
            return Faults.FileListedTwice.At(line.PathSpan, $"{line.Path} is listed again, with another checksum", "one of the two is wrong; find out which, and take it out", related);
        }

        return (version.IsStandard ? Faults.FileListedTwice : Faults.FileListedAgain).At(line.PathSpan, $"{line.Path} is listed again, with the same checksum", "take one of the two lines out", related);
    }

    private static IEnumerable<Diagnostic> Unlisted(BagContents bag, BagLists lists)
    {
        if (lists.Payload.IsEmpty) yield break;
        var listed = lists.Payload
            .Select(manifest => (manifest.Source.Path, Files: manifest.Lines.Select(line => lists.FileOf(bag, line.Path)).OfType<string>().ToHashSet(StringComparer.Ordinal))).ToList();
        foreach (var file in bag.Files.Where(file => file.StartsWith(BagPath.Payload, StringComparison.Ordinal)))
        {
            var without = listed.Where(manifest => !manifest.Files.Contains(file)).Select(manifest => manifest.Path).ToList();
            if (without.Count == 0 || (!lists.Declaration.Version.IsStandard && without.Count < listed.Count)) continue;
            yield return Faults.UnlistedFile.At(
                At(file), without.Count == listed.Count ? $"{file} is listed in no manifest" : $"{file} is not listed in {string.Join(", ", without)}",
                "it was added or renamed after the bag was made, or its line was lost; nothing vouches for it");
        }
    }

    // RFC 8493, 2.2.1. The drafts before it said "should".
    private static IEnumerable<Diagnostic> TagRules(BagLists lists)
    {
        foreach (var manifest in lists.Tags)
        {
            foreach (var line in manifest.Lines.Where(line => line.Path.StartsWith(BagPath.Payload, StringComparison.Ordinal) || BagManifest.IsForTags(line.Path)))
            {
                yield return Faults.TagManifestScope.At(line.PathSpan, $"{line.Path} is no file for a tag manifest", "a tag manifest lists neither payload nor tag manifests; take the line out");
            }

            if (!lists.Declaration.Version.IsStandard) continue;
            var listed = manifest.Lines.Select(line => line.Path).ToHashSet(StringComparer.Ordinal);
            foreach (var payload in lists.Payload.Where(payload => !listed.Contains(payload.Source.Path)))
            {
                yield return Faults.TagManifestScope.At(
                    At(manifest.Source.Path), $"{manifest.Source.Path} does not list {payload.Source.Path}", "a tag manifest lists every manifest of the payload; without the line that one could be changed unseen");
            }
        }
    }

    private static IEnumerable<Diagnostic> Fetched(BagContents bag, BagLists lists)
    {
        if (lists.Fetch.IsEmpty) yield break;
        var listed = lists.Payload.Select(manifest => (manifest.Source.Path, Files: manifest.Lines.Select(line => line.Path).ToHashSet(StringComparer.Ordinal))).ToList();
        foreach (var fetch in lists.Fetch)
        {
            var without = listed.Where(manifest => !manifest.Files.Contains(fetch.Path)).Select(manifest => manifest.Path).ToList();
            if (without.Count > 0 && (lists.Declaration.Version.IsStandard || without.Count == listed.Count))
            {
                yield return Faults.FetchUnlisted.At(fetch.Span, $"{fetch.Path} is to be fetched and not listed in {string.Join(", ", without)}", "what is fetched must be listed with its checksum in every manifest of the payload");
            }

            if (fetch.Length is { } length && bag.Sizes.TryGetValue(fetch.Path, out var size) && size != length)
            {
                yield return Faults.FetchLength.At(
                    fetch.Span, string.Create(CultureInfo.InvariantCulture, $"{fetch.Path} has {size} bytes, and fetch.txt says {length}"), "the checksum decides: if that is right, correct fetch.txt");
            }
        }
    }

    private static SourceSpan At(string path) => new SourceText(path, "").Whole;
}
