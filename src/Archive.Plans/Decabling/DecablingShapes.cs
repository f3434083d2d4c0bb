using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Progress;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Wiring.Decabling;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Plans.Decabling;

/// <summary>A step that a frame needs to be free.</summary>
/// <param name="For">Id of the frame.</param>
internal sealed record FrameStep(string For, DecablingStep Step);

/// <summary>What the data of the decabling order say.</summary>
internal static class DecablingShapes
{
    /// <param name="warnings">Finds its warnings.</param>
    /// <param name="cautions">Finds its cautions.</param>
    public static DataShape<DecablingStep> Step(
        StepWarnings warnings, Func<IReadOnlyCollection<DecablingStep>, ImmutableArray<Caution>> cautions) => new DataShape<DecablingStep>()
        .Count("step", "its place in the order, from 1", step => step.Number)
        .Text(
            "action",
            "make_safe (the batteries of a frame, by licensed people), take_out_units (of a dead frame, before it moves), disconnect (the cable stays where it lies), pull (it was disconnected before), take_out (disconnect and pull at once) or release (of one frame's list the last: nothing but its bolts may hold it)",
            step => DataValue.Word<StepAction>(step.Action))
        .Text("cable", "id of the cable; empty for a step on a frame", step => step.Cable?.Id)
        .Text(
            "frame",
            "id of the frame whose batteries are made safe, whose units come out, or that is set free; empty for a step on a cable",
            step => step.Frame?.Id)
        .Text("label", "its label, exactly as written", step => step.Cable?.Label?.Value)
        .List("tags", "the tags at its ends, exactly as written", step =>
            (step.Cable?.Ends ?? []).Select(end => end.Label?.Value).OfType<string>(), "; ")
        .Text(
            "stage",
            "batteries, outside_lines, feeders, outside (an end outside the working set, or must come before such a cable) or inside",
            step => DataValue.Word<DecablingStage>(step.Stage))
        .Text("family", "family of its kind; other if that is unknown", step => step.Cable is null
            ? null
            : DataValue.Word<CableFamily>(step.Family))
        .Text(
            "role",
            "earth, signal (signal and control), unknown (kind not recorded, so it may be a feeder), feeder or outside (an outside line)",
            step => step.Cable is null ? null : DataValue.Word<CableRole>(step.Role))
        .Text("knot", "id of the first cable of its tangle; empty for a cable by itself", step => step.Cycle?.Id)
        .List("knot_cables", "ids of all cables of its tangle, which is worked as one", step =>
            (step.Cycle?.Cables ?? []).Select(cable => cable.Id))
        .Text("fate", "what happens to it: coil, remove, sever or leave; empty if that is not recorded", step =>
            DataValue.Word(step.Cable?.Fate?.Value))
        .Text("coil_to", "id of the frame that it stays connected to, coiled and lashed", step => step.Cable?.CoilTo?.Value)
        .Text("reason", "why it is cut or stays", step => step.Cable?.Reason?.Value)
        .List("disconnect_at", "addresses of the ends that are disconnected in this step", step =>
            step.Frees.Select(end => end.At.ToString()))
        .List("from", "addresses of the ends that it is pulled from", step => step.Pull.From.Select(end => end.At.ToString()))
        .Text("to", "address of the end that it is pulled back to", step => step.Pull.To?.At.ToString())
        .List("trays", "ids of the trays that it leaves, from the disconnected end", step => step.Pull.Trays)
        .List("under", "ids of cables over it that stay in the tray; it is drawn out from under them", step => step.Under)
        .List(
            "fed_also_by",
            "ids of the other feeders of the frame that it feeds, twelve at most; nothing there is dead before all are off",
            step => step.FedAlsoBy?.Cables ?? [])
        .Flag("tag_first", "whether it is tagged by hand before it is disconnected", step => step.IsTaggedFirst)
        .Text("verdict", "how reliable its label is", step => step.Reading?.Verdict.Word())
        .Text("tag_why", "why its label is not enough", step => step.IsTaggedFirst ? step.Reading!.Why : null)
        .Number("minutes", "min", "how long it takes, at the archive's pace", step => step.Minutes)
        .Flag("length_known", "whether its length is known; if not, the minutes leave it out", step => step.IsLengthKnown)
        .Number("elapsed_min", "min", "from the start until it is done", step => step.Elapsed)
        .List("units", "ids of the units that come out of the frame", step => step.Units.Select(unit => unit.Id))
        .List("released", "ids of frames that are free to go after it", step => step.Released)
        .State(step => step.State)
        .Cautions(step => cautions([step]))
        .Warnings(warnings.Of);

    /// <summary>A step that one frame needs: what tells it from others; the whole list says all else of its cable.</summary>
    /// <param name="warnings">Finds its warnings.</param>
    /// <param name="cautions">Finds its cautions.</param>
    public static DataShape<FrameStep> OfFrame(
        StepWarnings warnings, Func<IReadOnlyCollection<DecablingStep>, ImmutableArray<Caution>> cautions) => new DataShape<FrameStep>()
        .Text("for_frame", "id of the frame that is to be free", each => each.For)
        .Count("step", "its place in the list of this frame, from 1", each => each.Step.Number)
        .Text("action", "make_safe, take_out_units, disconnect, pull, take_out or release", each =>
            DataValue.Word<StepAction>(each.Step.Action))
        .Text("cable", "id of the cable; empty for a step on a frame", each => each.Step.Cable?.Id)
        .Text(
            "frame",
            "id of the frame whose batteries are made safe, whose units come out, or that is set free; empty for a step on a cable",
            each => each.Step.Frame?.Id)
        .Text("label", "its label, exactly as written", each => each.Step.Cable?.Label?.Value)
        .List("tags", "the tags at its ends, exactly as written", each =>
            (each.Step.Cable?.Ends ?? []).Select(end => end.Label?.Value).OfType<string>(), "; ")
        .List("disconnect_at", "addresses of the ends that are disconnected in this step", each =>
            each.Step.Frees.Select(end => end.At.ToString()))
        .List("from", "addresses of the ends that it is pulled from", each => each.Step.Pull.From.Select(end => end.At.ToString()))
        .Text("to", "address of the end that it is pulled back to", each => each.Step.Pull.To?.At.ToString())
        .List("trays", "ids of the trays that it leaves, from the disconnected end", each => each.Step.Pull.Trays)
        .Number("elapsed_min", "min", "from the start of this list until it is done", each => each.Step.Elapsed)
        .List("units", "ids of the units that come out of the frame", each => each.Step.Units.Select(unit => unit.Id))
        .List("released", "ids of frames that are free to go after it", each => each.Step.Released)
        .State(each => each.Step.State)
        .Cautions(each => cautions([each.Step]))
        .Warnings(each => warnings.Of(each.Step));

    /// <summary>A frame's release.</summary>
    public static DataShape<FrameRelease> Release(DecablingOrder order, ImmutableArray<Caution> cautions) => new DataShape<FrameRelease>()
        .Text("frame", "id of the frame", release => release.Frame)
        .Count(
            "step",
            "the step that takes out its last cable, or the units that must be out before it moves; empty if neither comes out",
            release => release.Step == 0 ? null : release.Step)
        .Number("elapsed_min", "min", "from the start until then", release => release.Step == 0 ? null : release.Minutes)
        .Flag("in_working_set", "whether it is left until last", release => order.Wanted.Contains(release.Frame))
        .List(
            "left",
            "ids of cables at it that stay in place; they are disconnected before the frame goes, by their owner if they belong to others",
            release => release.Staying)
        .Cautions(cautions);
}
