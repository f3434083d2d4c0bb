using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Halls.Layout;
using Archive.Halls.Loads;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Model;

namespace Archive.Plans.Moving;

/// <summary>The movers' sheet: which frames leave and which stay, how large and how heavy, and through which door.</summary>
public sealed class MovingPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "loads",
        "Movers' sheet",
        "What leaves and what stays, sizes and weights, what to remove first, and which openings each frame fits through.",
        (context, _) => new MovingPlan(context));

    private readonly PlanContext _context;
    private readonly Lazy<ImmutableArray<LadenFrame>> _rows;

    private MovingPlan(PlanContext context)
        : base(Kind)
    {
        _context = context;
        Warnings = new StepWarnings(context);
        List = context.HallLayouts.AsFound is { } found ? MovingList.Compute(context.Record, found) : null;
        _rows = new(() => LadenFrame.All(List));
    }

    /// <summary>What goes; null without a hall that is the as-found one.</summary>
    public MovingList? List { get; }

    public override ImmutableArray<string> Summary => List is null
        ? ["No hall is recorded as the one where the machine was found, so there is nothing to move."]
        : MovingSentences.Describe(List, _context.Record);

    protected override ImmutableArray<Caution> FindCautions() => List is null ? [] :
    [
        StandardCautions.Tall,
        StandardCautions.Lifting,
        .. HazardCautions.For(RecordedHazards.Of(
            _context.Record,
            [List.Layout.Hall],
            _rows.Value.Where(row => row.Load is not null).Select(row => row.Frame.Frame.Id),
            [],
            [])),
    ];

    /// <summary>Finds the warnings of moving a frame.</summary>
    public StepWarnings Warnings { get; }

    internal override IEnumerable<string> LinesBeneath(int row) =>
        _rows.Value[row] is { Load: not null, Frame.Frame: { } frame }
            ? Warnings.OfMoving(frame).Select(warning => warning.Text)
            : [];

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<LadenFrame>(
            "plans/loads", "a frame of the as-found hall, row by row", MovingShapes.Frame(Warnings, Cautions), _rows.Value),
        new DataTable<Cable>(
            "plans/loads-coils",
            "a cable that is coiled or taken out, and its weight",
            MovingShapes.Coil(_context.Record, Cautions),
            Coiled()),
    ];

    internal override ImmutableArray<string> Shown =>
        [
            "row", "frame", "side", "width_m", "depth_m", "height_m", "laden_kg", "doors_off", "total_kg", "total_at_least", "may_lie_down",
            "openings"
        ];

    private ImmutableArray<Cable> Coiled() =>
        [.. _context.Record.Cables.Where(cable => cable is { IsWithdrawn: false, Fate.Value: Fate.Coil or Fate.Remove })];
}

/// <summary>A frame and what the frames of its load weigh up to and with it.</summary>
/// <param name="Load">The load that it is part of; null where it does not go.</param>
/// <param name="Total">Weight of the load so far, in kilograms; null where it does not go.</param>
public sealed record LadenFrame(Load? Load, MovingFrame Frame, double? Total)
{
    /// <summary>
    /// Whether this frame, or one before it in its load, has a weight that is not recorded in full: the load weighs at least
    /// <see cref="Total"/>.
    /// </summary>
    public bool IsAtLeast { get; init; }

    /// <summary>The frames of a list: those that go, load by load, then the others.</summary>
    /// <param name="list">The list, or null.</param>
    public static ImmutableArray<LadenFrame> All(MovingList? list)
    {
        if (list is null) return [];
        var all = ImmutableArray.CreateBuilder<LadenFrame>();
        foreach (var load in list.Loads)
        {
            var (total, isAtLeast) = (0.0, false);
            foreach (var frame in load.Frames) all.Add(new LadenFrame(load, frame, total += frame.Laden?.Kilograms
                ?? frame.Lashed.Weight.Kilograms)
            { IsAtLeast = isAtLeast |= frame.IsHeavier });
        }

        all.AddRange(list.Frames.Where(frame => frame.Side != BoundarySide.Inside).Select(frame => new LadenFrame(null, frame, null)));
        return all.ToImmutable();
    }
}
