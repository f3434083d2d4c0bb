using Archive.Preservation.Bags;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;

namespace Archive.Preservation.Audits;

/// <summary>Compares a folder with the checksums that were recorded for it.</summary>
public static class Audit
{
    /// <summary>What a folder is, by what stands at its top.</summary>
    /// <param name="folder">Full path.</param>
    /// <returns>Null for a folder that is none of them.</returns>
    public static AuditSubject? SubjectOf(string folder)
    {
        if (File.Exists(Path.Combine(folder, BagDeclaration.FileName))) return AuditSubject.Bag;
        if (File.Exists(Path.Combine(folder, SiteManifest.FileName))) return AuditSubject.Site;
        if (File.Exists(Path.Combine(folder, "archive.yaml"))) return AuditSubject.Archive;
        return Directory.EnumerateFiles(folder, "*.txt").Any(file => BagManifest.Is(Path.GetFileName(file))) ? AuditSubject.Bag : null;
    }

    /// <summary>Audits a bag that is packed into a ZIP file; nothing is unpacked.</summary>
    /// <param name="zip">Full path of the file.</param>
    /// <exception cref="IOException">The file cannot be read.</exception>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    public static AuditOutcome OfPacked(string zip, IProgress<BuildProgress>? progress, CancellationToken cancellation) =>
        BagAudit.OfPacked(zip, progress, cancellation);

    /// <summary>Audits a folder.</summary>
    /// <param name="folder">Full path.</param>
    /// <exception cref="IOException">The folder cannot be listed.</exception>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    public static AuditOutcome Run(
        AuditSubject subject, string folder, IProgress<BuildProgress>? progress, CancellationToken cancellation) =>
        subject switch
        {
            AuditSubject.Bag => BagAudit.Run(folder, progress, cancellation),
            AuditSubject.Site => SiteAudit.Run(folder, progress, cancellation),
            _ => PhotoAudit.Run(folder, progress, cancellation),
        };
}
