using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Preservation.Bags;
using Archive.Preservation.Fixity;
using Archive.Publishing.Requests;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Preservation.Audits;

/// <summary>
/// Compares the originals of an archive with the checksums in their records, reading every byte: the daily check trusts what it has seen
/// before, this does not.
/// </summary>
internal static class PhotoAudit
{
    /// <summary>Audits an archive's photos and documents.</summary>
    /// <param name="root">Full path of the archive's folder.</param>
    internal static AuditOutcome Run(string root, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var parsed = RecordReader.Read(new ArchiveFolder(root), cancellation);
        var folder = BagFolder.List(root);

        // A record of a photo that cannot be read may be the one that verifies it.
        var diagnostics =
            parsed.Diagnostics.Where(diagnostic => IsOfOriginals(diagnostic.Span.Path)).ToList();
        var sums = new List<(string Path, RecordedChecksum Sum)>();
        foreach (var photo in parsed.Records.OfType<Photo>())
        {
            Verify(photo, photo.File, photo.FilePath, photo.Sha256, "sha256");
            Verify(photo, photo.Raw, photo.RawPath, photo.RawSha256, "raw_sha256");
        }

        foreach (var file in parsed.Records.OfType<Document>().SelectMany(document => document.Files))
        {
            if (file.FilePath is not { } path) continue;
            if (!folder.Sizes.ContainsKey(path))
            {
                diagnostics.Add(DiagnosticDescriptors.MissingDocumentFile.At(
                    file.File.Span, $"there is no file `{path}`", "restore the file from another copy, or correct the name"));
            }
            else if (file.Sha256 is { } sum)
            {
                sums.Add((path, new RecordedChecksum(DigestAlgorithm.Sha256, Convert.FromHexString(sum.Value), sum.Span)));
            }
            else
            {
                diagnostics.Add(DiagnosticDescriptors.PhotoWithoutSum.At(
                    file.File.Span,
                    $"`{path}` cannot be verified: its record has no checksum",
                    $"if you know that it is the original, write `{{file: {file.File.Value}, sha256: {Sum(folder, path)}}}`"));
            }
        }

        void Verify(Photo photo, Stated<string>? named, string? path, Stated<string>? recorded, string key)
        {
            if (named is not { } file || path is null) return;
            if (!folder.Sizes.ContainsKey(path))
            {
                if (!photo.IsWithdrawn) diagnostics.Add(DiagnosticDescriptors.MissingPhoto.At(
                    file.Span, $"photo `{path}` is missing", "restore the original from another copy, or correct the name"));
            }
            else if (recorded is { } sum)
            {
                sums.Add((path, new RecordedChecksum(DigestAlgorithm.Sha256, Convert.FromHexString(sum.Value), sum.Span)));
            }
            else
            {
                diagnostics.Add(DiagnosticDescriptors.PhotoWithoutSum.At(
                    file.Span,
                    $"`{path}` cannot be verified: its record has no checksum",
                    $"if you know that it is the original, add `{key}: {Sum(folder, path)}`"));
            }
        }

        var (differing, bytes) = ChecksumVerification.Verify(
            folder, sums.ToLookup(sum => sum.Path, sum => sum.Sum, StringComparer.Ordinal), progress, cancellation);
        var told = diagnostics.Concat(differing.Select(AsOriginal)).Order(Diagnostic.Order);
        return new AuditOutcome(AuditSubject.Archive, "archive", [.. told])
        {
            Files = sums.Count,
            Bytes = bytes,
            Algorithms = ["sha256"]
        };
    }

    private static bool IsOfOriginals(string path) =>
        path.StartsWith("photos/", StringComparison.Ordinal) || path.StartsWith("documents/", StringComparison.Ordinal);

    private static Diagnostic AsOriginal(Diagnostic diagnostic)
    {
        if (diagnostic.Descriptor != DiagnosticDescriptors.FileDiffers) return diagnostic;
        var isDocument = diagnostic.Span.Path.StartsWith("documents/", StringComparison.Ordinal);
        return (isDocument ? DiagnosticDescriptors.AlteredDocumentFile : DiagnosticDescriptors.PhotoChecksum).At(
            diagnostic.Span,
            $"this {(isDocument ? "file" : "photo")} does not match its recorded checksum",
            "restore the original; write the new checksum only if the change was intended");
    }

    private static string Sum(BagFolder folder, string path)
    {
        try
        {
            using var file = folder.Open(path);
            return Convert.ToHexStringLower(FileDigester.Compute(file, folder.Sizes[path], [DigestAlgorithm.Sha256]).Digests[0]);
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return "…";
        }
    }
}
