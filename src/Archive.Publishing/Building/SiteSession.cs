using Archive.Diagnostics.Rendering;
using Archive.Publishing.Caching;
using Archive.Publishing.Incremental;
using Archive.Publishing.Requests;
using Archive.Records.Reading;

namespace Archive.Publishing.Building;

/// <summary>
/// An archive that is edited while its site is looked at. Nothing is published: after each change what has changed is read, everything is
/// checked, and the site is there to be asked for its files. Between two changes the parsed files, the theme and the photos are kept.
/// </summary>
/// <param name="options">What is to be built.</param>
public sealed class SiteSession(BuildOptions options)
{
    private readonly BuildMemory _memory = new();
    private string? _fingerprint;

    /// <summary>The site of the latest state without errors; null before the first.</summary>
    public SiteSnapshot? Site { get; private set; }

    /// <summary>Files of the record that the latest update had to read.</summary>
    internal int FilesRead => _memory.Files?.Read ?? 0;

    /// <summary>Reads what has changed, and checks the record.</summary>
    /// <param name="cancellation">Gives up; all is as it was.</param>
    /// <returns>What came of it; null if nothing has changed since the last time.</returns>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public BuildResult? Update(CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(options.Content);
        var stamps = InputStamps.Open(options.Cache, TimeProvider.System);
        var fingerprint = Fingerprint.Compute(options, folder, stamps, cancellation);
        stamps.Keep();
        if (fingerprint.Whole == _fingerprint) return null;

        var site = PreparedSite.Prepare(options, folder, fingerprint, _memory, isWhole: false, null, cancellation);
        _fingerprint = fingerprint.Whole;
        if (site.Parts is { } parts) Site = new SiteSnapshot(parts, site.Offline!, options);
        return new BuildResult(
            RecordCount.From(site.Record),
            RenderedDiagnostic.FromAll(site.Diagnostics, options.PrefixFor),
            site.Parts is null ? new BuildStatus.Withheld() : new BuildStatus.Ready());
    }
}
