using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>The order in which cables come out without harm, as the crew's sheet.</summary>
internal sealed class DecablingPlan : Plan
{
    /// <summary>What it is.</summary>
    public static new PlanKind Kind { get; } = new(
        "decabling", "Crew sheet: taking the cables out", "The order in which cables come out without harm, step by step, and when each frame is free to go.",
        (basis, question) => new DecablingPlan(basis, question.Display))
    {
        Heeds = ["display"],
    };

    private readonly PlanBasis _basis;
    private readonly string? _display;

    private DecablingPlan(PlanBasis basis, string? display)
        : base(Kind)
    {
        (_basis, _display) = (basis, display);
        var wanted = display is null
            ? basis.Sets.Wanted
            : basis.Sets.Of(display)!.Frames.Select(frame => frame.Id).ToFrozenSet(StringComparer.Ordinal);
        Order = DecablingOrder.Of(basis.Record, basis.Readings, wanted);
    }

    /// <summary>The order.</summary>
    public DecablingOrder Order { get; }

    public override ImmutableArray<string> Summary => DecablingSentences.Of(Order, _basis, _display);

    internal override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<DecablingStep>("plans/decabling", "a cable that comes out, in order", DecablingShapes.Step, Order.Steps),
        new DataTable<FrameRelease>("plans/decabling-frames", "when each frame is free to go, the first first", DecablingShapes.Release(Order), Order.Releases),
    ];

    internal override ImmutableArray<string> Shown => ["step", "cable", "tag_first", "fate", "from", "to", "elapsed_min", "released"];
}
