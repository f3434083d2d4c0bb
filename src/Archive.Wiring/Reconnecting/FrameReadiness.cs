using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Reconnecting;

/// <summary>What keeps cables from being laid and connected that lies in the frames where they end.</summary>
/// <param name="progress">What has been done.</param>
/// <param name="unearthed">What is missing of the earths of each frame with cables; null if nothing is.</param>
internal sealed class FrameReadiness(WorkProgress progress, EarthTree earths, FrozenDictionary<string, Precondition?> unearthed)
{
    // All cables of a frame wait for the same.
    private readonly ConcurrentDictionary<(string Frame, PreconditionKind Kind), Precondition> _ofFrames = new();

    /// <summary>What is missing of a frame's earths; null if all are connected.</summary>
    /// <param name="all">Ids of its earths.</param>
    public static Precondition? Unearthed(string frame, ImmutableArray<string> all, WorkProgress progress)
    {
        ImmutableArray<string> missing = [.. all.Where(earth => progress.ConnectedBy(earth) is null)];
        return all.IsEmpty || !missing.IsEmpty
            ? Precondition.About(PreconditionKind.FrameEarthed, missing) with { Frame = frame }
            : null;
    }

    /// <summary>What a frame still needs before work on it: its place, then its anchors.</summary>
    /// <param name="frame">Its id.</param>
    /// <param name="isAnchored">Whether it has to be level and anchored.</param>
    public IEnumerable<Precondition> Standing(string frame, bool isAnchored = true)
    {
        if (!progress.IsInPlace(frame)) yield return About(frame, PreconditionKind.FrameInPlace);
        else if (isAnchored && progress.JourneyOf(frame)?.Situation == Situation.Stood)
            yield return About(frame, PreconditionKind.FrameFixed);
    }

    /// <summary>What is missing of the earths of frames before a cable is connected there; nothing where it is one of them.</summary>
    /// <param name="frames">Ids of the frames.</param>
    /// <param name="laid">The cable.</param>
    public IEnumerable<Precondition> Earthed(IEnumerable<string> frames, RefittedCable laid)
    {
        foreach (var frame in frames.Where(frame => earths.RoleAt(frame, laid.Cable.Id, laid.Role) != CableRole.Earth))
        {
            if (Lacks(frame) is { } missing) yield return missing;
            else if (progress.LastOf(frame, EventType.Earthed) is null)
                yield return About(frame, PreconditionKind.EarthTested);
        }
    }

    /// <summary>The unit on whose front an end is, where it is not in its slot; null if nothing is missing.</summary>
    public Precondition? UnitOf(RefittedEnd end) =>
        end.Unit is { } unit && progress.JourneyOf(unit.Id)?.Situation is not (null or Situation.AsFound or Situation.Refitted)
            ? new Precondition(PreconditionKind.UnitsIn) { Frame = end.End.At.Frame, Cables = [unit.Id], Count = 1 }
            : null;

    /// <summary>What is missing of the earths of a frame; null if nothing is.</summary>
    /// <param name="frame">Its id.</param>
    public Precondition? Lacks(string frame) => unearthed.GetValueOrDefault(frame);

    private Precondition About(string frame, PreconditionKind kind) =>
        _ofFrames.GetOrAdd((frame, kind), static of => new Precondition(of.Kind) { Frame = of.Frame });
}
