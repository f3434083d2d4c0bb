using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>What is known of a cable's ends: what was seen, what its print says, and what comes of both.</summary>
/// <param name="Verdict">How reliable the label is.</param>
/// <param name="Why">What the verdict rests on, in one plain sentence: lower case, no full stop.</param>
public sealed record CableReading(Cable Cable, LabelVerdict Verdict, string Why)
{
    /// <summary>
    /// The cable's label as read, in a photo where the verdict rests on one; null where it has none or no scheme reads it.
    /// </summary>
    public LabelReading? Label { get; init; }

    /// <summary>
    /// The tags at its ends as read, in the order of <see cref="Cable.Ends"/>, null where one has none or no scheme reads it; empty where
    /// none is read.
    /// </summary>
    public ImmutableArray<LabelReading?> Tags { get; init; } = [];

    /// <summary>
    /// Where print and observation disagree, end by end: of a verdict of <see cref="LabelVerdict.Contradicts"/>; empty where it is the
    /// print alone that disagrees with itself.
    /// </summary>
    public ImmutableArray<Disagreement> Disagreements { get; init; } = [];

    /// <summary>
    /// What its misread label or tags may have been, best first: the first dozen. Empty where nothing near would do, or nothing was
    /// misread.
    /// </summary>
    public ImmutableArray<Candidate> Candidates { get; init; } = [];

    /// <summary>How many candidates there are beyond those listed.</summary>
    public int MoreCandidates { get; init; }

    /// <summary>The ends whose place is known: those seen, in their order, then those that the print alone gives.</summary>
    public ImmutableArray<KnownEnd> Ends { get; init; } = [];

    /// <summary>The label in a photo that the verdict rests on; null where it rests on what was seen and recorded.</summary>
    public ShownLabel? Photographed { get; init; }

    /// <summary>Whether the print alone says where the cable goes; all others are tagged by hand before they are pulled.</summary>
    public bool IsRebuildable => Verdict is LabelVerdict.Agrees or LabelVerdict.FromLabel;
}

/// <summary>An end that was seen elsewhere than print says.</summary>
/// <param name="Seen">Where it was seen.</param>
/// <param name="Says">Where print says that it is.</param>
/// <param name="IsTag">Whether a tag at an end says so; else the cable's label does.</param>
public readonly record struct Disagreement(Address Seen, Address Says, bool IsTag);
