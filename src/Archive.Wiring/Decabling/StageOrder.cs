using System.Collections.Frozen;
using Archive.Records.Model;

namespace Archive.Wiring.Decabling;

/// <summary>Puts lifts into stages, and each stage in order.</summary>
internal sealed class StageOrder
{
    private readonly PullGraph _graph;
    private readonly WorkState _work;
    private readonly DecablingStage[] _stages;

    /// <summary>Puts lifts into stages.</summary>
    /// <param name="graph">What comes before what.</param>
    /// <param name="times">Milliseconds that each lift takes.</param>
    /// <param name="wanted">Ids of the frames of the working set.</param>
    public StageOrder(PullGraph graph, long[] times, FrozenSet<string> wanted)
    {
        _graph = graph;
        _work = new WorkState([.. times, .. new long[graph.Down.Nodes - graph.Lifts]], graph.Up, graph.Down);
        var outside = WithAllBefore(lift => graph.FramesOf[lift].Any(frame => !wanted.Contains(graph.FrameIds[frame])));
        var covered = Covered();
        _stages =
        [
            .. Enumerable.Range(0, graph.Lifts).Select(lift => graph.BeforeFeeders[lift]
                ? covered[lift] ? DecablingStage.CoveredFeeders : DecablingStage.Feeders
                : outside[lift] ? DecablingStage.Outside : DecablingStage.Inside),
        ];
    }

    /// <summary>The stage of each lift.</summary>
    public IReadOnlyList<DecablingStage> Stages => _stages;

    /// <summary>
    /// Whether no better order within the stages exists: each stage releases few enough frames, and none is released while covered feeders
    /// are got at.
    /// </summary>
    public bool IsExact { get; private set; } = true;

    /// <summary>All lifts in order.</summary>
    public List<int> InOrder()
    {
        var lasts = _graph.LiftsAt.Select(lifts => lifts.Max(lift => _stages[lift])).ToArray();
        var order = new List<int>(_graph.Lifts);
        foreach (var stage in Enum.GetValues<DecablingStage>()) order.AddRange(InOrder(stage, lasts));
        return order;
    }

    private List<int> InOrder(DecablingStage stage, DecablingStage[] lasts)
    {
        int[][] groups = [.. Enumerable.Range(0, lasts.Length).Where(frame => lasts[frame] == stage).OrderBy(frame => _graph.FrameIds[frame], StringComparer.Ordinal).Select(frame => _graph.LiftsAt[frame].ToArray())];
        int[] lifts = [.. Enumerable.Range(0, _graph.Lifts).Where(lift => _stages[lift] == stage)];
        if (groups.Length > ReleaseOrder.MostExact || (stage == DecablingStage.CoveredFeeders && groups.Length > 0)) IsExact = false;
        List<int> order = [.. ReleaseOrder.Compute(_work, groups), .. _work.Do(lifts)];
        order.RemoveAll(node => node >= _graph.Lifts);
        return stage == DecablingStage.CoveredFeeders ? FeedersAtOnce(order) : order;
    }

    // A feeder comes out as soon as nothing lies over it any more.
    private List<int> FeedersAtOnce(List<int> order)
    {
        var rank = order.Index().ToDictionary(each => each.Item, each => each.Index);
        var over = rank.Keys.ToDictionary(lift => lift, lift => Lifts(_graph.Up, lift).Count(rank.ContainsKey));
        var free = new PriorityQueue<int, int>(order.Where(lift => IsFeeder(lift) && over[lift] == 0).Select(lift => (lift, rank[lift])));
        var sooner = new List<int>(order.Count);
        foreach (var lift in order)
        {
            TakeFree();
            if (!IsFeeder(lift)) Take(lift);
        }

        TakeFree();
        return sooner;

        void TakeFree()
        {
            while (free.TryDequeue(out var feeder, out _)) Take(feeder);
        }

        void Take(int lift)
        {
            sooner.Add(lift);
            foreach (var under in Lifts(_graph.Down, lift).Where(rank.ContainsKey))
            {
                if (--over[under] == 0 && IsFeeder(under)) free.Enqueue(under, rank[under]);
            }
        }
    }

    private bool IsFeeder(int lift) => _graph.Families[lift] == CableFamily.Power;

    private IEnumerable<int> Lifts(DirectedGraph arrows, int lift) => arrows.From(lift).ToArray().Where(other => other < _graph.Lifts);

    // Whether something other than a feeder comes before a lift, or is the lift itself.
    private bool[] Covered()
    {
        var covered = new bool[_graph.Lifts];
        foreach (var lift in _graph.Down.Sorted().Where(node => node < _graph.Lifts && _graph.BeforeFeeders[node]))
            covered[lift] = !IsFeeder(lift) || Lifts(_graph.Up, lift).Any(over => covered[over]);
        return covered;
    }

    private bool[] WithAllBefore(Func<int, bool> isOne)
    {
        var before = new bool[_graph.Down.Nodes];
        var waiting = new Stack<int>(Enumerable.Range(0, _graph.Lifts).Where(isOne));
        while (waiting.TryPop(out var node))
        {
            if (before[node]) continue;
            before[node] = true;
            foreach (var above in _graph.Up.From(node)) waiting.Push(above);
        }

        return before;
    }
}
