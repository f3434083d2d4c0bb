using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Progress;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Wiring.Decabling;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Plans.Decabling;

/// <summary>The order in which cables come out without harm, as the crew's sheet.</summary>
public sealed class DecablingPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "decabling",
        "Crew sheet: taking the cables out",
        "The order in which to take the cables out without harm, step by step, and when each frame is free to go.",
        (context, question) => new DecablingPlan(context, question))
    {
        Options = ["display", "frame"],
    };

    // A longer list is more than a crew frees one frame by; it keeps the site linear in frames, too.
    private const int MostOfFrame = 400;

    private readonly PlanContext _context;
    private readonly string? _display;
    private readonly ConcurrentDictionary<string, DecablingOrder?> _parts = new(StringComparer.Ordinal);
    private readonly Lazy<ImmutableSortedDictionary<string, DecablingOrder>> _frames;

    private DecablingPlan(PlanContext context, PlanRequest question)
        : base(Kind)
    {
        (_context, _display) = (context, question.Display);
        Warnings = new StepWarnings(context);
        Order = question switch
        {
            { Frame: { } frame } => context.TakingOut.For(frame),
            { Display: { } display } => DecablingOrder.Compute(
                context.Record,
                context.Readings,
                context.Sets.Find(display)!.Frames.Select(needed => needed.Id).ToFrozenSet(StringComparer.Ordinal),
                context.Progress),
            _ => context.TakingOut,
        };
        _frames = new(() => Order.Releases
            .Select(release => ListOf(release.Frame))
            .OfType<DecablingOrder>()
            .ToImmutableSortedDictionary(part => part.OnlyFor!, part => part, StringComparer.Ordinal));
    }

    public DecablingOrder Order { get; }

    /// <summary>What it was calculated from.</summary>
    public PlanContext Basis => _context;

    /// <summary>The lists of all frames that have one, by the frame's id.</summary>
    public ImmutableSortedDictionary<string, DecablingOrder> Frames => _frames.Value;

    /// <summary>The steps that free a frame.</summary>
    /// <param name="frame">The frame's id.</param>
    /// <returns>
    /// Null for one that is not held any more or has left, and for one that needs more steps than are worth a list of their own: its crew
    /// works by the whole list.
    /// </returns>
    public DecablingOrder? ListOf(string frame) => _parts.GetOrAdd(frame, id =>
        Order.ReleaseOf(id) is not null
        && _context.Progress.LeftBy(id) is null
        && Order.For(id, MostOfFrame) is { } part
        && part.Steps.Any(step => step.State.Status != StepStatus.Done)
            ? part
            : null);

    /// <summary>Finds the warnings of its steps.</summary>
    public StepWarnings Warnings { get; }

    public override ImmutableArray<string> Summary => DecablingSentences.Describe(Order, _context, _display);

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<DecablingStep>(
            "plans/decabling", "a step of taking the cables out, in order", DecablingShapes.Step(Warnings, CautionsOf), Order.Steps),
        new DataTable<FrameRelease>(
            "plans/decabling-frames",
            "when each frame is free to go, earliest first",
            DecablingShapes.Release(Order, Cautions),
            Order.Releases),
        .. Order.OnlyFor is not null ? Array.Empty<DataTable>() :
        [
            new DataTable<FrameStep>(
                "plans/decabling-frame-steps",
                "a step that one frame needs to be free, frame by frame, for frames that are still held",
                DecablingShapes.OfFrame(Warnings, CautionsOf),
                [.. Frames.SelectMany(part => part.Value.Steps.Select(step => new FrameStep(part.Key, step)))]),
        ],
    ];

    internal override ImmutableArray<string> Shown =>
        [
            "step", "action", "cable", "frame", "label", "tags", "disconnect_at", "from", "to", "trays", "fate", "coil_to", "elapsed_min",
            "released", "state"
        ];

    protected override ImmutableArray<Caution> FindCautions() => CautionsOf(Order.Steps);

    internal override IEnumerable<string> LinesBeneath(int row) =>
        [
            .. Order.Steps[row].Units is { IsEmpty: false } units
                ? [$"Units: {string.Join(", ", units.Select(DecablingSentences.NameOf))}"]
                : Array.Empty<string>(),
            .. Warnings.Of(Order.Steps[row]).Select(warning => warning.Text),
            StateText.Describe(Order.Steps[row].State)
        ];

    /// <summary>What can hurt in some steps: the rules first.</summary>
    public ImmutableArray<Caution> CautionsOf(IReadOnlyCollection<DecablingStep> steps)
    {
        var isPower = steps.Any(step => step.Role == CableRole.Feeder || step.Action == StepAction.MakeSafe);
        return
        [
            isPower ? StandardCautions.DirectCurrent : StandardCautions.Powered,
            .. steps.Any(step => step.Role == CableRole.Outside) ? [StandardCautions.OutsideFirst] : Array.Empty<Caution>(),
            .. isPower || steps.Any(step => step.Role == CableRole.Unknown) ? [StandardCautions.FeedersFirst] : Array.Empty<Caution>(),
            .. steps.Any(step => step.Role == CableRole.Earth) ? [StandardCautions.Earth] : Array.Empty<Caution>(),
            .. Units(steps) is { Count: > 0 } units ? [UnitCautions.TakingOut, .. UnitCautions.For(units)] : Array.Empty<Caution>(),
            .. HazardCautions.For(HazardsOf(steps).Concat(Units(steps).SelectMany(unit => unit.Hazards))),
            .. steps.Any(step => step.Family == CableFamily.Fibre) ? [StandardCautions.Fibre] : Array.Empty<Caution>(),
            .. steps.Any(step => step.Cable?.LiesIn.Length > 0) ? [StandardCautions.Overhead] : Array.Empty<Caution>(),
            .. steps.Any(step => step.Released.Length > 0) ? [StandardCautions.Tall] : Array.Empty<Caution>(),
        ];
    }

    private static List<Unit> Units(IReadOnlyCollection<DecablingStep> steps) => [.. steps.SelectMany(step => step.Units)];

    private IEnumerable<Stated<Hazard>> HazardsOf(IReadOnlyCollection<DecablingStep> steps) => RecordedHazards.Of(
        _context.Record,
        _context.Record.AsFoundHall is { } hall ? [hall] : [],
        steps.SelectMany(step => (step.Reading?.Ends ?? []).Select(end => end.At.Frame))
            .Concat(steps.Select(step => step.Frame?.Id).OfType<string>()),
        steps.Select(step => step.Cable).OfType<Cable>(),
        steps.SelectMany(step => step.Cable?.LiesIn ?? []).Select(tray => tray.Value));
}
