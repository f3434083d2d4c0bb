using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Safety;
using Archive.Wiring.Labels;
using Archive.Wiring.Sets;

namespace Archive.Plans.Sets;

/// <summary>The fewest frames with which each display runs, and what comes with them.</summary>
public sealed class WorkingSetsPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "working-sets",
        "Working sets",
        "The smallest set of frames with which each display runs, its weight and power, and which cables have an end outside it.",
        (context, question) => new WorkingSetsPlan(context, question.Display))
    {
        Options = ["display"],
    };

    private readonly PlanContext _context;

    private WorkingSetsPlan(PlanContext context, string? display)
        : base(Kind) => (_context, Sets) = (context, [.. context.Sets.All.Where(set => display is null || set.Display.Id == display)]);

    public ImmutableArray<WorkingSet> Sets { get; }

    public override ImmutableArray<string> Summary => Sets.IsEmpty
        ? ["No displays are recorded: write what each one needs in displays/, and this plan finds the smallest set of frames."]
        : [.. Sets.Select(set => WorkingSetSentences.Describe(set, _context))];

    protected override ImmutableArray<Caution> FindCautions() => [StandardCautions.Licensed];

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<WorkingSet>(
            "plans/working-sets", "a display and the fewest frames with which it runs", WorkingSetShapes.Set(Cautions), Sets),
        new DataTable<SetCable>(
            "plans/working-sets-cables", "a cable of a working set", WorkingSetShapes.Cable(Cautions), [.. Sets.SelectMany(SetCable.From)]),
    ];

    internal override ImmutableArray<string> Shown =>
        [
            "display", "frames", "weight_kg", "floor_area_m2", "currents", "heat_w", "heat_btu_per_h", "unmet"
        ];
}

/// <summary>A cable of a working set, and how it lies to it.</summary>
/// <param name="Lies">inside, edge or loose.</param>
/// <param name="Staying">Its ends within.</param>
/// <param name="Parked">Its ends outside.</param>
public sealed record SetCable(
    WorkingSet Set, CableReading Reading, string Lies, ImmutableArray<KnownEnd> Staying, ImmutableArray<KnownEnd> Parked)
{
    /// <summary>The cables of a set: those that cross its edge first, then those inside, then those whose other end is not known.</summary>
    public static IEnumerable<SetCable> From(WorkingSet set) =>
    [
        .. set.Edge.Select(edge => new SetCable(set, edge.Reading, "edge", edge.Staying, edge.Parked)),
        .. set.Inside.Select(reading => new SetCable(set, reading, "inside", reading.Ends, [])),
        .. set.Loose.Select(reading => new SetCable(set, reading, "loose", reading.Ends, [])),
    ];
}
