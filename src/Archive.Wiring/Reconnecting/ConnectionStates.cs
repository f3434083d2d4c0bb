using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Reconnecting;

/// <summary>Says how far each step of a re-connection list has come.</summary>
/// <remarks>Linear in the list and its ends.</remarks>
internal sealed class ConnectionStates
{
    private readonly ArchiveModel _record;
    private readonly WorkProgress _progress;
    private readonly FrameReadiness _frames;
    private readonly List<string> _beforeFeeders;
    private readonly List<string> _beforeOutside;

    /// <summary>For a list.</summary>
    /// <param name="progress">What has been done.</param>
    /// <param name="frames">What keeps cables back that lies in frames.</param>
    public ConnectionStates(ArchiveModel record, WorkProgress progress, FrameReadiness frames, ImmutableArray<RefittedCable> list)
    {
        (_record, _progress, _frames) = (record, progress, frames);
        var left = list.Where(laid => progress.ConnectedBy(laid.Cable.Id) is null).ToList();
        _beforeFeeders = [.. left.Where(laid => !OrderRules.FeedersLast.Roles.Contains(laid.Role)).Select(laid => laid.Cable.Id)];
        _beforeOutside = [.. left.Where(laid => !OrderRules.OutsideLast.Roles.Contains(laid.Role)).Select(laid => laid.Cable.Id)];
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
        var others = OrderRules.OutsideLast.Roles.Contains(laid.Role)
            ? _beforeOutside
            : OrderRules.FeedersLast.Roles.Contains(laid.Role)
            ? _beforeFeeders
            : [];
        if (others.Count > 0) yield return new Precondition(PreconditionKind.OthersOn)
        {
            Cables = [.. others.Take(Precondition.MostNamed)],
            Count = others.Count
        };
        if (WorkProgress.NeedsLicence(_record, laid.Cable)) yield return new Precondition(PreconditionKind.Licensed);
    }
}
