using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Halls.Reach;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Plans.Reach;

/// <summary>Which cables reach where the frames are to stand again, hall by hall, the worst first.</summary>
public sealed class ReachPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "reach", "Which cables reach", "Whether each cable is long enough in every other hall, worst first.",
        (context, question) => new ReachPlan(context, question.Hall))
    {
        Options = ["hall"],
    };

    private readonly PlanContext _context;
    private readonly string? _hall;

    private ReachPlan(PlanContext context, string? hall)
        : base(Kind)
    {
        _context = context;
        _hall = hall;
        Halls = [.. context.Runs.Reaches.Where(reach => hall is null || reach.Layout.Hall.Id == hall)];
    }

    /// <summary>The halls where frames may stand again.</summary>
    public ImmutableArray<HallReach> Halls { get; }

    public override ImmutableArray<string> Summary => Halls.IsEmpty
        ? [Nothing()]
        : [
            .. Halls.Select(reach => ReachSentences.Sentence(reach, _context)),
            .. Allowance(),
            .. ReachSentences.Doubts(_context.Runs.Paths)
        ];

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<(HallReach Hall, CableReach Cable)>(
            "plans/reach",
            "a cable in a hall where the machine may go, worst first",
            ReachShapes.Cable(_context),
            [.. Halls.SelectMany(hall => hall.Cables.Select(cable => (hall, cable)))]),
        new DataTable<(HallReach Hall, FrameReach Frame)>(
            "plans/reach-frames",
            "a frame in such a hall, and how many of its cables reach",
            ReachShapes.Frame,
            [.. Halls.SelectMany(hall => hall.Frames.Select(frame => (hall, frame)))]),
        new DataTable<(HallReach Hall, ShortStretch Stretch)>(
            "plans/reach-stretches",
            "a stretch of a tray in such a hall, and how many of the cables that would run through it are too short",
            ReachShapes.Stretch,
            [.. Halls.SelectMany(hall => hall.ShortStretches.Select(stretch => (hall, stretch)))]),
        new DataTable<AsFoundPath>(
            "plans/reach-as-found", "a cable's route as found, and its slack", ReachShapes.AsFound, _context.Runs.Paths),
    ];

    internal override ImmutableArray<string> Shown => ["hall", "cable", "verdict", "margin_m", "needed_m", "length_m", "from", "to", "why"];

    private string Nothing() => _hall is { } id && _context.HallLayouts.ByHall.TryGetValue(id, out var layout)
        ? layout.Hall.AsFound is { Value: true }
            ? $"{layout.Hall.Title} is where the machine was found, so every cable reaches."
            : $"{layout.Hall.Title} has no rows yet: add rows, and this plan shows which cables reach."
        : "Only the hall where the machine was found has rows of frames.";

    private ImmutableArray<string> Allowance() => Halls[0].Allowance <= Length.Zero
        ? ["The archive sets no allowance, so none is added to the length needed."]
        : [$"The length needed is the route from port to port plus {new UnitFormatter(_context.Record.Statement.Units?.Value ?? default).FormatComputed(Halls[0].Allowance)} at each end."];
}
