using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>A label that a misread one may have been: near to it, and its places exist and are free.</summary>
/// <param name="Reading">The label as it would be, and what it then means.</param>
/// <param name="Means">The places it then means, spelt as the record spells them.</param>
/// <param name="Slips">How it differs from the label as recorded: one or two confusions, or one other slip.</param>
/// <param name="Fit">Whether its places are those that were seen.</param>
/// <param name="End">Which of <see cref="Cable.Ends"/> has the tag, from 0; null for the label of the cable itself.</param>
public sealed record Candidate(
    LabelReading Reading, ImmutableArray<Address> Means, ImmutableArray<CopyError> Slips, CandidateFit Fit, int? End)
{
    /// <summary>Number of characters taken for others that the print is misread between; 0 for another slip.</summary>
    public int Confusions => Slips.Count(slip => slip.Kind == CopyErrorKind.Confusion);

    /// <summary>The reason in words: lower case, no full stop.</summary>
    public string Why => string.Join(" and ", Slips) + Fit switch
    {
        CandidateFit.Against => ", but an end was seen elsewhere",
        CandidateFit.OneEnd => ", which agrees with the end that was seen",
        CandidateFit.AllEnds => ", which agrees with both ends as seen",
        _ => "",
    };

    /// <summary>
    /// Best first: those that fit what was seen, then fewest confusions, then another slip, then ordinal by label, scheme and end.
    /// </summary>
    public static IComparer<Candidate> Order { get; } = Comparer<Candidate>.Create((a, b) =>
    {
        var by = (a.Fit == CandidateFit.Against).CompareTo(b.Fit == CandidateFit.Against);
        if (by == 0) by = Rank(a).CompareTo(Rank(b));
        if (by == 0) by = string.CompareOrdinal(a.Reading.Label, b.Reading.Label);
        if (by == 0) by = string.CompareOrdinal(a.Reading.Scheme.Scheme.Id, b.Reading.Scheme.Scheme.Id);
        return by == 0 ? Nullable.Compare(a.End, b.End) : by;
    });

    private static int Rank(Candidate candidate) => candidate.Confusions is var confusions and > 0 ? confusions : 3;
}

/// <summary>How a candidate stands to what was seen.</summary>
public enum CandidateFit
{
    /// <summary>No end was seen that it speaks of.</summary>
    Unseen,

    /// <summary>The end that was seen is one that it means.</summary>
    OneEnd,

    /// <summary>The ends that were seen are those that it means.</summary>
    AllEnds,

    /// <summary>An end was seen where it does not say.</summary>
    Against,
}
