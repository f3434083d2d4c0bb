using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;
using Archive.Wiring.Units;

namespace Archive.Wiring.Reconnecting;

/// <summary>Says how far each step of putting a frame or display back together has come.</summary>
/// <remarks>Each cable's events are gone through once; each step costs its ends.</remarks>
internal sealed class PuttingBackStates
{
    private readonly ArchiveModel _record;
    private readonly UnitIndex _units;
    private readonly WorkProgress _progress;
    private readonly FrameReadiness _frames;
    private readonly Dictionary<string, EndConnections> _ends = new(StringComparer.Ordinal);
    private readonly StillToConnect _onFrames;
    private readonly StillToConnect _onUnits;

    /// <summary>For a list.</summary>
    /// <param name="units">What was found in the slots of its frames.</param>
    /// <param name="progress">What has been done.</param>
    /// <param name="frames">What keeps cables back that lies in frames.</param>
    /// <param name="list">Its cables.</param>
    /// <param name="here">Id of the frame at which ends are connected; null for all.</param>
    public PuttingBackStates(
        ArchiveModel record,
        UnitIndex units,
        WorkProgress progress,
        FrameReadiness frames,
        ImmutableArray<RefittedCable> list,
        string? here)
    {
        _units = units;
        (_record, _progress, _frames) = (record, progress, frames);
        _onFrames = StillToConnect.From(list.Where(laid => IsLeft(laid, end => end.Unit is null)));
        // Nobody waits for what ends on a unit that is lost.
        _onUnits = StillToConnect.From(
            list.Where(laid => IsLeft(laid, end => end.Unit is { } unit && SituationOf(unit) != Situation.Missing)));

        bool IsLeft(RefittedCable laid, Func<RefittedEnd, bool> isMeant) => laid.Ends.Any(end => !end.StaysFast
            && isMeant(end)
            && (here is null || end.End.At.Frame == here)
            && ConnectedBy(laid, end) is null);
    }

    /// <summary>How far a step has come.</summary>
    public StepState Of(PuttingBackStep step) => DoneBy(step) is { } done ? StepState.Done(done) : StepState.From(Preconditions(step));

    private static IEnumerable<string> FramesOf(PuttingBackStep step) =>
        step.Ends.Select(end => end.End.At.Frame).Distinct(StringComparer.Ordinal);

    private ArchiveEvent? ConnectedBy(RefittedCable laid, RefittedEnd end)
    {
        if (_progress.JourneyOf(laid.Cable.Id) is not { Events.IsEmpty: false } journey) return null;
        if (!_ends.TryGetValue(laid.Cable.Id, out var ends)) _ends[laid.Cable.Id] = ends = EndConnections.From(_record, journey);
        return ends.ConnectedAt(end.End.At);
    }

    private ArchiveEvent? DoneBy(PuttingBackStep step) => step switch
    {
        { Action: StepAction.Fix, Frame: { } frame } => _progress.JourneyOf(
            frame.Id) is { Situation: Situation.Fixed or Situation.Connected } ? _progress.LastOf(frame.Id, EventType.Fixed) : null,
        { Action: StepAction.TestEarth, Frame: { } frame } => _progress.LastOf(frame.Id, EventType.Earthed),
        { Action: StepAction.Check, Frame: { } frame } => _progress.LastOf(frame.Id, EventType.Tested),
        // That the supply was proved is no event: units that are back in their slots went in after it.
        { Action: StepAction.ProveSupply or StepAction.FitUnits, Frame: { } frame } => RefittedBy(frame.Id),
        { Action: StepAction.Start, Frame: { } frame } => _progress.LastOf(frame.Id, EventType.Energised),
        { Action: StepAction.Lay, Laid: { } laid } => LaidBy(laid),
        { Laid: { } laid } => AllConnectedBy(laid, step.Ends),
        _ => null,
    };

    // Units that are lost cannot go back; those that never came out have to, before the supply is proved.
    private ArchiveEvent? RefittedBy(string frame)
    {
        ImmutableArray<Journey?> journeys =
        [
            .. _units.In(frame).Select(unit => _progress.JourneyOf(unit.Id)).Where(journey => journey?.Situation != Situation.Missing)
        ];
        return journeys.IsEmpty || journeys.Any(journey => journey?.Situation != Situation.Refitted)
            ? null
            : journeys.Select(journey => journey!.Since).OfType<ArchiveEvent>().MaxBy(by => by.On?.Value.Latest);
    }

    private static Precondition Naming(PreconditionKind kind, string frame, List<string> units) =>
        Precondition.About(kind, units) with { Frame = frame };

    // What the units of a frame keep back: proving its supply needs them out, power needs them in.
    private IEnumerable<Precondition> OfUnits(Frame frame, StepAction action)
    {
        if (action is not (StepAction.ProveSupply or StepAction.FitUnits or StepAction.Start)) yield break;
        List<string> inside = [.. _units.In(frame.Id).Where(unit => SituationOf(unit) == Situation.AsFound).Select(unit => unit.Id)];
        List<string> outside = [.. _units.In(frame.Id)
            .Where(unit => SituationOf(unit) is not (Situation.AsFound or Situation.Refitted or Situation.Missing))
            .Select(unit => unit.Id)];
        if (action != StepAction.Start && inside.Count > 0) yield return Naming(PreconditionKind.UnitsOut, frame.Id, inside);
        if (action == StepAction.FitUnits) yield return new Precondition(PreconditionKind.SupplyProved) { Frame = frame.Id };
        if (action == StepAction.Start && outside.Count > 0) yield return Naming(PreconditionKind.UnitsIn, frame.Id, outside);
    }

    private Situation SituationOf(Unit unit) => _progress.JourneyOf(unit.Id)?.Situation ?? Situation.AsFound;

    // A cable that is connected anywhere lies in its place.
    private ArchiveEvent? LaidBy(RefittedCable laid) => (_progress.JourneyOf(
        laid.Cable.Id) is { Situation: Situation.Laid or Situation.Connected } ? _progress.LastOf(laid.Cable.Id, EventType.Laid) : null)
        ?? laid.Ends.Select(end => ConnectedBy(laid, end)).FirstOrDefault(by => by is not null) ?? _progress.ConnectedBy(laid.Cable.Id);

    private ArchiveEvent? AllConnectedBy(RefittedCable laid, ImmutableArray<RefittedEnd> ends)
    {
        ImmutableArray<ArchiveEvent?> by = [.. ends.Where(end => !end.StaysFast).Select(end => ConnectedBy(laid, end))];
        return by.IsEmpty ? _progress.ConnectedBy(laid.Cable.Id) : by.All(each => each is not null) ? by[^1] : null;
    }

    private IEnumerable<Precondition> Preconditions(PuttingBackStep step)
    {
        if (step.Frame is { } frame)
        {
            foreach (var standing in _frames.Standing(frame.Id, isAnchored: step.Action != StepAction.Fix)) yield return standing;
            if (step.Action != StepAction.Fix && _frames.Lacks(frame.Id) is { } missing) yield return missing;
            foreach (var units in OfUnits(frame, step.Action)) yield return units;
            if (step.Stage >= PuttingBackStage.Checks && _onFrames.All is { } onFrames) yield return onFrames;
            if (step.Action == StepAction.Start && _onUnits.All is { } onUnits) yield return onUnits;
            if (step.Action != StepAction.Fix) yield return Precondition.Of(PreconditionKind.Licensed);
            yield break;
        }

        var laid = step.Laid!;
        foreach (var absence in _progress.Absence(laid.Cable)) yield return absence;
        foreach (var standing in FramesOf(step).SelectMany(frame => _frames.Standing(frame))) yield return standing;
        if (step.Action == StepAction.Connect && LaidBy(laid) is null) yield return Precondition.Of(PreconditionKind.CableLaid);
        if (step.Connects)
        {
            foreach (var earth in _frames.Earthed(FramesOf(step), laid)) yield return earth;
            foreach (var unit in step.Ends.Select(_frames.UnitOf).OfType<Precondition>()) yield return unit;
            if ((step.Stage == PuttingBackStage.UnitFronts ? _onUnits : _onFrames).Before(laid.Role) is { } others) yield return others;
        }

        if (WorkProgress.NeedsLicence(_record, laid.Cable)) yield return Precondition.Of(PreconditionKind.Licensed);
    }
}
