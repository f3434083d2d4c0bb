using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Power;
using Archive.Halls.Trays;
using Archive.Plans.Safety;

namespace Archive.Plans.Floor;

/// <summary>What floors and trays carry, what feeders carry, and the heat that results from it.</summary>
public sealed class FloorLoadsPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "floor",
        "Floors, power and heat",
        "The load of each frame on the floor, the width of its aisles, what trays and feeders carry, and the heat given off.",
        (context, question) => new FloorLoadsPlan(context, question.Hall))
    {
        Options = ["hall"],
    };

    private readonly PlanContext _context;

    private FloorLoadsPlan(PlanContext context, string? hall)
        : base(Kind)
    {
        _context = context;
        Halls = [.. context.HallLayouts.Layouts
            .Where(layout => layout.PlacedFrames.Length > 0 && (hall is null || layout.Hall.Id == hall))
            .Select(layout => new FloorOfHall(layout, FloorLoad.Compute(layout, context.Units.Weights)))];
        Feeders = Archive.Halls.Power.FeederLoads.Compute(context.Record, context.Runs.Cables, context.Runs.Paths);
    }

    /// <summary>The halls with frames.</summary>
    public ImmutableArray<FloorOfHall> Halls { get; }

    public ImmutableArray<Feeder> Feeders { get; }

    public override ImmutableArray<string> Summary =>
    [
        .. Halls.IsEmpty
            ? ["No hall has rows of frames, so floor loads cannot be calculated."]
            : Halls.Select(hall => FloorSentences.Describe(hall, _context.Record)),
        FloorSentences.Describe(Feeders, _context.Record),
    ];

    protected override ImmutableArray<Caution> FindCautions() =>
        [StandardCautions.Floor, StandardCautions.Licensed, StandardCautions.DirectCurrent];

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<FloorLoad>(
            "plans/floor",
            "a frame in a hall: its load on the floor, its aisles, its heat",
            FloorShapes.Frame(Cautions),
            [.. Halls.SelectMany(hall => hall.Loads)]),
        new DataTable<(string Hall, PowerAtVoltage Drawn)>(
            "plans/floor-draws",
            "what the frames of a hall draw at one voltage",
            FloorShapes.Draws(Cautions),
            [.. Halls.SelectMany(hall => hall.Draws.Select(drawn => (hall.Layout.Hall.Id, drawn)))]),
        new DataTable<Feeder>("plans/floor-feeders", "a feeder and what it carries", FloorShapes.Feeder(Cautions), Feeders),
        new DataTable<TrayContents>(
            "plans/floor-trays",
            "a tray and what it carries",
            FloorShapes.Tray(_context.Record, Cautions),
            [.. _context.Record.Trays.Where(tray => !tray.IsWithdrawn).Select(tray => _context.Trays[tray.Id])]),
    ];

    internal override ImmutableArray<string> Shown =>
        [
            "hall", "frame", "weight_kg", "footprint_kpa", "footprint_is", "spread_kpa", "spread_is", "before_m", "behind_m", "heat_w"
        ];
}

/// <summary>A hall and what its frames put on its floor.</summary>
/// <param name="Layout">The hall, set out.</param>
/// <param name="Loads">The loads, in its order.</param>
public sealed record FloorOfHall(HallLayout Layout, ImmutableArray<FloorLoad> Loads)
{
    /// <summary>What its frames draw, voltage by voltage.</summary>
    public ImmutableArray<PowerAtVoltage> Draws { get; } = PowerAtVoltage.By(Loads.Select(load => load.Placed.Frame));
}
