using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Wording;
using Archive.Wiring.Labels;

namespace Archive.Plans.HandTags;

/// <summary>
/// The cables that print alone cannot rebuild, frame by frame as one walks past them: each is tagged by hand before it is pulled.
/// </summary>
public sealed class HandTagsPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "hand-tags", "Hand-tag list", "Cables to tag by hand before you pull them, frame by frame in walking order.", (context, _) =>
            new HandTagsPlan(context));

    private static DataShape<HandTag> Shape(HandTagsPlan plan) => new DataShape<HandTag>()
        .Text("frame", "id of the first frame on the walk where it ends; empty if no end is known", tag => tag.At?.Frame)
        .Text("at", "address of its end there", tag => tag.At?.ToString())
        .List("others", "addresses of its other known ends", tag => tag.Others.Select(at => at.ToString()))
        .Text("cable", "id of the cable", tag => tag.Reading.Cable.Id)
        .Text("label", "its label, exactly as written", tag => tag.Reading.Cable.Label?.Value)
        .Text("verdict", "contradicts, misread, unlabelled or unknown", tag => tag.Reading.Verdict.Word())
        .Text("why", "why its label is not enough", tag => tag.Reading.Why)
        .Text("perhaps", "the most likely reading of a misread label or tag; empty if nothing similar makes sense", tag =>
            tag.Best?.Reading.Label)
        .List("perhaps_means", "the addresses that it would mean", tag => (tag.Best?.Means ?? []).Select(at => at.ToString()))
        .Text("perhaps_why", "how it differs from what was recorded, and whether it agrees with what was seen", tag => tag.Best?.Why)
        .Count("candidates", "how many possible labels there are", tag =>
            tag.Reading.Verdict == LabelVerdict.Misread ? tag.Reading.Candidates.Length + tag.Reading.MoreCandidates : null)
        .Text("fate", "what happens to the cable: coil, remove, sever, leave", tag =>
            tag.Reading.Cable.Fate is { } fate ? Phrase.For(fate.Value) : null)
        .Cautions(plan.Cautions)
        .Warnings(tag => plan.Warnings.OfTagging(tag.Reading));

    private readonly PlanContext _context;

    private HandTagsPlan(PlanContext context)
        : base(Kind)
    {
        (_context, Warnings) = (context, new StepWarnings(context));
        var walk = (context.HallLayouts.AsFound?.PlacedFrames ?? []).Select(placed => placed.Frame.Id);
        Tags = HandTagList.Compute(context.Record, context.Readings, walk).Tags;
    }

    /// <summary>Finds what to watch out for at a cable that is tagged.</summary>
    public StepWarnings Warnings { get; }

    internal override IEnumerable<string> LinesBeneath(int row) => Warnings.OfTagging(Tags[row].Reading).Select(warning => warning.Text);

    /// <summary>The tags, in walking order.</summary>
    public ImmutableArray<HandTag> Tags { get; }

    public override ImmutableArray<string> Summary =>
    [
        $"Tag {Phrase.Count(Tags.Length)} of {Phrase.Count(_context.Readings.Cables.Length, "cable")} by hand before you pull them; {Phrase.Count(_context.Readings.Rebuildable)} can be rebuilt from their labels.",
        .. Tags.Count(tag => tag.Best is not null) is var near and > 0
            ? [$"For {Phrase.Count(near, "misread label")}, the most likely reading is shown: look again before you write the tag."]
            : ImmutableArray<string>.Empty,
    ];

    // Tags are hung while the machine may still be live, and from ladders.
    protected override ImmutableArray<Caution> FindCautions() => Tags.IsEmpty ? [] :
    [
        StandardCautions.Powered,
        .. HazardCautions.For(RecordedHazards.Of(
            _context.Record,
            _context.Record.AsFoundHall is { } hall ? [hall] : [],
            Tags.SelectMany(tag => tag.Reading.Ends).Select(end => end.At.Frame),
            Tags.Select(tag => tag.Reading.Cable),
            [])),
        StandardCautions.Overhead,
    ];

    public override ImmutableArray<DataTable> Tables =>
        [new DataTable<HandTag>("plans/hand-tags", "a cable to tag by hand before you pull it, in walking order", Shape(this), Tags)];

    internal override ImmutableArray<string> Shown => ["at", "cable", "label", "why", "perhaps"];
}
