using System.Collections.Frozen;

namespace Archive.Wiring.Decabling;

/// <summary>Puts lifts into stages, and each stage in order.</summary>
internal sealed class StageOrder
{
    private static readonly DecablingStage[] Pulling = [DecablingStage.Outside, DecablingStage.Inside];

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
        _stages = [.. Enumerable.Range(0, graph.Lifts).Select(lift => outside[lift] ? DecablingStage.Outside : DecablingStage.Inside)];
    }

    /// <summary>The stage of each lift.</summary>
    public IReadOnlyList<DecablingStage> Stages => _stages;

    /// <summary>Whether no better order within the stages exists: each stage releases few enough frames.</summary>
    public bool IsExact { get; private set; } = true;

    /// <summary>All lifts in order.</summary>
    public List<int> InOrder()
    {
        var lasts = _graph.LiftsAt.Select(lifts => lifts.Max(lift => _stages[lift])).ToArray();
        var order = new List<int>(_graph.Lifts);
        foreach (var stage in Pulling) order.AddRange(InOrder(stage, lasts));
        return order;
    }

    private List<int> InOrder(DecablingStage stage, DecablingStage[] lasts)
    {
        int[][] groups = [.. Enumerable.Range(0, lasts.Length)
            .Where(frame => lasts[frame] == stage)
            .OrderBy(frame => _graph.FrameIds[frame], StringComparer.Ordinal)
            .Select(frame => _graph.LiftsAt[frame].ToArray())];
        int[] lifts = [.. Enumerable.Range(0, _graph.Lifts).Where(lift => _stages[lift] == stage)];
        if (groups.Length > ReleaseOrder.MostExact) IsExact = false;
        List<int> order = [.. ReleaseOrder.Compute(_work, groups), .. _work.Do(lifts)];
        order.RemoveAll(node => node >= _graph.Lifts);
        return order;
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
