using System.Collections.Frozen;
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
    private readonly EarthTree _earths;
    private readonly FrozenDictionary<string, Precondition?> _unearthed;
    private readonly List<string> _beforeFeeders;
    private readonly List<string> _beforeOutside;

    /// <summary>For a list.</summary>
    /// <param name="progress">What has been done.</param>
    /// <param name="unearthed">What is missing of the earths of each frame with cables; null if nothing is.</param>
    public ConnectionStates(ArchiveModel record, WorkProgress progress, EarthTree earths, FrozenDictionary<string, Precondition?> unearthed, ImmutableArray<RefittedCable> list)
    {
        (_record, _progress, _earths, _unearthed) = (record, progress, earths, unearthed);
        var left = list.Where(laid => progress.ConnectedBy(laid.Cable.Id) is null).ToList();
        _beforeFeeders = [.. left.Where(laid => !OrderRules.FeedersLast.Roles.Contains(laid.Role)).Select(laid => laid.Cable.Id)];
        _beforeOutside = [.. left.Where(laid => !OrderRules.OutsideLast.Roles.Contains(laid.Role)).Select(laid => laid.Cable.Id)];
    }

    /// <summary>What is missing of a frame's earths; null if all are connected.</summary>
    /// <param name="earths">Ids of its earths.</param>
    public static Precondition? Unearthed(string frame, ImmutableArray<string> earths, WorkProgress progress)
    {
        ImmutableArray<string> missing = [.. earths.Where(earth => progress.ConnectedBy(earth) is null)];
        return earths.IsEmpty || !missing.IsEmpty ? new Precondition(PreconditionKind.FrameEarthed) { Frame = frame, Cables = [.. missing.Take(Precondition.MostNamed)], Count = missing.Length } : null;
    }

    /// <summary>How far a step has come.</summary>
    /// <param name="laid">A cable of the list.</param>
    public StepState Of(RefittedCable laid) => _progress.ConnectedBy(laid.Cable.Id) is { } done ? StepState.Done(done) : StepState.From(Preconditions(laid));

    private IEnumerable<Precondition> Preconditions(RefittedCable laid)
    {
        foreach (var absence in _progress.Absence(laid.Cable)) yield return absence;
        foreach (var frame in laid.Frames.Where(frame => !_progress.IsInPlace(frame))) yield return new Precondition(PreconditionKind.FrameInPlace) { Frame = frame };
        foreach (var frame in laid.Frames.Where(frame => _earths.RoleAt(frame, laid.Cable.Id, laid.Role) != CableRole.Earth))
        {
            if (_unearthed.GetValueOrDefault(frame) is { } missing) yield return missing;
        }

        var others = OrderRules.OutsideLast.Roles.Contains(laid.Role) ? _beforeOutside : OrderRules.FeedersLast.Roles.Contains(laid.Role) ? _beforeFeeders : [];
        if (others.Count > 0) yield return new Precondition(PreconditionKind.OthersOn) { Cables = [.. others.Take(Precondition.MostNamed)], Count = others.Count };
        if (WorkProgress.NeedsLicence(_record, laid.Cable)) yield return new Precondition(PreconditionKind.Licensed);
    }
}
