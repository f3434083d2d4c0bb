using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Diagnostics.Rendering;
using Archive.Halls.Layout;
using Archive.Halls.Placement;
using Archive.Halls.Reach;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Records.Writing;

namespace Archive.Plans.Placement;

/// <summary>Where frames may stand in a hall so that the fewest cables are short; as the hall's record, ready to commit.</summary>
/// <remarks>
/// Asked for by name and of one hall: it searches for seconds, and a proposal is for a person to judge before it is anybody's record.
/// </remarks>
internal sealed class PlacementPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "stands",
        "Where frames may stand",
        "Proposes rows for one hall (--hall) so that as few cables as possible are too short, as a record for halls/.",
        (context, question) => new PlacementPlan(context, question))
    {
        Options = ["hall", "display"],
        IsOnRequest = true,
    };

    private static readonly DataShape<ProposedPlace> Shape = new DataShape<ProposedPlace>()
        .Text("hall", "id of the hall", stand => stand.Hall)
        .Text("frame", "id of the frame", stand => stand.Frame.Id)
        .Text("row", "id of the proposed row; empty if there was no room", stand => stand.Row)
        .Count("place", "its place in the row, from 1", stand => stand.Place)
        .Count("short", "how many of its cables would not reach", stand => stand.TooShort)
        .Count("short_as_given", "how many would not reach with the rows now on record", stand => stand.TooShortAsGiven)
        .Text("why", "why it was not placed", stand => stand.Why);

    private readonly string _title;
    private readonly string _asked;
    private readonly PlacementProposal? _found;
    private readonly ImmutableArray<ProposedPlace> _stands;

    private PlacementPlan(PlanContext context, PlanRequest question)
        : base(Kind)
    {
        var layout = Asked(context, question);
        _title = layout?.Hall.Title ?? "";
        var frames = layout is null ? [] : Wanted(context, question);
        _asked = question.Display is { } display ? $"the working set of {display}" : "all frames that leave";
        _found = layout is null ? null : PlacementFinder.Find(new PlacementRequest
        {
            Record = context.Record,
            Layout = layout,
            Network = context.Runs.NetworkOf(layout),
            Frames = frames,
            Cables = context.Runs.Cables,
            AsFound = context.HallLayouts.AsFound,
        });
        _stands = layout is null || _found is null ? [] : ProposedPlaces(context, layout, frames, _found);
    }

    public override ImmutableArray<string> Summary => _title.Length == 0
        ? ["Name a hall with --hall. In the hall as found every cable reaches, so it needs no proposal."]
        : _found is not { } found
            ? [$"No frame can be placed in {_title}: none of those asked for has a size, or no free floor leaves room for an aisle."]
            : [
                Outcome(found),
                AsGiven(found),
                Bound(found),
                .. NotSet(found),
                "Aisles of 900 mm in front of every frame, doors and obstacles are kept clear. Local code and licensed people decide on floors, ways of escape and working space."
            ];

    public override ImmutableArray<DataTable> Tables =>
        [new DataTable<ProposedPlace>("plans/stands", "a frame and its proposed place", Shape, _stands)];

    internal override ImmutableArray<string> Shown => ["frame", "row", "place", "short", "short_as_given", "why"];

    public override void WriteText(TextWriter writer, UnitFormatter units)
    {
        foreach (var sentence in Summary) writer.Write($"# {VisibleText.From(sentence)}\n");
        if (_found is not null) HallYamlWriter.Write(writer, _found.Hall);
    }

    private static HallLayout? Asked(PlanContext context, PlanRequest question)
    {
        var others = context.HallLayouts.Layouts.Where(layout => layout != context.HallLayouts.AsFound).ToList();
        return question.Hall is { } hall ? others.Find(layout => layout.Hall.Id == hall) : others is [var only] ? only : null;
    }

    private static ImmutableArray<Frame> Wanted(PlanContext context, PlanRequest question)
    {
        if (question.Display is { } display) return context.Sets.Find(display)?.Frames ?? [];
        var stays = context.HallLayouts.AsFound is { } found
            ? TakeBoundary.Classify(found)
                .Where(taken => taken.Side == BoundarySide.Outside)
                .Select(taken => taken.Placed.Frame.Id)
                .ToHashSet(StringComparer.Ordinal)
            : [];
        return [.. context.Record.Frames.Where(frame => !frame.IsWithdrawn && !stays.Contains(frame.Id))];
    }

    private static ImmutableArray<ProposedPlace> ProposedPlaces(
        PlanContext context, HallLayout layout, ImmutableArray<Frame> frames, PlacementProposal found)
    {
        var proposed = HallLayout.Create(context.Record, found.Hall);
        var (before, behind) = (ShortAt(layout), ShortAt(proposed));
        return
        [
            .. from frame in frames
               let standing = proposed.ByFrame.GetValueOrDefault(frame.Id)
               select new ProposedPlace(
                   layout.Hall.Id,
                   frame,
                   standing?.Row.Id.Value,
                   standing?.Index + 1,
                   behind.GetValueOrDefault(frame.Id),
                   before.GetValueOrDefault(frame.Id),
                   found.Unsized.Contains(frame)
                       ? "its size is not recorded"
                       : found.TooHeavy.Contains(frame)
                       ? "too heavy for the floor"
                       : standing is null
                       ? "no room"
                       : null),
        ];

        Dictionary<string, int> ShortAt(HallLayout hall) =>
            ReachEvaluator.Evaluate(context.Record, hall, context.Runs.NetworkOf(layout), context.Runs.Cables, context.Runs.Paths)
                .Frames.ToDictionary(
                    frame => frame.Placed.Frame.Id,
                    frame => frame.Count(ReachVerdict.TooShort) + frame.Count(ReachVerdict.NoWay),
                    StringComparer.Ordinal);
    }

    private string Outcome(PlacementProposal found) => $"Proposal for {_title} with {_asked}: {ScoreText(found.Score)}.";

    private static string AsGiven(PlacementProposal found) => found.Given.Unplaced > 0
        ? $"The rows now on record leave out {Phrase.Count(found.Given.Unplaced, "frame")} asked for; with those rows, {Phrase.Count(found.Given.TooShort, "cable")} would not reach, including those of the frames left out."
        : found.Score == found.Given
        ? "Nothing better was found than the rows now on record."
        : $"The rows now on record: {ScoreText(found.Given)}.";

    private static string Bound(PlacementProposal found) => (found.IsExact, found.LeastShort) switch
    {
        (true, _) =>
            "Every order of these frames in every free stretch was tried, filling each stretch from its start: there is nothing better.",
        (_, var least) when least == found.Score.TooShort =>
            $"No arrangement can do better: {Phrase.Count(least, "cable")} would be too short wherever the frames stood.",
        (_, var least) =>
            $"Not proved to be the best: {Phrase.Count(least, "cable")} would be too short wherever the frames stood, so at most {Phrase.Count(found.Score.TooShort - least)} more could be made to reach.",
    };

    private static IEnumerable<string> NotSet(PlacementProposal found)
    {
        if (!found.Unplaced.IsEmpty) yield return $"No room for {Ids(found.Unplaced)}.";
        if (!found.Unsized.IsEmpty) yield return $"Not placed, because their size is not recorded: {Ids(found.Unsized)}.";
        if (!found.TooHeavy.IsEmpty)
            yield return $"Not placed, because they are too heavy for the floor even with half the aisles included: {Ids(found.TooHeavy)}.";
    }

    private static string ScoreText(PlacementScore score) => score.TooShort == 0
        ? $"every cable reaches, {Phrase.Count(score.Parted, "pair")} of neighbours as found separated"
        : $"{Phrase.Count(score.TooShort, "cable")} {(score.TooShort == 1 ? "does" : "do")} not reach, {score.Shortfall.Meters.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture)} m short in total, {Phrase.Count(score.Parted, "pair")} of neighbours as found separated";

    private static string Ids(IEnumerable<Frame> frames) => string.Join(", ", frames.Select(frame => frame.Id));

    private sealed record ProposedPlace(string Hall, Frame Frame, string? Row, int? Place, int TooShort, int TooShortAsGiven, string? Why);
}
