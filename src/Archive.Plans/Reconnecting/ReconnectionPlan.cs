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
using UnitsNet;

namespace Archive.Plans.Reconnecting;

/// <summary>In which order cables are connected again, earth first and feeders last; frame by frame, years later.</summary>
public sealed class ReconnectionPlan : Plan
{
    /// <summary>What it is.</summary>
    public static new PlanKind Kind { get; } = new(
        "reconnection", "Re-connection lists", $"The order in which to reconnect cables, for each frame and for each display: {OrderRules.ConnectingOrder}.", (basis, question) => new ReconnectionPlan(basis, question))
    { Options = ["display"] };

    private const string Role = "earth, signal (signal and control), unknown (kind not recorded, so it may be a feeder), feeder or outside (an outside line)";

    private static DataShape<ConnectionStep> Shape(StepWarnings warnings) => new DataShape<ConnectionStep>()
        .Count("turn", $"its turn among all cables of the record, from 1: {OrderRules.ConnectingOrder}; within a role, cables that were found lowest come first", step => step.Laid.Turn)
        .Text("cable", "id of the cable", step => step.Laid.Cable.Id)
        .Text("label", "its label, exactly as written", step => step.Laid.Cable.Label?.Value)
        .List("tags", "the tags at its ends, exactly as written", step => step.Laid.Cable.Ends.Select(end => end.Label?.Value).OfType<string>(), "; ")
        .Text("role", Role, step => DataValue.Word<CableRole>(step.Laid.Role))
        .Text("kind", "id of its kind", step => step.Laid.Cable.Kind?.Value)
        .Text("from", "address of the end to begin at; for a coil, the end that stayed connected", step => At(step.Laid, 0)?.End.At.ToString())
        .Text("from_connector", "its connector there", step => At(step.Laid, 0)?.End.Seen?.Connector?.Value)
        .Text("from_photo", "id of the photo that shows that end as it was", step => At(step.Laid, 0)?.Photo?.Id)
        .Text("to", "address of the other end", step => At(step.Laid, 1)?.End.At.ToString())
        .Text("to_connector", "its connector there", step => At(step.Laid, 1)?.End.Seen?.Connector?.Value)
        .Text("to_photo", "id of the photo that shows that end as it was", step => At(step.Laid, 1)?.Photo?.Id)
        .List("tails", "addresses of the other ends of a harness", step => step.Laid.Ends.Skip(2).Select(end => end.End.At.ToString()))
        .List("from_print", "which of these addresses were read from a label and not seen", step => step.Laid.Ends.Where(end => end.End.IsDerived).Select(end => end.End.At.ToString()))
        .Quantity("length", "m", "its length", step => step.Laid.Cable.Length, length => length.Meters)
        .Text("knot", "the first cable, by id, of the tangle it is part of; its cables are laid together", step => step.Laid.Cycle?.Id)
        .List("lies_over", "ids of the cables it lay over as found", step => step.Laid.Cable.LiesOver.Select(under => under.Value))
        .Text("fate", "what happened to it: coil, remove, sever, leave", step => step.Laid.Cable.Fate is { } fate ? Phrase.For(fate.Value) : null)
        .State(step => step.State)
        .Warnings(warnings.Of);

    private static DataShape<FrameStep> FrameSteps(StepWarnings warnings) => new DataShape<FrameStep>()
        .Text("frame", "id of the frame", step => step.Frame)
        .Count("step", $"step at this frame, from 1: {OrderRules.ConnectingOrder}", step => step.Step.Number)
        .Text("cable", "id of the cable", step => step.Step.Laid.Cable.Id)
        .Text("role", Role, step => DataValue.Word<CableRole>(step.Step.Laid.Role))
        .List("here", "addresses of its ends at this frame", step => step.Step.Laid.Ends.Where(end => end.End.At.Frame == step.Frame).Select(end => end.End.At.ToString()))
        .List("to", "addresses of its other known ends", step => step.Step.Laid.Ends.Where(end => end.End.At.Frame != step.Frame).Select(end => end.End.At.ToString()))
        .State(step => step.Step.State)
        .Warnings(step => warnings.Of(step.Step));

    private static DataShape<DisplayStep> DisplaySteps(StepWarnings warnings) => new DataShape<DisplayStep>()
        .Text("display", "id of the display", step => step.Display)
        .Count("step", $"step of this display, from 1: {OrderRules.ConnectingOrder}", step => step.Step.Number)
        .Text("cable", "id of the cable", step => step.Step.Laid.Cable.Id)
        .Text("role", Role, step => DataValue.Word<CableRole>(step.Step.Laid.Role))
        .List("ends", "addresses of its known ends, the one to begin at first", step => step.Step.Laid.Ends.Select(end => end.End.At.ToString()))
        .State(step => step.Step.State)
        .Warnings(step => warnings.Of(step.Step));

    private readonly PlanContext _basis;
    private readonly WorkingSet? _display;
    private readonly ImmutableArray<RefittedCable> _cables;
    private readonly Lazy<ImmutableArray<string>> _summary;

    private ReconnectionPlan(PlanContext basis, PlanRequest question)
        : base(Kind)
    {
        _basis = basis;
        Order = basis.Connecting;
        _display = question.Display is { } display ? basis.Sets.Find(display) : null;
        _cables = _display is null ? Order.Cables : Within(_display);
        Steps = Order.List(_cables);
        Warnings = new StepWarnings(basis);
        _summary = new(Summarize);
    }

    /// <summary>The order that all lists are taken from.</summary>
    public ReconnectionOrder Order { get; }

    /// <summary>The steps of all its cables.</summary>
    public ImmutableArray<ConnectionStep> Steps { get; }

    /// <summary>Finds the warnings of its steps.</summary>
    public StepWarnings Warnings { get; }

    /// <summary>Frames with cables, in walking order; then those that stand nowhere, by id.</summary>
    public IEnumerable<Frame> Frames => (_basis.HallLayouts.AsFound?.PlacedFrames ?? []).Select(standing => standing.Frame)
        .Concat(_basis.Record.Frames.Where(frame => !frame.IsWithdrawn)).DistinctBy(frame => frame.Id).Where(frame => !Order.At(frame.Id).IsEmpty);

    /// <summary>The working sets of displays that can be met, by id.</summary>
    public IEnumerable<WorkingSet> Sets => _basis.Sets.All.Where(set => set.IsMet);

    /// <summary>The cables within a working set, in order.</summary>
    public ImmutableArray<RefittedCable> Within(WorkingSet set) => [.. Order.Among(set.Inside.Select(reading => reading.Cable.Id).ToHashSet(StringComparer.Ordinal))];

    public override ImmutableArray<string> Summary => _summary.Value;

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<ConnectionStep>("plans/reconnection", "a cable, in the order in which to connect them", Shape(Warnings), Steps),
        new DataTable<FrameStep>("plans/reconnection-frames", "a cable at a frame where it ends, in the order in which to connect them there", FrameSteps(Warnings), [.. Frames.SelectMany(frame => Order.List(Order.At(frame.Id)).Select(step => new FrameStep(frame.Id, step)))]),
        new DataTable<DisplayStep>("plans/reconnection-displays", "a cable within the working set of a display, in the order in which to connect them", DisplaySteps(Warnings), [.. Sets.SelectMany(set => Order.List(Within(set)).Select(step => new DisplayStep(set.Display.Id, step)))]),
    ];

    internal override ImmutableArray<string> Shown => ["turn", "cable", "label", "tags", "from", "to", "length_m", "state"];

    public override ImmutableArray<Caution> Cautions => CautionsOf(_cables);

    internal override IEnumerable<string> LinesBeneath(int row) => [.. Warnings.Of(Steps[row]).Select(warning => warning.Text), StateText.Describe(Steps[row].State)];

    /// <summary>What some cables are, in a sentence.</summary>
    /// <param name="cables">The cables of a list.</param>
    public static string Says(ImmutableArray<RefittedCable> cables) => $"{Phrase.Count(cables.Length, "cable")}, in the order in which to connect them: {OrderRules.ConnectingOrder}.";

    /// <summary>How many steps of a list are done and how many are open, in sentences; none without events.</summary>
    public ImmutableArray<string> Progress(ImmutableArray<ConnectionStep> steps)
    {
        if (StateText.AsOf(_basis.Progress) is not { } asOf) return [];
        var (done, open) = (steps.Count(step => step.State.Status == StepStatus.Done), steps.Count(step => step.State.Status == StepStatus.Open));
        return [$"{Phrase.Count(done)} of {Phrase.Count(steps.Length, "cable")} {(done == 1 ? "is" : "are")} connected; as far as the record shows, {Phrase.Count(open)} of the rest {(open == 1 ? "is" : "are")} ready and {Phrase.Count(steps.Length - done - open)} must wait. {asOf}"];
    }

    /// <summary>What can hurt while some cables are connected; the rules of the order first, whether or not the list has such cables.</summary>
    public ImmutableArray<Caution> CautionsOf(IEnumerable<RefittedCable> cables)
    {
        var families = cables.Select(laid => CableRoles.FamilyOf(_basis.Record, laid.Cable)).ToHashSet();
        return
        [
            StandardCautions.EarthFirst, StandardCautions.FeedersLast, StandardCautions.OutsideLast,
            .. families.Contains(CableFamily.Power) ? [StandardCautions.DirectCurrent] : Array.Empty<Caution>(),
            .. families.Contains(CableFamily.Fibre) ? [StandardCautions.Fibre] : Array.Empty<Caution>(),
            StandardCautions.Overhead,
        ];
    }

    private ImmutableArray<string> Summarize()
    {
        if (_display is { IsMet: false }) return [$"What {_display.Display.Title} needs is not in this record, so there is no list of its cables. The plan “Working sets” says why."];
        var knots = _cables.Select(laid => laid.Cycle).OfType<PullGroup>().Distinct().Count();
        var kinds = Steps.Select(step => Warnings.Of(step).Select(warning => warning.Kind).ToHashSet()).ToList();
        var (tooShort, disagree) = (kinds.Count(each => each.Contains(WarningKind.TooShort)), kinds.Count(each => each.Contains(WarningKind.LabelDisagrees)));
        var open = _cables.Count(laid => laid.Ends.Length < 2);
        var unseen = _cables.Sum(laid => laid.Ends.Count(end => end.Photo is null));
        return
        [
            $"{Phrase.Count(_cables.Length, "cable")}{(_display is null ? "" : $" within the working set of {_display.Display.Title}")}, in the order in which to connect them: {OrderRules.ConnectingOrder}; within each group, cables that were found lowest come first{(knots > 0 ? $". {Phrase.Count(knots, "tangle")} among them: cables that interlock, because each lies over another" : "")}.",
            .. Progress(Steps),
            .. tooShort > 0 ? [$"{Phrase.Count(tooShort, "is", "are")} too short for a hall where {(tooShort == 1 ? "its frames are" : "their frames are")} planned."] : ImmutableArray<string>.Empty,
            .. disagree > 0 ? [$"{Phrase.Count(disagree, "has a label or tag that disagrees", "have labels or tags that disagree")} with what was seen."] : ImmutableArray<string>.Empty,
            .. open > 0 ? [$"{Phrase.Count(open, "cable has", "cables have")} an unknown end."] : ImmutableArray<string>.Empty,
            .. unseen > 0 ? [$"{Phrase.Count(unseen)} of the {Phrase.Count(_cables.Sum(laid => laid.Ends.Length))} known ends {(unseen == 1 ? "has" : "have")} no photo."] : ImmutableArray<string>.Empty,
        ];
    }

    private static RefittedEnd? At(RefittedCable laid, int end) => end < laid.Ends.Length ? laid.Ends[end] : null;

    private sealed record DisplayStep(string Display, ConnectionStep Step);

    private sealed record FrameStep(string Frame, ConnectionStep Step);
}
