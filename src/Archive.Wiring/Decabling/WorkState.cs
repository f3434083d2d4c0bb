namespace Archive.Wiring.Decabling;

/// <summary>What is to be done, what must come before what, and what is done so far.</summary>
internal sealed class WorkState
{
    private readonly long[] _times;
    private readonly DirectedGraph _up;
    private readonly int[] _rank;
    private readonly bool[] _isDone;
    private readonly Stack<int> _done = new();
    private readonly int[] _seen;
    private readonly Stack<int> _waiting = new();
    private readonly List<int> _closure = [];
    private int _stamp;

    /// <summary>Nothing done yet.</summary>
    /// <param name="times">What each node takes, at least 0.</param>
    /// <param name="up">From each node to those that must come before it; without circles.</param>
    /// <param name="down">The same arrows turned round.</param>
    public WorkState(long[] times, DirectedGraph up, DirectedGraph down)
    {
        (_times, _up) = (times, up);
        _rank = new int[times.Length];
        var sorted = down.Sorted();
        for (var rank = 0; rank < sorted.Count; rank++) _rank[sorted[rank]] = rank;
        (_isDone, _seen) = (new bool[times.Length], new int[times.Length]);
    }

    /// <summary>Number of nodes.</summary>
    public int Nodes => _times.Length;

    /// <summary>A mark to go back to.</summary>
    public int Mark => _done.Count;

    /// <summary>What a node takes.</summary>
    public long Time(int node) => _times[node];

    /// <summary>What nodes take that are not done.</summary>
    public long TimeOf(IEnumerable<int> nodes) => nodes.Sum(node => _isDone[node] ? 0 : _times[node]);

    /// <summary>Finds what is left to be done for some nodes: themselves, and all that must come before them.</summary>
    /// <param name="limit">No more is looked for once it takes longer than this.</param>
    /// <param name="found">Gets what is left, in no order.</param>
    /// <returns>What it takes; null where that is more than the limit.</returns>
    public long? Left(int[] nodes, long limit, List<int> found)
    {
        _stamp++;
        _waiting.Clear();
        foreach (var node in nodes) Wait(node);
        long time = 0;
        while (_waiting.TryPop(out var node))
        {
            found.Add(node);
            if ((time += _times[node]) > limit) return null;
            foreach (var before in _up.From(node)) Wait(before);
        }

        return time;
    }

    /// <summary>Does what is left to be done for some nodes.</summary>
    /// <returns>What was done, in order: each node behind those that must come before it, ties by number.</returns>
    public List<int> Do(int[] nodes)
    {
        _closure.Clear();
        Left(nodes, long.MaxValue, _closure);
        List<int> done = [.. _closure.OrderBy(node => _rank[node])];
        foreach (var node in done)
        {
            _isDone[node] = true;
            _done.Push(node);
        }

        return done;
    }

    /// <summary>Takes back all that was done since a mark.</summary>
    public void GoBack(int mark)
    {
        while (_done.Count > mark) _isDone[_done.Pop()] = false;
    }

    private void Wait(int node)
    {
        if (_isDone[node] || _seen[node] == _stamp) return;
        _seen[node] = _stamp;
        _waiting.Push(node);
    }
}
