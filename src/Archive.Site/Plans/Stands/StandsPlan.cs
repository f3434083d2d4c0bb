using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Hall;
using Archive.Records;

namespace Archive.Site;

/// <summary>Where frames may stand in a hall so that the fewest cables are short; as the hall's record, ready to commit.</summary>
/// <remarks>Asked for by name and of one hall: it searches for seconds, and a proposal is for a person to judge before it is anybody's record.</remarks>
internal sealed class StandsPlan : Plan
{
    /// <summary>What it is.</summary>
    public static new PlanKind Kind { get; } = new(
        "stands", "Where frames may stand", "Proposes rows for one hall (--hall) so that as few cables as possible are too short, as a record for halls/.",
        (basis, question) => new StandsPlan(basis, question))
    {
        Heeds = ["hall", "display"],
        IsOnRequest = true,
    };

    private static readonly DataShape<Stand> Shape = new DataShape<Stand>()
        .Text("hall", "id of the hall", stand => stand.Hall)
        .Text("frame", "id of the frame", stand => stand.Frame.Id)
        .Text("row", "id of the proposed row; empty if there was no room", stand => stand.Row)
        .Count("place", "its place in the row, from 1", stand => stand.Place)
        .Count("short", "how many of its cables would not reach", stand => stand.TooShort)
        .Count("short_as_given", "how many would not reach with the rows now on record", stand => stand.TooShortAsGiven)
        .Text("why", "why it was not placed", stand => stand.Why);

    private readonly string _title;
    private readonly string _asked;
    private readonly StandProposal? _found;
    private readonly ImmutableArray<Stand> _stands;

    private StandsPlan(PlanBasis basis, PlanQuestion question)
        : base(Kind)
    {
        var layout = Asked(basis, question);
        _title = layout?.Hall.Title ?? "";
        var frames = layout is null ? [] : Wanted(basis, question);
        _asked = question.Display is { } display ? $"the working set of {display}" : "all frames that leave";
        _found = layout is null ? null : StandFinder.Find(new StandQuestion
        {
            Record = basis.Record,
            Layout = layout,
            Network = basis.Runs.NetworkOf(layout),
            Frames = frames,
            Cables = basis.Runs.Cables,
            AsFound = basis.Standings.AsFound,
        });
        _stands = layout is null || _found is null ? [] : Stands(basis, layout, frames, _found);
    }

    public override ImmutableArray<string> Summary => _title.Length == 0
        ? ["Name a hall with --hall. In the hall as found every cable reaches, so it needs no proposal."]
        : _found is not { } found
            ? [$"No frame can be placed in {_title}: none of those asked for has a size, or no free floor leaves room for an aisle."]
            : [Outcome(found), AsGiven(found), Bound(found), .. NotSet(found), "Aisles of 900 mm in front of every frame, doors and obstacles are kept clear. Local code and licensed people decide on floors, ways of escape and working space."];

    internal override ImmutableArray<DataTable> Tables => [new DataTable<Stand>("plans/stands", "a frame and its proposed place", Shape, _stands)];

    internal override ImmutableArray<string> Shown => ["frame", "row", "place", "short", "short_as_given", "why"];

    /// <inheritdoc/>
    public override void WriteText(TextWriter writer)
    {
        foreach (var sentence in Summary) writer.Write($"# {Visible.Of(sentence)}\n");
        if (_found is not null) HallYaml.Write(writer, _found.Hall);
    }

    private static HallLayout? Asked(PlanBasis basis, PlanQuestion question)
    {
        var others = basis.Standings.Layouts.Where(layout => layout != basis.Standings.AsFound).ToList();
        return question.Hall is { } hall ? others.Find(layout => layout.Hall.Id == hall) : others is [var only] ? only : null;
    }

    private static ImmutableArray<Frame> Wanted(PlanBasis basis, PlanQuestion question)
    {
        if (question.Display is { } display) return basis.Sets.Of(display)?.Frames ?? [];
        var stays = basis.Standings.AsFound is { } found
            ? TakeLine.Of(found).Where(taken => taken.Side == TakeSide.Outside).Select(taken => taken.Standing.Frame.Id).ToHashSet(StringComparer.Ordinal)
            : [];
        return [.. basis.Record.Frames.Where(frame => !frame.IsWithdrawn && !stays.Contains(frame.Id))];
    }

    private static ImmutableArray<Stand> Stands(PlanBasis basis, HallLayout layout, ImmutableArray<Frame> frames, StandProposal found)
    {
        var proposed = HallLayout.Of(basis.Record, found.Hall);
        var (before, behind) = (ShortAt(layout), ShortAt(proposed));
        return
        [
            .. from frame in frames
               let standing = proposed.ByFrame.GetValueOrDefault(frame.Id)
               select new Stand(
                   layout.Hall.Id, frame, standing?.Row.Id.Value, standing?.Index + 1, behind.GetValueOrDefault(frame.Id), before.GetValueOrDefault(frame.Id),
                   found.Unsized.Contains(frame) ? "its size is not recorded" : found.TooHeavy.Contains(frame) ? "too heavy for the floor" : standing is null ? "no room" : null),
        ];

        Dictionary<string, int> ShortAt(HallLayout hall) => ReachJudge.Judge(basis.Record, hall, basis.Runs.NetworkOf(layout), basis.Runs.Cables, basis.Runs.Paths)
            .Frames.ToDictionary(frame => frame.Standing.Frame.Id, frame => frame.Count(ReachVerdict.TooShort) + frame.Count(ReachVerdict.NoWay), StringComparer.Ordinal);
    }

    private string Outcome(StandProposal found) => $"Proposal for {_title} with {_asked}: {Worth(found.Score)}.";

    private static string AsGiven(StandProposal found) => found.Given.Unplaced > 0
        ? $"The rows now on record leave out {Words.Count(found.Given.Unplaced, "frame")} asked for; with those rows, {Words.Count(found.Given.TooShort, "cable")} would not reach, including those of the frames left out."
        : found.Score == found.Given ? "Nothing better was found than the rows now on record." : $"The rows now on record: {Worth(found.Given)}.";

    private static string Bound(StandProposal found) => (found.IsExact, found.LeastShort) switch
    {
        (true, _) => "Every order of these frames in every free stretch was tried, filling each stretch from its start: there is nothing better.",
        (_, var least) when least == found.Score.TooShort => $"No arrangement can do better: {Words.Count(least, "cable")} would be too short wherever the frames stood.",
        (_, var least) => $"Not proved to be the best: {Words.Count(least, "cable")} would be too short wherever the frames stood, so at most {Words.Count(found.Score.TooShort - least)} more could be made to reach.",
    };

    private static IEnumerable<string> NotSet(StandProposal found)
    {
        if (!found.Unplaced.IsEmpty) yield return $"No room for {Ids(found.Unplaced)}.";
        if (!found.Unsized.IsEmpty) yield return $"Not placed, because their size is not recorded: {Ids(found.Unsized)}.";
        if (!found.TooHeavy.IsEmpty) yield return $"Not placed, because they are too heavy for the floor even with half the aisles included: {Ids(found.TooHeavy)}.";
    }

    private static string Worth(StandScore score) => score.TooShort == 0
        ? $"every cable reaches, {Words.Count(score.Parted, "pair")} of neighbours as found separated"
        : $"{Words.Count(score.TooShort, "cable")} {(score.TooShort == 1 ? "does" : "do")} not reach, {score.Lacking.Meters.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture)} m short in total, {Words.Count(score.Parted, "pair")} of neighbours as found separated";

    private static string Ids(IEnumerable<Frame> frames) => string.Join(", ", frames.Select(frame => frame.Id));

    private sealed record Stand(string Hall, Frame Frame, string? Row, int? Place, int TooShort, int TooShortAsGiven, string? Why);
}
