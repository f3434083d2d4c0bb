using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Preservation.Bags;
using Archive.Preservation.Fixity;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;

namespace Archive.Preservation.Audits;

/// <summary>
/// Compares a published site with its <c>site.sha256</c>: every listed file there and unchanged, no other file. Names at its top that begin
/// with a dot are the owner's.
/// </summary>
internal static class SiteAudit
{
    /// <summary>Audits a site.</summary>
    /// <param name="root">Full path of its folder.</param>
    internal static AuditOutcome Run(string root, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var site = BagFolder.List(root);
        var diagnostics = new List<Diagnostic>();
        var source = TagFile.Read(site, SiteManifest.FileName, System.Text.Encoding.UTF8, diagnostics).Source;
        var listed = new Dictionary<string, SourceSpan>(StringComparer.Ordinal);
        var sums = new List<(string Path, RecordedChecksum Sum)>();
        foreach (var line in new TagFile(source).Lines)
        {
            if (SiteManifest.Entry(line.Text) is not { } entry)
            {
                diagnostics.Add(DiagnosticDescriptors.ManifestLine.At(
                    line,
                    $"this line of {SiteManifest.FileName} cannot be read",
                    "a line is a checksum of 64 lower-case hexadecimal digits, two spaces, and the path of a file"));
                continue;
            }

            var place = line.Slice(entry.PathAt, line.Length - entry.PathAt);
            if (BagPath.Danger(entry.Path) is { } why)
                diagnostics.Add(DiagnosticDescriptors.PathLeavesBag.At(place, $"{entry.Path} {why}", "it was not followed"));
            else if (!listed.TryAdd(entry.Path, place)) diagnostics.Add(DiagnosticDescriptors.FileListedTwice.At(
                place, $"{entry.Path} is listed again", "publish the site again", new Related(listed[entry.Path], "first listed here")));
            else if (!site.Sizes.ContainsKey(entry.Path)) diagnostics.Add(DiagnosticDescriptors.ListedFileMissing.At(
                place, $"{entry.Path} is listed but missing", "restore it from another copy, or publish the site again"));
            else sums.Add((entry.Path, new RecordedChecksum(
                DigestAlgorithm.Sha256,
                Convert.FromHexString(entry.Sha256),
                line.Slice(entry.PathAt - SiteManifest.SumLength - 2, SiteManifest.SumLength))));
        }

        diagnostics.AddRange(BagAudit.OfSpecial(site));
        diagnostics.AddRange(site.Files.Concat(site.Links)
            .Where(file => !file.StartsWith('.') && file != SiteManifest.FileName && !listed.ContainsKey(file))
            .Select(file => DiagnosticDescriptors.UnlistedFile.At(
                new SourceText(file, "").Whole,
                $"{file} is not listed in {SiteManifest.FileName}",
                "it was not published by this tool; move it elsewhere")));
        var (differing, bytes) = ChecksumVerification.Verify(
            site, sums.ToLookup(sum => sum.Path, sum => sum.Sum, StringComparer.Ordinal), progress, cancellation);
        return new AuditOutcome(AuditSubject.Site, "published site", [.. diagnostics.Concat(differing).Order(Diagnostic.Order)])
        {
            Files = sums.Count,
            Bytes = bytes,
            Algorithms = ["sha256"]
        };
    }
}
