using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Progress;

namespace Archive.Wiring.Reconnecting;

/// <summary>Says how far each step of a re-connection list has come.</summary>
/// <remarks>Linear in the list and its ends.</remarks>
internal sealed class ConnectionStates
{
    private readonly ArchiveModel _record;
    private readonly WorkProgress _progress;
    private readonly FrameReadiness _frames;
    private readonly StillToConnect _left;

    /// <summary>For a list.</summary>
    /// <param name="progress">What has been done.</param>
    /// <param name="frames">What keeps cables back that lies in frames.</param>
    public ConnectionStates(ArchiveModel record, WorkProgress progress, FrameReadiness frames, ImmutableArray<RefittedCable> list)
    {
        (_record, _progress, _frames) = (record, progress, frames);
        _left = StillToConnect.From(list.Where(laid => progress.ConnectedBy(laid.Cable.Id) is null));
    }

    /// <summary>How far a step has come.</summary>
    /// <param name="laid">A cable of the list.</param>
    public StepState Of(RefittedCable laid) =>
        _progress.ConnectedBy(laid.Cable.Id) is { } done ? StepState.Done(done) : StepState.From(Preconditions(laid));

    private IEnumerable<Precondition> Preconditions(RefittedCable laid)
    {
        foreach (var absence in _progress.Absence(laid.Cable)) yield return absence;
        foreach (var standing in laid.Frames.SelectMany(frame => _frames.Standing(frame))) yield return standing;
        foreach (var earth in _frames.Earthed(laid.Frames, laid)) yield return earth;
        foreach (var unit in laid.Ends.Select(_frames.UnitOf).OfType<Precondition>()) yield return unit;
        if (_left.Before(laid.Role) is { } others) yield return others;
        if (WorkProgress.NeedsLicence(_record, laid.Cable)) yield return Precondition.Of(PreconditionKind.Licensed);
    }
}
