using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>The order in which the cables come out.</summary>
/// <remarks>
/// <para>
/// A cable is disconnected at its ends and pulled out of its trays, which are two things: <see cref="OrderRules.Disconnecting"/> says in
/// which order cables are disconnected, what lies on what says in which order they are pulled, and neither is ever broken. Where both allow
/// it, a cable is disconnected right before it is pulled, and the two are one step.
/// </para>
/// <para>
/// Disconnecting: outside lines, then feeders and what may be one, before anything is pulled; the earths of a frame when everything else
/// there is off. Pulling: a cable before every cable that it lies over; a tangle as one, disconnected whole and pulled one behind the
/// other. As far as that allows: cables with an end outside the working set before those within it, and the earths of a frame behind its
/// other cables.
/// </para>
/// <para>
/// Within that: the least sum, over the frames, of the minutes until the last cable is out, all frames weighing the same; see
/// <see cref="ReleaseOrder"/>. Cables that stay are disconnected before the frames where they end are free. What belongs to others is no
/// step.
/// </para>
/// </remarks>
public sealed class DecablingOrder
{
    private readonly FrozenDictionary<string, FrameRelease> _byFrame;
    private readonly Lazy<FrameRemoval>? _removal;

    private DecablingOrder(
        ImmutableArray<DecablingStep> steps, ImmutableArray<FrameRelease> releases, Func<DecablingOrder, FrameRemoval>? removal = null)
    {
        (Steps, Releases) = (steps, releases);
        if (removal is not null) _removal = new(() => removal(this));
        _byFrame = releases.ToFrozenDictionary(release => release.Frame, StringComparer.Ordinal);
    }

    /// <summary>The steps, in order.</summary>
    public ImmutableArray<DecablingStep> Steps { get; }

    /// <summary>When each frame that is moved is free to go: by step, then by id.</summary>
    public ImmutableArray<FrameRelease> Releases { get; }

    /// <summary>Tangles, in the order in which they come out.</summary>
    public IEnumerable<PullGroup> Cycles => Steps.Select(step => step.Cycle).OfType<PullGroup>().Distinct();

    /// <summary>Cables that stay where they lie, by id: disconnected, unless they belong to others.</summary>
    public required ImmutableArray<Cable> Left { get; init; }

    /// <summary>Ids of the frames of the working set that this order keeps for last.</summary>
    public required FrozenSet<string> Wanted { get; init; }

    /// <summary>How long a cable takes.</summary>
    public required Pace Pace { get; init; }

    /// <summary>Whether no order that keeps to the stages has a smaller sum; else it is the best that was found.</summary>
    public required bool IsExact { get; init; }

    /// <summary>Minutes until the last step is done.</summary>
    public double Minutes => Steps.IsEmpty ? 0 : Steps[^1].Elapsed;

    /// <summary>The sum that the order makes small: minutes until each frame's last cable is out, over all frames.</summary>
    public double SumOfReleases => Releases.Sum(release => release.Minutes);

    /// <summary>When a frame is free to go; null for one that is not moved.</summary>
    /// <param name="frame">Id of a frame.</param>
    public FrameRelease? ReleaseOf(string frame) => _byFrame.GetValueOrDefault(frame);

    /// <summary>The frame that this part of an order frees; null for a whole order.</summary>
    public string? OnlyFor { get; private init; }

    /// <summary>The part of this order that frees one frame: its steps, and those that must come before them, numbered from 1.</summary>
    /// <param name="frame">Id of a frame.</param>
    /// <remarks>A whole order has parts; a part is its own.</remarks>
    public DecablingOrder For(string frame) => For(frame, int.MaxValue)!;

    /// <summary>The same, if it is no longer than worth a list of its own.</summary>
    /// <param name="frame">Id of a frame.</param>
    /// <param name="most">How much may be done in it, each disconnecting and each pulling counted.</param>
    /// <returns>Null where it would take more.</returns>
    public DecablingOrder? For(string frame, int most)
    {
        if (_removal is null) return this;
        if (_removal.Value.Of(frame, most) is not var (steps, releases)) return null;
        return new DecablingOrder(steps, releases)
        {
            Left = [.. steps.Where(step => step.Disconnects && step.Cable!.Fate?.Value == Fate.Leave).Select(step => step.Cable!)],
            Wanted = Wanted,
            Pace = Pace,
            IsExact = IsExact,
            OnlyFor = frame,
        };
    }

    /// <summary>Finds the order.</summary>
    /// <param name="readings">Its labels as read.</param>
    /// <param name="wanted">Ids of the frames of the working set; empty where there is none.</param>
    /// <param name="progress">What has been done; null to read it from the record.</param>
    public static DecablingOrder Compute(
        ArchiveModel record, LabelReadings readings, FrozenSet<string> wanted, WorkProgress? progress = null)
    {
        progress ??= WorkProgress.From(record);
        var pace = Pace.From(record, progress);
        var over = LiesOverGraph.From(record, readings.Cables.Select(reading => reading.Cable).Where(cable => !Stays(cable)));
        var stages = new StageOrder(
            new PullGraph(record, readings, over),
            [.. over.Lifts.Select(lift => lift.Cables.Sum(cable => TimeOf(record, pace, cable)))],
            wanted);
        ImmutableArray<(PullGroup Lift, DecablingStage Stage)> lifts = [.. stages.InOrder()
            .Select(lift => (over.Lifts[lift], stages.Stages[lift]))];
        ImmutableArray<CableReading> staying = [.. readings.Cables.Where(reading => Stays(reading.Cable))];
        var earths = EarthTree.From(record, readings);
        var (written, releases, isPunctual) = StepWriter.Write(record, readings, earths, pace, lifts, staying);
        return new DecablingOrder(
            TakingOutStates.Add(record, earths, progress, written, staying),
            releases,
            whole => new FrameRemoval(record, readings, earths, progress, whole))
        {
            Left = [.. staying.Select(reading => reading.Cable)],
            Wanted = wanted,
            Pace = pace,
            IsExact = stages.IsExact && isPunctual,
        };
    }

    private static bool Stays(Cable cable) => cable.Fate?.Value == Fate.Leave || cable.Owner is not null;

    // What is disconnected before all others has only to be pulled in its turn.
    private static long TimeOf(ArchiveModel record, Pace pace, Cable cable) =>
        OrderRules.FeedersFirst.Roles.Contains(CableRoles.Of(record, cable)) ? pace.MillisecondsToPull(cable) : pace.Milliseconds(cable);
}
