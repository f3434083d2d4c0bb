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
    /// <summary>Audits an archive's photos.</summary>
    /// <param name="root">Full path of the archive's folder.</param>
    internal static AuditOutcome Run(string root, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var parsed = RecordReader.Read(new ArchiveFolder(root), cancellation);
        var folder = BagFolder.List(root);

        // A record of a photo that cannot be read may be the one that verifies it.
        var diagnostics =
            parsed.Diagnostics.Where(diagnostic => diagnostic.Span.Path.StartsWith("photos/", StringComparison.Ordinal)).ToList();
        var sums = new List<(string Path, RecordedChecksum Sum)>();
        foreach (var photo in parsed.Records.OfType<Photo>())
        {
            if (photo.File is not { } file || photo.FilePath is not { } path) continue;
            if (!folder.Sizes.ContainsKey(path))
            {
                if (!photo.IsWithdrawn) diagnostics.Add(DiagnosticDescriptors.MissingPhoto.At(
                    file.Span, $"photo `{path}` is missing", "restore the original from another copy, or correct the name"));
            }
            else if (photo.Sha256 is { } sum)
            {
                sums.Add((path, new RecordedChecksum(DigestAlgorithm.Sha256, Convert.FromHexString(sum.Value), sum.Span)));
            }
            else
            {
                diagnostics.Add(DiagnosticDescriptors.PhotoWithoutSum.At(
                    file.Span,
                    $"`{path}` cannot be verified: its record has no checksum",
                    $"if you know that it is the original, add `sha256: {Sum(folder, path)}`"));
            }
        }

        var (differing, bytes) = ChecksumVerification.Verify(
            folder, sums.ToLookup(sum => sum.Path, sum => sum.Sum, StringComparer.Ordinal), progress, cancellation);
        return new AuditOutcome(AuditSubject.Archive, "archive", [.. diagnostics.Concat(differing.Select(AsPhoto)).Order(Diagnostic.Order)])
        {
            Files = sums.Count,
            Bytes = bytes,
            Algorithms = ["sha256"]
        };
    }

    private static Diagnostic AsPhoto(Diagnostic diagnostic) => diagnostic.Descriptor != DiagnosticDescriptors.FileDiffers ? diagnostic
        : DiagnosticDescriptors.PhotoChecksum.At(
            diagnostic.Span,
            "this photo does not match its recorded checksum",
            "restore the original; write the new checksum only if the change was intended");

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
