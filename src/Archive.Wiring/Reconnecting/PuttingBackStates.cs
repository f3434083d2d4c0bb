using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Reconnecting;

/// <summary>Says how far each step of putting a frame or display back together has come.</summary>
/// <remarks>Each cable's events are gone through once; each step costs its ends.</remarks>
internal sealed class PuttingBackStates
{
    private readonly ArchiveModel _record;
    private readonly WorkProgress _progress;
    private readonly FrameReadiness _frames;
    private readonly Dictionary<string, EndConnections> _ends = new(StringComparer.Ordinal);
    private readonly List<string> _beforeFeeders;
    private readonly List<string> _beforeOutside;
    private readonly List<string> _beforePower;

    /// <summary>For a list.</summary>
    /// <param name="progress">What has been done.</param>
    /// <param name="frames">What keeps cables back that lies in frames.</param>
    /// <param name="list">Its cables.</param>
    /// <param name="here">Id of the frame at which ends are connected; null for all.</param>
    public PuttingBackStates(
        ArchiveModel record, WorkProgress progress, FrameReadiness frames, ImmutableArray<RefittedCable> list, string? here)
    {
        (_record, _progress, _frames) = (record, progress, frames);
        var left = list.Where(laid =>
            laid.Ends.Any(end => !end.StaysFast && (here is null || end.End.At.Frame == here) && ConnectedBy(laid, end) is null)).ToList();
        _beforePower = [.. left.Select(laid => laid.Cable.Id)];
        _beforeFeeders = [.. left.Where(laid => !OrderRules.FeedersLast.Roles.Contains(laid.Role)).Select(laid => laid.Cable.Id)];
        _beforeOutside = [.. left.Where(laid => !OrderRules.OutsideLast.Roles.Contains(laid.Role)).Select(laid => laid.Cable.Id)];
    }

    /// <summary>How far a step has come.</summary>
    public StepState Of(PuttingBackStep step) => DoneBy(step) is { } done ? StepState.Done(done) : StepState.From(Preconditions(step));

    private static IEnumerable<string> FramesOf(PuttingBackStep step) =>
        step.Ends.Select(end => end.End.At.Frame).Distinct(StringComparer.Ordinal);

    private static Precondition Waiting(PreconditionKind kind, List<string> cables) =>
        new(kind) { Cables = [.. cables.Take(Precondition.MostNamed)], Count = cables.Count };

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
        { Action: StepAction.Lay, Laid: { } laid } => LaidBy(laid),
        { Laid: { } laid } => AllConnectedBy(laid, step.Ends),
        _ => null,
    };

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
            if (step.Action == StepAction.Check && _beforePower.Count > 0) yield return Waiting(PreconditionKind.OthersOn, _beforePower);
            if (step.Action != StepAction.Fix) yield return new Precondition(PreconditionKind.Licensed);
            yield break;
        }

        var laid = step.Laid!;
        foreach (var absence in _progress.Absence(laid.Cable)) yield return absence;
        foreach (var standing in FramesOf(step).SelectMany(frame => _frames.Standing(frame))) yield return standing;
        if (step.Action == StepAction.Connect && LaidBy(laid) is null) yield return new Precondition(PreconditionKind.CableLaid);
        if (step.Connects)
        {
            foreach (var earth in _frames.Earthed(FramesOf(step), laid)) yield return earth;
            var others = OrderRules.OutsideLast.Roles.Contains(laid.Role)
                ? _beforeOutside
                : OrderRules.FeedersLast.Roles.Contains(laid.Role)
                ? _beforeFeeders
                : [];
            if (others.Count > 0) yield return Waiting(PreconditionKind.OthersOn, others);
        }

        if (WorkProgress.NeedsLicence(_record, laid.Cable)) yield return new Precondition(PreconditionKind.Licensed);
    }
}
