using System.Collections.Immutable;
using Archive.Records;
using Archive.Wiring;
using UnitsNet;

namespace Archive.Site;

/// <summary>In which order cables are laid back, the lowest first; frame by frame, years later.</summary>
internal sealed class ReconnectionPlan : Plan
{
    /// <summary>What it is.</summary>
    public static new PlanKind Kind { get; } = new(
        "reconnection", "Re-connection lists", "The order to lay cables back, the lowest first: a list for each frame and for each display.", (basis, question) => new ReconnectionPlan(basis, question))
    { Heeds = ["display"] };

    private static readonly DataShape<Relaid> Shape = new DataShape<Relaid>()
        .Count("turn", "its turn among all cables of the record, from 1: the lowest first", laid => laid.Turn)
        .Text("cable", "id of the cable", laid => laid.Cable.Id)
        .Text("label", "its label, letter for letter", laid => laid.Cable.Label?.Value)
        .Text("kind", "id of its kind", laid => laid.Cable.Kind?.Value)
        .Text("from", "address of the end to begin at; of a coil the one that it stayed fast to", laid => At(laid, 0)?.End.At.ToString())
        .Text("from_connector", "its connector there", laid => At(laid, 0)?.End.Seen?.Connector?.Value)
        .Text("from_photo", "id of the photo that shows that end as it was", laid => At(laid, 0)?.Photo?.Id)
        .Text("to", "address of the other end", laid => At(laid, 1)?.End.At.ToString())
        .Text("to_connector", "its connector there", laid => At(laid, 1)?.End.Seen?.Connector?.Value)
        .Text("to_photo", "id of the photo that shows that end as it was", laid => At(laid, 1)?.Photo?.Id)
        .List("tails", "addresses of a harness's further ends", laid => laid.Ends.Skip(2).Select(end => end.End.At.ToString()))
        .List("from_print", "which of these addresses were read from print and not seen", laid => laid.Ends.Where(end => end.End.IsDerived).Select(end => end.End.At.ToString()))
        .Quantity("length", "m", "its length", laid => laid.Cable.Length, length => length.Meters)
        .Text("knot", "the ordinally first cable of the knot that it is part of; its cables are laid as one", laid => laid.Knot?.Id)
        .List("lies_over", "ids of the cables that it lies upon, all laid before it but those of its knot", laid => laid.Cable.LiesOver.Select(under => under.Value))
        .Text("fate", "what became of it: coil, remove, sever, leave", laid => laid.Cable.Fate is { } fate ? Words.Of(fate.Value) : null);

    private static readonly DataShape<FrameStep> Steps = new DataShape<FrameStep>()
        .Text("frame", "id of the frame", step => step.Frame)
        .Count("step", "step at this frame, from 1: the lowest cable first", step => step.Number)
        .Text("cable", "id of the cable", step => step.Laid.Cable.Id)
        .List("here", "addresses of its ends at this frame", step => step.Laid.Ends.Where(end => end.End.At.Frame == step.Frame).Select(end => end.End.At.ToString()))
        .List("to", "addresses of its other known ends", step => step.Laid.Ends.Where(end => end.End.At.Frame != step.Frame).Select(end => end.End.At.ToString()));

    private static readonly DataShape<DisplayStep> DisplaySteps = new DataShape<DisplayStep>()
        .Text("display", "id of the display", step => step.Display)
        .Count("step", "step of this display, from 1: the lowest cable first", step => step.Number)
        .Text("cable", "id of the cable", step => step.Laid.Cable.Id)
        .List("ends", "addresses of its known ends, the one to begin at first", step => step.Laid.Ends.Select(end => end.End.At.ToString()));

    private readonly PlanBasis _basis;
    private readonly WorkingSet? _display;
    private readonly ImmutableArray<Relaid> _cables;

    private ReconnectionPlan(PlanBasis basis, PlanQuestion question)
        : base(Kind)
    {
        _basis = basis;
        Order = Reconnection.Of(basis.Record, basis.Readings);
        _display = question.Display is { } display ? basis.Sets.Of(display) : null;
        _cables = _display is null ? Order.Cables : Within(_display);
    }

    /// <summary>The order that all lists are taken from.</summary>
    public Reconnection Order { get; }

    /// <summary>Frames with cables, in walking order; then those that stand nowhere, by id.</summary>
    public IEnumerable<Frame> Frames => (_basis.Standings.AsFound?.Standing ?? []).Select(standing => standing.Frame)
        .Concat(_basis.Record.Frames.Where(frame => !frame.IsWithdrawn)).DistinctBy(frame => frame.Id).Where(frame => !Order.At(frame.Id).IsEmpty);

    /// <summary>The working sets of displays that can be met, by id.</summary>
    public IEnumerable<WorkingSet> Sets => _basis.Sets.All.Where(set => set.IsMet);

    /// <summary>The cables within a working set, the lowest first.</summary>
    /// <param name="set">The set.</param>
    public ImmutableArray<Relaid> Within(WorkingSet set) => [.. Order.Among(set.Inside.Select(reading => reading.Cable.Id).ToHashSet(StringComparer.Ordinal))];

    public override ImmutableArray<string> Summary
    {
        get
        {
            if (_display is { IsMet: false }) return [$"What {_display.Display.Title} needs cannot be met by the frames of this record, so there is no list of its cables; the plan of working sets says why."];
            var knots = _cables.Select(laid => laid.Knot).OfType<Lift>().Distinct().Count();
            var open = _cables.Count(laid => laid.Ends.Length < 2);
            var unseen = _cables.Sum(laid => laid.Ends.Count(end => end.Photo is null));
            return
            [
                $"{Words.Count(_cables.Length, "cable")}{(_display is null ? "" : $" within the working set of {_display.Display.Title}")} in the order to lay them back, the lowest first{(knots > 0 ? $"; {Words.Count(knots, "knot")} among them, each laid as one" : "")}.",
                .. open > 0 ? [$"Of {Words.Count(open, "cable")} not both ends are known."] : ImmutableArray<string>.Empty,
                .. unseen > 0 ? [$"No photo shows {Words.Count(unseen, "end")} of the {Words.Count(_cables.Sum(laid => laid.Ends.Length))} that are known."] : ImmutableArray<string>.Empty,
            ];
        }
    }

    internal override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<Relaid>("plans/reconnection", "a cable, in the order to lay them back", Shape, _cables),
        new DataTable<FrameStep>("plans/reconnection-frames", "a cable at a frame that it ends at, in the order to lay them back there", Steps, [.. Frames.SelectMany(frame => Order.At(frame.Id).Select((laid, step) => new FrameStep(frame.Id, step + 1, laid)))]),
        new DataTable<DisplayStep>("plans/reconnection-displays", "a cable within the working set of a display, in the order to lay them back", DisplaySteps, [.. Sets.SelectMany(set => Within(set).Select((laid, step) => new DisplayStep(set.Display.Id, step + 1, laid)))]),
    ];

    internal override ImmutableArray<string> Shown => ["turn", "cable", "label", "from", "to", "length_m", "knot"];

    private static RelaidEnd? At(Relaid laid, int end) => end < laid.Ends.Length ? laid.Ends[end] : null;

    private sealed record DisplayStep(string Display, int Number, Relaid Laid);

    private sealed record FrameStep(string Frame, int Number, Relaid Laid);
}
