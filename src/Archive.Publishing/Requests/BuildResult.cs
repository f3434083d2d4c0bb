using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Publication;

namespace Archive.Publishing.Requests;

/// <summary>What came of a build.</summary>
/// <param name="Count">What the record holds.</param>
/// <param name="Diagnostics">All that is to be reported about the record and the theme, in order.</param>
/// <param name="Status">How it ended.</param>
public sealed record BuildResult(RecordCount Count, ImmutableArray<RenderedDiagnostic> Diagnostics, BuildStatus Status)
{
    /// <summary>Errors by severity.</summary>
    public DiagnosticCounts Counts => DiagnosticCounts.From(Diagnostics);
}

/// <summary>How a build ended.</summary>
public abstract record BuildStatus
{
    private BuildStatus()
    {
    }

    /// <summary>The record was checked; nothing was to be published.</summary>
    public sealed record Checked : BuildStatus;

    /// <summary>The record was checked, and its site can be asked for its files; nothing is published.</summary>
    public sealed record Ready : BuildStatus;

    /// <summary>The site stands.</summary>
    /// <param name="Written">How many of them were written.</param>
    /// <param name="Removed">How many of the old site's are no more.</param>
    public sealed record Published(ImmutableArray<PublishedFile> Files, int Written, int Removed) : BuildStatus;

    /// <summary>Neither inputs nor site changed since the last publication.</summary>
    /// <param name="Files">The site's files.</param>
    public sealed record Unchanged(ImmutableArray<PublishedFile> Files) : BuildStatus;

    /// <summary>Errors stood in the way; the site is as it was.</summary>
    public sealed record Withheld : BuildStatus;

    /// <summary>Something outside stood in the way; the site is as it was.</summary>
    /// <param name="Why">What it was.</param>
    public sealed record Refused(Diagnostic Why) : BuildStatus;
}
