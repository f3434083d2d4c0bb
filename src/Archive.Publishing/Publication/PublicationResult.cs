using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Publishing.Publication;

/// <summary>What came of a publication.</summary>
public abstract record PublicationResult
{
    private PublicationResult()
    {
    }

    /// <summary>The new site stands.</summary>
    /// <param name="Files">Its files but the manifest, ordinal by path.</param>
    /// <param name="Written">How many were written; the others are the old site's own.</param>
    /// <param name="Removed">How many of the old site's are no more.</param>
    public sealed record Done(ImmutableArray<PublishedFile> Files, int Written, int Removed) : PublicationResult;

    /// <summary>Pages could not be made; the site is as it was.</summary>
    /// <param name="Faults">Errors of templates and addresses.</param>
    public sealed record Faulty(ImmutableArray<Diagnostic> Faults) : PublicationResult;

    /// <summary>Something outside stood in the way; the site is as it was.</summary>
    /// <param name="Why">What it was.</param>
    public sealed record Refused(Diagnostic Why) : PublicationResult;
}
