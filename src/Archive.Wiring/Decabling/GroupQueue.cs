namespace Archive.Wiring.Decabling;

/// <summary>Groups by what their own nodes still take.</summary>
internal sealed class GroupQueue
{
    private readonly WorkState _work;
    private readonly long[] _own;
    private readonly bool[] _isTaken;
    private readonly DirectedGraph _groupsOf;
    private readonly PriorityQueue<int, (long Own, int Group)> _queue = new();

    /// <param name="work">What is to be done.</param>
    /// <param name="groups">For each group, its nodes.</param>
    public GroupQueue(WorkState work, int[][] groups)
    {
        (_work, _own, _isTaken) = (work, new long[groups.Length], new bool[groups.Length]);
        _groupsOf = DirectedGraph.Create(work.Nodes, [.. groups.SelectMany((nodes, group) => nodes.Select(node => (node, group)))]);
        for (var group = 0; group < groups.Length; group++)
        {
            _own[group] = work.TimeOf(groups[group]);
            Return(group);
        }
    }

    /// <summary>Takes the first groups out.</summary>
    /// <param name="most">How many at most.</param>
    /// <param name="into">Where they go.</param>
    public void Take(int most, List<int> into)
    {
        into.Clear();
        while (into.Count < most && _queue.TryDequeue(out var group, out var rank))
        {
            // Entries that have been overtaken by others are passed over.
            if (_isTaken[group] || rank.Own != _own[group]) continue;
            _isTaken[group] = true;
            into.Add(group);
        }
    }

    /// <summary>Puts a group back.</summary>
    public void Return(int group)
    {
        _isTaken[group] = false;
        _queue.Enqueue(group, (_own[group], group));
    }

    /// <summary>Tells that nodes are done.</summary>
    public void Done(List<int> nodes)
    {
        foreach (var node in nodes)
        {
            foreach (var group in _groupsOf.From(node))
            {
                _own[group] -= _work.Time(node);
                if (!_isTaken[group] && _work.Time(node) > 0) _queue.Enqueue(group, (_own[group], group));
            }
        }
    }
}
