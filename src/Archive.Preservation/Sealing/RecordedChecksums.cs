using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Publishing.Publication;
using Archive.Records.Model;

namespace Archive.Preservation.Sealing;

/// <summary>
/// Compares what was packed with what was recorded of it before: photos and documents against the checksums in their records, the site
/// against its own list. A check trusts files that look untouched; a bag must not verify one that a disk has spoiled.
/// </summary>
internal static class RecordedChecksums
{
    /// <summary>Tells originals that are not those that were recorded.</summary>
    /// <param name="sealedFiles">What was packed or withheld.</param>
    internal static ImmutableArray<Diagnostic> Originals(ParseResult parsed, IEnumerable<SealedFile> sealedFiles)
    {
        var sums = ByPath(sealedFiles, Sealer.Record);
        var photos = parsed.Records.OfType<Photo>()
            .SelectMany(photo => new[] { (Path: photo.FilePath, Sum: photo.Sha256), (Path: photo.RawPath, Sum: photo.RawSha256) })
            .Where(file => file is { Path: { } path, Sum: { } sum } && sums.TryGetValue(path, out var now) && now != sum.Value)
            .Select(file => DiagnosticDescriptors.PhotoChecksum.At(
                file.Sum!.Value.Span,
                $"photo `{file.Path}` is not the file that was recorded: its SHA-256 is {sums[file.Path!]}",
                "restore the original; write the new checksum only if the change was intended"));
        var documents = parsed.Records.OfType<Document>()
            .SelectMany(document => document.Files)
            .Where(file => file is { Sha256: { } sum, FilePath: { } path } && sums.TryGetValue(path, out var now) && now != sum.Value)
            .Select(file => DiagnosticDescriptors.AlteredDocumentFile.At(
                file.Sha256!.Value.Span,
                $"`{file.FilePath}` is not the file that was recorded: its checksum is `{sums[file.FilePath!]}`",
                "restore the file from a copy; write the new checksum only if the change was intended"));
        return [.. photos.Concat(documents).Order(Diagnostic.Order)];
    }

    /// <summary>A file of the site that is not what was published; null where all are.</summary>
    /// <param name="site">Full path of the site's folder.</param>
    /// <param name="sealedFiles">What was packed.</param>
    internal static string? Site(string site, IEnumerable<SealedFile> sealedFiles)
    {
        var sums = ByPath(sealedFiles, Sealer.Site);
        return File.ReadLines(Path.Combine(site, SiteManifest.FileName))
            .Select(line => SiteManifest.Entry(line))
            .OfType<(string Path, string Sha256, int)>()
            .Where(entry => sums.GetValueOrDefault(entry.Path) != entry.Sha256)
            .Select(entry => entry.Path)
            .FirstOrDefault();
    }

    private static FrozenDictionary<string, string> ByPath(IEnumerable<SealedFile> files, string folder) => files
        .Where(file => file.Path.StartsWith(folder, StringComparison.Ordinal))
            .ToFrozenDictionary(file => file.Path[folder.Length..], file => file.Sha256, StringComparer.Ordinal);
}
