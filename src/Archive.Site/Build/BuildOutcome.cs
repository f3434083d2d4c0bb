using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Site;

/// <summary>What came of a build.</summary>
/// <param name="Count">What the record holds.</param>
/// <param name="Faults">All that is to be told of the record and the theme, in order.</param>
/// <param name="Ending">How it ended.</param>
public sealed record BuildOutcome(RecordCount Count, ImmutableArray<Telling> Faults, BuildEnding Ending)
{
    /// <summary>Faults by severity.</summary>
    public FaultTally Tally => FaultTally.Of(Faults);
}

/// <summary>How a build ended.</summary>
public abstract record BuildEnding
{
    private BuildEnding()
    {
    }

    /// <summary>The record was checked; nothing was to be published.</summary>
    public sealed record Checked : BuildEnding;

    /// <summary>The site stands.</summary>
    /// <param name="Files">Its files.</param>
    /// <param name="Written">How many of them were written.</param>
    /// <param name="Removed">How many of the old site's are no more.</param>
    public sealed record Published(ImmutableArray<PublishedFile> Files, int Written, int Removed) : BuildEnding;

    /// <summary>Neither inputs nor site changed since the last publication.</summary>
    /// <param name="Files">The site's files.</param>
    public sealed record Unchanged(ImmutableArray<PublishedFile> Files) : BuildEnding;

    /// <summary>Faults stood in the way; the site stands as it was.</summary>
    public sealed record Withheld : BuildEnding;

    /// <summary>Something outside stood in the way; the site stands as it was.</summary>
    /// <param name="Why">What it was.</param>
    public sealed record Refused(Diagnostic Why) : BuildEnding;
}
