using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>The order in which the cables come out.</summary>
/// <remarks>
/// <para>Must: a cable comes out before every cable that it lies over; a knot is worked as one, its cables one behind the other.</para>
/// <para>
/// Should, each as far as must and those before it allow: feeders first (<see cref="DecablingStage.Feeders"/>, then
/// <see cref="DecablingStage.CoveredFeeders"/>, where a feeder comes out as soon as nothing lies over it); the earths of a frame behind its
/// other cables; cables with an end outside the working set before those within it. An earth that lies over a cable that it should wait for does not wait
/// for that one. Where the finished order breaks a rule of <see cref="OrderRules.Disconnecting"/>, the step says so: <see cref="DecablingStep.Breaks"/>. Safety comes before convenience: to keep earths last, cables within the set may come before those that leave it.
/// </para>
/// <para>
/// Within that: the least sum, over the frames, of the minutes until the last cable is out, all frames weighing the same; see <see cref="ReleaseOrder"/>. A
/// knot counts as out when all of it is; within it, feeders come first, earths last, and what releases a frame early before the rest.
/// </para>
/// </remarks>
public sealed class DecablingOrder
{
    private readonly FrozenDictionary<string, FrameRelease> _byFrame;

    private DecablingOrder(ImmutableArray<DecablingStep> steps, ImmutableArray<FrameRelease> releases)
    {
        (Steps, Releases) = (steps, releases);
        _byFrame = releases.ToFrozenDictionary(release => release.Frame, StringComparer.Ordinal);
    }

    /// <summary>One step for each cable that stands and is not left, in order.</summary>
    public ImmutableArray<DecablingStep> Steps { get; }

    /// <summary>When each frame that stands is free to go: by step, then by id.</summary>
    public ImmutableArray<FrameRelease> Releases { get; }

    /// <summary>Knots, in the order in which they come out.</summary>
    public IEnumerable<PullGroup> Cycles => Steps.Select(step => step.Cycle).OfType<PullGroup>().Distinct();

    /// <summary>Cables that are left where they lie, by id.</summary>
    public required ImmutableArray<Cable> Left { get; init; }

    /// <summary>Ids of the frames of the working set that this order keeps for last.</summary>
    public required FrozenSet<string> Wanted { get; init; }

    /// <summary>How long a cable takes.</summary>
    public required Pace Pace { get; init; }

    /// <summary>Whether no order that keeps to the stages has a smaller sum; else it is the best that was found.</summary>
    public required bool IsExact { get; init; }

    /// <summary>Minutes until the last cable is out.</summary>
    public double Minutes => Steps.IsEmpty ? 0 : Steps[^1].Elapsed;

    /// <summary>The sum that the order makes small: minutes until each frame's last cable is out, over all frames.</summary>
    public double SumOfReleases => Releases.Sum(release => release.Minutes);

    /// <summary>When a frame is free to go.</summary>
    /// <param name="frame">Id of a frame that stands.</param>
    public FrameRelease ReleaseOf(string frame) => _byFrame[frame];

    /// <summary>Finds the order.</summary>
    /// <param name="readings">Its labels as read.</param>
    /// <param name="wanted">Ids of the frames of the working set; empty where there is none.</param>
    /// <param name="progress">What has been done; null to read it from the record.</param>
    public static DecablingOrder Compute(ArchiveModel record, LabelReadings readings, FrozenSet<string> wanted, WorkProgress? progress = null)
    {
        var pace = Pace.From(record.Statement);
        var over = LiesOverGraph.From(record, readings.Cables.Select(reading => reading.Cable).Where(cable => cable.Fate?.Value != Fate.Leave));
        var graph = new PullGraph(record, readings, over);
        var stages = new StageOrder(graph, [.. over.Lifts.Select(lift => lift.Cables.Sum(pace.Milliseconds))], wanted);
        var lifts = stages.InOrder();
        var steps = new StepWriter(record, readings, pace);
        foreach (var lift in lifts) steps.Write(over.Lifts[lift], stages.Stages[lift]);
        var (written, releases) = steps.Finish();
        var breaks = RuleBreaks.Of(record, OrderRules.Disconnecting, [.. written.Select(step => step.Reading)]);
        ImmutableArray<Cable> staying = [.. readings.Cables.Select(reading => reading.Cable).Where(cable => cable.Fate?.Value == Fate.Leave)];
        var ordered = written.Zip(breaks, (step, broken) => step with { Breaks = broken });
        return new DecablingOrder(TakingOutStates.Add(record, progress ?? WorkProgress.From(record), [.. ordered], staying), releases)
        {
            Left = staying,
            Wanted = wanted,
            Pace = pace,
            IsExact = stages.IsExact,
        };
    }
}
