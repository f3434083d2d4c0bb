using System.Collections.Immutable;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>The cables that print alone cannot rebuild, frame by frame as one walks past them: each is tagged by hand before it is pulled.</summary>
internal sealed class HandTagsPlan : Plan
{
    /// <summary>What it is.</summary>
    public static new PlanKind Kind { get; } = new(
        "hand-tags", "Hand-tag list", "Cables to tag by hand before they are pulled, frame by frame in walking order.", (basis, _) => new HandTagsPlan(basis));

    private static readonly DataShape<HandTag> Shape = new DataShape<HandTag>()
        .Text("frame", "id of the frame at which one comes by it first; empty where no end is known", tag => tag.At?.Frame)
        .Text("at", "address of its end there", tag => tag.At?.ToString())
        .List("others", "addresses of its other known ends", tag => tag.Others.Select(at => at.ToString()))
        .Text("cable", "id of the cable", tag => tag.Reading.Cable.Id)
        .Text("label", "its label, letter for letter", tag => tag.Reading.Cable.Label?.Value)
        .Text("verdict", "contradicts, misread, unlabelled or unknown", tag => tag.Reading.Verdict.Word())
        .Text("why", "why print does not do", tag => tag.Reading.Why)
        .Text("perhaps", "the likeliest label or tag that misread print may have been; empty where nothing near would do", tag => tag.Best?.Reading.Label)
        .List("perhaps_means", "the addresses that it would mean", tag => (tag.Best?.Means ?? []).Select(at => at.ToString()))
        .Text("perhaps_why", "how it differs from what was recorded, and how it stands to what was seen", tag => tag.Best?.Why)
        .Count("candidates", "how many such labels there are", tag => tag.Reading.Verdict == Verdict.Misread ? tag.Reading.Candidates.Length + tag.Reading.MoreCandidates : null)
        .Text("fate", "what becomes of the cable: coil, remove, sever, leave", tag => tag.Reading.Cable.Fate is { } fate ? Words.Of(fate.Value) : null);

    private readonly PlanBasis _basis;

    private HandTagsPlan(PlanBasis basis)
        : base(Kind)
    {
        _basis = basis;
        var walk = (basis.Standings.AsFound?.Standing ?? []).Select(standing => standing.Frame.Id);
        Tags = HandTagList.Of(basis.Record, basis.Readings, walk).Tags;
    }

    /// <summary>The tags, in walking order.</summary>
    public ImmutableArray<HandTag> Tags { get; }

    public override ImmutableArray<string> Summary =>
    [
        $"{Words.Count(Tags.Length)} of {Words.Count(_basis.Readings.Cables.Length, "cable")} are to be tagged by hand before they are pulled; {Words.Count(_basis.Readings.Rebuildable)} can be rebuilt from their print.",
        .. Tags.Count(tag => tag.Best is not null) is var near and > 0
            ? [$"For {Words.Count(near, "label that was", "labels that were")} misread the likeliest reading is given: look again before you write the tag."]
            : ImmutableArray<string>.Empty,
    ];

    internal override ImmutableArray<DataTable> Tables => [new DataTable<HandTag>("plans/hand-tags", "a cable to tag by hand before it is pulled, in walking order", Shape, Tags)];

    internal override ImmutableArray<string> Shown => ["at", "cable", "label", "why", "perhaps"];
}
