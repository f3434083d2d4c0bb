using System.Collections;
using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Progress;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Decabling;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;
using Archive.Wiring.Safety;
using Archive.Wiring.Sets;

namespace Archive.Plans.Reconnecting;

/// <summary>In which order cables are connected again, earth first and feeders last; frame by frame, years later.</summary>
public sealed class ReconnectionPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "reconnection",
        "Re-connection lists",
        $"The order in which to reconnect cables, for each frame and for each display: {OrderRules.ConnectingOrder}.",
        (context, question) => new ReconnectionPlan(context, question))
    { Options = ["display", "frame"] };

    private const string Role =
        "earth, signal (signal and control), unknown (kind not recorded, so it may be a feeder), feeder or outside (an outside line)";

    private DataShape<ConnectionStep> Shape(StepWarnings warnings) => new DataShape<ConnectionStep>()
        .Count(
            "turn",
            $"its turn among all cables of the record, from 1: {OrderRules.ConnectingOrder}; within a role the longest run first, or, where it is put back where it was found, the lowest",
            step => step.Laid.Turn)
        .Text("cable", "id of the cable", step => step.Laid.Cable.Id)
        .Text("label", "its label, exactly as written", step => step.Laid.Cable.Label?.Value)
        .List("tags", "the tags at its ends, exactly as written", step =>
            step.Laid.Cable.Ends.Select(end => end.Label?.Value).OfType<string>(), "; ")
        .Text("role", Role, step => DataValue.Word<CableRole>(step.Laid.Role))
        .Text("kind", "id of its kind", step => step.Laid.Cable.Kind?.Value)
        .Text("from", "address of the end to begin at; for a coil, the end that stayed connected", step =>
            At(step.Laid, 0)?.End.At.ToString())
        .Text("from_connector", "its connector there", step => At(step.Laid, 0)?.End.Seen?.Connector?.Value)
        .Text("from_photo", "id of the photo that shows that end as it was", step => At(step.Laid, 0)?.Photo?.Id)
        .Text("to", "address of the other end", step => At(step.Laid, 1)?.End.At.ToString())
        .Text("to_connector", "its connector there", step => At(step.Laid, 1)?.End.Seen?.Connector?.Value)
        .Text("to_photo", "id of the photo that shows that end as it was", step => At(step.Laid, 1)?.Photo?.Id)
        .List("tails", "addresses of the other ends of a harness", step => step.Laid.Ends.Skip(2).Select(end => end.End.At.ToString()))
        .List("from_print", "which of these addresses were read from a label and not seen", step =>
            step.Laid.Ends.Where(end => end.End.IsDerived).Select(end => end.End.At.ToString()))
        .Quantity("length", "m", "its length", step => step.Laid.Cable.Length, length => length.Meters)
        .Text("knot", "the first cable, by id, of the tangle it is part of; its cables are laid together", step => step.Laid.Cycle?.Id)
        .List("lies_over", "ids of the cables it lay over as found", step => step.Laid.Cable.LiesOver.Select(under => under.Value))
        .Text("fate", "what happened to it: coil, remove, sever, leave", step =>
            step.Laid.Cable.Fate is { } fate ? Phrase.For(fate.Value) : null)
        .State(step => step.State)
        .Cautions(step => CautionsOf(step.Laid))
        .Warnings(warnings.Of);

    private DataShape<ListStep> ListSteps(string of, string title, StepWarnings warnings) => new DataShape<ListStep>()
        .Text(of, $"id of the {of}", step => step.Of)
        .Count("step", $"step of this {title}, from 1", step => step.Step.Number)
        .Text(
            "action",
            "fix (level and anchor a frame), lay_and_connect (an earth), test_earth (of a frame), lay (a cable in its trays), connect (one end), check (a frame before power), prove_supply (of a frame without its units), fit_units (into a dead frame) or start (a frame, in stages)",
            step => DataValue.Word<StepAction>(step.Step.Action))
        .Text("stage", "frames, earth, laying, laying_power, signal, feeders, outside_lines, checks, supply, units or start", step =>
            DataValue.Word<PuttingBackStage>(step.Step.Stage))
        .Text("cable", "id of the cable; empty for a step on a frame", step => step.Step.Laid?.Cable.Id)
        .Text("frame_of_step", "id of the frame; empty for a step on a cable", step => step.Step.Frame?.Id)
        .Text("label", "its label, exactly as written", step => step.Step.Laid?.Cable.Label?.Value)
        .List("tags", "the tags at its ends, exactly as written", step =>
            (step.Step.Laid?.Cable.Ends ?? []).Select(end => end.Label?.Value).OfType<string>(), "; ")
        .Text("role", Role, step => step.Step.Laid is { } laid ? DataValue.Word<CableRole>(laid.Role) : null)
        .List("here", "addresses of the ends that are connected in this step; of a cable that is laid, of its ends at this frame", step =>
            Here(step).Select(end => end.End.At.ToString()))
        .List("to", "addresses of its other known ends", step =>
            (step.Step.Laid?.Ends ?? []).Except(Here(step)).Select(end => end.End.At.ToString()))
        .List("trays", "ids of the trays of its route in the hall where it is laid, from its first end", step =>
            step.Step.Lays ? step.Step.Run?.Trays ?? [] : [])
        .State(step => step.Step.State)
        .Cautions(step => step.Step.Laid is { } laid ? CautionsOf(laid) : OnFrame(step.Step))
        .Warnings(step => warnings.Of(step.Step));

    private DataShape<ShortCable> Shorts() => new DataShape<ShortCable>()
        .Text("of", "id of the frame or display whose list would have it", each => each.Of)
        .Text("cable", "id of the cable", each => each.Short.Laid.Cable.Id)
        .Number("short_by_m", "m", "how much is missing", each =>
            each.Short.Run.ShortBy is { } missing ? Math.Round(missing.Meters, 6, MidpointRounding.AwayFromZero) : null)
        .Cautions(each => CautionsOf(each.Short.Laid));

    private static IEnumerable<RefittedEnd> Here(ListStep step) => step.Step.Lays && step.Step.Action == StepAction.Lay && step.IsFrames
        ? step.Step.Ends.Where(end => end.End.At.Frame == step.Of) : step.Step.Ends;

    private readonly PlanContext _context;
    private readonly ConcurrentDictionary<string, PuttingBackList> _lists = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<RefittedCable, ImmutableArray<Caution>> _cautions = new(ReferenceEqualityComparer.Instance);
    private readonly WorkingSet? _display;
    private readonly ImmutableArray<RefittedCable> _cables;
    private readonly Frame? _frame;
    private readonly PuttingBackList? _list;
    private readonly Lazy<ImmutableArray<string>> _summary;

    private ReconnectionPlan(PlanContext context, PlanRequest question)
        : base(Kind)
    {
        _context = context;
        Order = context.Connecting;
        _display = question.Display is { } display ? context.Sets.Find(display) : null;
        _frame = question.Frame is { } frame ? context.Record.Find<Frame>(frame) : null;
        _cables = _frame is not null ? Order.At(_frame.Id) : _display is not null ? Within(_display) : Order.Cables;
        _list = _frame is not null ? ListOf(_frame) : _display is { IsMet: true } ? ListOf(_display) : null;
        Steps = Order.List(_cables);
        Warnings = new StepWarnings(context);
        _summary = new(Summarize);
    }

    /// <summary>The order that all lists are taken from.</summary>
    public ReconnectionOrder Order { get; }

    /// <summary>The steps of all its cables.</summary>
    public ImmutableArray<ConnectionStep> Steps { get; }

    /// <summary>Finds the warnings of its steps.</summary>
    public StepWarnings Warnings { get; }

    /// <summary>Frames with cables, in walking order; then those that stand nowhere, by id.</summary>
    public IEnumerable<Frame> Frames => _context.FramesToConnect;

    /// <summary>The working sets of displays that can be met, by id.</summary>
    public IEnumerable<WorkingSet> Sets => _context.Sets.All.Where(set => set.IsMet);

    /// <summary>The cables within a working set, in order.</summary>
    public ImmutableArray<RefittedCable> Within(WorkingSet set) =>
        [.. Order.Among(set.Inside.Select(reading => reading.Cable.Id).ToHashSet(StringComparer.Ordinal))];

    /// <summary>What is done at a frame, step by step.</summary>
    public PuttingBackList ListOf(Frame frame) => Order.ListOf(frame);

    /// <summary>What is done for a display, step by step.</summary>
    public PuttingBackList ListOf(WorkingSet set) => _lists.GetOrAdd(set.Display.Id, _ =>
    {
        var frames = set.Frames.Select(frame => frame.Id).ToHashSet(StringComparer.Ordinal);
        return Order.PutBack([.. _context.Walking.Where(frame => frames.Contains(frame.Id))], Within(set), null);
    });

    public override ImmutableArray<string> Summary => _summary.Value;

    /// <summary>Of a frame or a display the steps of its list; of all, every cable, and the steps of all lists.</summary>
    public override ImmutableArray<DataTable> Tables => _list is not null
        ? [_frame is not null
            ? FrameSteps([(_frame.Id, _list)])
            : DisplaySteps([(_display!.Display.Id, _list)])]
        :
        [
            new DataTable<ConnectionStep>("plans/reconnection", "a cable, in the order in which to connect them", Shape(Warnings), Steps),
            FrameSteps([.. Frames.Select(frame => (frame.Id, ListOf(frame)))]),
            DisplaySteps([.. Sets.Select(set => (set.Display.Id, ListOf(set)))]),
            new DataTable<ShortCable>(
                "plans/reconnection-short", "a cable that is no step of its lists, because it is too short for the hall", Shorts(),
                [
                    .. Frames.SelectMany(frame => ListOf(frame).TooShort.Select(each => new ShortCable(frame.Id, each))),
                    .. Sets.SelectMany(set => ListOf(set).TooShort.Select(each => new ShortCable(set.Display.Id, each)))
                ]),
        ];

    internal override ImmutableArray<string> Shown => _list is not null
        ? ["step", "action", "cable", "frame_of_step", "label", "tags", "here", "to", "trays", "state"]
        : ["turn", "cable", "label", "tags", "from", "to", "length_m", "state"];

    protected override ImmutableArray<Caution> FindCautions() => CautionsOf(_cables);

    internal override IEnumerable<string> LinesBeneath(int row) => _list is not null
        ?
        [
            .. Warnings.Of(_list.Steps[row]).Select(warning => warning.Text),
            StateText.Describe(_list.Steps[row].State),
        ]
        :
        [
            .. Warnings.Of(Steps[row]).Select(warning => warning.Text),
            StateText.Describe(Steps[row].State)
        ];

    private DataTable<ListStep> FrameSteps(ImmutableArray<(string Of, PuttingBackList List)> lists) => new(
        "plans/reconnection-frames",
        "a step of putting a frame back",
        ListSteps("frame", "frame", Warnings),
        new StepsOfLists(lists, isFrames: true));

    private DataTable<ListStep> DisplaySteps(ImmutableArray<(string Of, PuttingBackList List)> lists) => new(
        "plans/reconnection-displays",
        "a step of putting the working set of a display back",
        ListSteps("display", "display", Warnings),
        new StepsOfLists(lists, isFrames: false));

    /// <summary>What a list holds, in sentences.</summary>
    public static ImmutableArray<string> Says(PuttingBackList list) =>
    [
        $"{Phrase.Count(list.Steps.Length, "step")}: fix and earth, lay the cables, connect them by position and port ({OrderRules.ConnectingOrder}), check before power"
            + (list.Steps.Any(step => step.Action == StepAction.FitUnits) ? ", fit the units, start in stages." : "."),
        "Lay long runs first, and power apart from the rest. Uncoil a cable outward from the frame it is fast to, and never loop what is left over through others.",
        .. list.Steps.Any(step => step.Action == StepAction.Lay)
            && !list.Steps.Any(step => step.Action is StepAction.Connect or StepAction.LayAndConnect)
            ? ["Nothing is connected from this list: its cables stayed connected at this end. Their other ends are connected from the lists of the frames there."]
            : Array.Empty<string>(),
        .. list.TooShort.IsEmpty
            ? Array.Empty<string>()
            : [$"{Phrase.Count(list.TooShort.Length, "cable is", "cables are")} too short for the hall and no step here: someone decides first what becomes of {(list.TooShort.Length == 1 ? "it" : "them")}."],
    ];

    /// <summary>How many cables are connected and how many are ready, in sentences; none without events.</summary>
    private ImmutableArray<string> Progress(ImmutableArray<ConnectionStep> steps)
    {
        if (StateText.AsOf(_context.Progress) is not { } asOf) return [];
        var (done, open) =
            (steps.Count(step => step.State.Status == StepStatus.Done), steps.Count(step => step.State.Status == StepStatus.Open));
        return [$"{Phrase.Count(done)} of {Phrase.Count(steps.Length, "cable")} {(done == 1 ? "is" : "are")} connected; as far as the record shows, {Phrase.Count(open)} of the rest {(open == 1 ? "is" : "are")} ready and {Phrase.Count(steps.Length - done - open)} must wait. {asOf}"];
    }

    private static ImmutableArray<Caution> OnFrame(PuttingBackStep step) =>
        [
            step.Action switch
            {
                StepAction.Fix => StandardCautions.Tall,
                StepAction.TestEarth => StandardCautions.EarthFirst,
                StepAction.ProveSupply or StepAction.FitUnits or StepAction.Start => UnitCautions.Refitting,
                _ => StandardCautions.Powered,
            },
            .. HazardCautions.For(step.Frame!.Hazards),
        ];

    /// <summary>How many steps of a list are done and how many are open, in sentences; none without events.</summary>
    public ImmutableArray<string> Progress(PuttingBackList list)
    {
        if (StateText.AsOf(_context.Progress) is not { } asOf) return [];
        var (done, open) = (
            list.Steps.Count(step => step.State.Status == StepStatus.Done), list.Steps.Count(step => step.State.Status == StepStatus.Open));
        return [$"{Phrase.Count(done)} of {Phrase.Count(list.Steps.Length, "step")} {(done == 1 ? "is" : "are")} done; as far as the record shows, {Phrase.Count(open)} of the rest {(open == 1 ? "is" : "are")} ready and {Phrase.Count(list.Steps.Length - done - open)} must wait. {asOf}"];
    }

    /// <summary>
    /// What can hurt while some cables are connected; the rules of the order first, whether or not the list has such cables.
    /// </summary>
    public ImmutableArray<Caution> CautionsOf(IEnumerable<RefittedCable> cables)
    {
        var all = cables.ToList();
        var families = all.Select(laid => CableRoles.FamilyOf(_context.Record, laid.Cable)).ToHashSet();
        var runs = _context.Runs.InOtherHalls;
        var units = all.SelectMany(laid => laid.Frames).Distinct(StringComparer.Ordinal).SelectMany(_context.Units.In).ToList();
        var hazards = RecordedHazards.Of(
            _context.Record,
            _context.Runs.Reaches.Select(reach => reach.Layout.Hall),
            all.SelectMany(laid => laid.Frames),
            all.Select(laid => laid.Cable),
            all.SelectMany(laid => runs?.Invoke(laid.Cable.Id)?.Trays ?? []));
        return
        [
            StandardCautions.EarthFirst, StandardCautions.FeedersLast, StandardCautions.OutsideLast,
            .. families.Contains(CableFamily.Power) ? [StandardCautions.DirectCurrent] : Array.Empty<Caution>(),
            .. HazardCautions.For(hazards),
            .. families.Contains(CableFamily.Fibre) ? [StandardCautions.Fibre] : Array.Empty<Caution>(),
            .. units.Count > 0 ? UnitCautions.WhenRefitted(units) : [],
            StandardCautions.Overhead,
            StandardCautions.Tall,
        ];
    }

    // A cable is a step of several lists, and each is written as JSON and as CSV.
    private ImmutableArray<Caution> CautionsOf(RefittedCable laid) => _cautions.GetOrAdd(laid, one => CautionsOf([one]));

    private ImmutableArray<string> Summarize()
    {
        if (_display is { IsMet: false })
            return [$"What {_display.Display.Title} needs is not in this record, so there is no list of its cables. The plan “Working sets” says why."];
        if (_list is not null) return
        [
            $"{(_frame is not null ? _frame.Id : Phrase.OneLine(_display!.Display.Title))}: {Phrase.Count(_cables.Length, "cable")}.",
            .. Says(_list),
            .. _list.TooShort.Select(each => string.Join(
                ' ', Warnings.Of(each).Select(warning => warning.Text).Prepend($"{each.Laid.Cable.Id}."))),
            .. Progress(_list),
        ];
        var knots = _cables.Select(laid => laid.Cycle).OfType<PullGroup>().Distinct().Count();
        var kinds = Steps.Select(step => Warnings.Of(step).Select(warning => warning.Kind).ToHashSet()).ToList();
        var (tooShort, disagree) =
            (kinds.Count(each => each.Contains(WarningKind.TooShort)), kinds.Count(each => each.Contains(WarningKind.LabelDisagrees)));
        var open = _cables.Count(laid => laid.Ends.Length < 2);
        var ends = _cables.SelectMany(laid => laid.Ends).ToList();
        var (unseen, derived) = (ends.Count(end => end.Photo is null), ends.Count(end => end.End.IsDerived));
        var known = Phrase.Count(ends.Count) + " known ends" + (derived > 0
            ? $" ({Phrase.Count(ends.Count - derived)} that were seen, and {Phrase.Count(derived)} that labels give)"
            : "");
        return
        [
            $"{Phrase.Count(_cables.Length, "cable")}, in the order in which to connect them: {OrderRules.ConnectingOrder}; within each group, {(_context.Runs.InOtherHalls is null ? "cables that were found lowest" : "the longest runs")} come first{(knots > 0 ? $". {Phrase.Count(knots, "tangle")} among them: cables that interlock, because each lies over another" : "")}.",
            .. Progress(Steps),
            .. tooShort > 0
                ? [$"{Phrase.Count(tooShort, "is", "are")} too short for a hall where {(tooShort == 1 ? "its frames are" : "their frames are")} planned."]
                : ImmutableArray<string>.Empty,
            .. disagree > 0
                ? [$"{Phrase.Count(disagree, "has a label or tag that disagrees", "have labels or tags that disagree")} with what was seen."]
                : ImmutableArray<string>.Empty,
            .. open > 0 ? [$"{Phrase.Count(open, "cable has", "cables have")} an unknown end."] : ImmutableArray<string>.Empty,
            .. unseen > 0
                ? [$"{Phrase.Count(unseen)} of the {known} {(unseen == 1 ? "has" : "have")} no photo."]
                : ImmutableArray<string>.Empty,
        ];
    }

    private static RefittedEnd? At(RefittedCable laid, int end) => end < laid.Ends.Length ? laid.Ends[end] : null;

    private sealed record ListStep(string Of, bool IsFrames, PuttingBackStep Step);

    // A step is a row of several lists: rows are made as they are written.
    private sealed class StepsOfLists(ImmutableArray<(string Of, PuttingBackList List)> lists, bool isFrames)
        : IReadOnlyCollection<ListStep>
    {
        public int Count => lists.Sum(each => each.List.Steps.Length);

        public IEnumerator<ListStep> GetEnumerator() =>
            lists.SelectMany(each => each.List.Steps.Select(step => new ListStep(each.Of, isFrames, step))).GetEnumerator();

        IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
    }

    private sealed record ShortCable(string Of, PuttingBackShort Short);
}
