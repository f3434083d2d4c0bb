namespace Archive.Wiring.Decabling;

/// <summary>A directed graph over numbered nodes, packed: where each node's arrows lead.</summary>
/// <remarks>
/// Compressed rows: linear in nodes and arrows, in time and memory. Arrows of one node keep the order in which they were given.
/// </remarks>
internal sealed class DirectedGraph
{
    private readonly int[] _starts;
    private readonly int[] _heads;

    private DirectedGraph(int[] starts, int[] heads) => (_starts, _heads) = (starts, heads);

    /// <summary>Number of nodes.</summary>
    public int Nodes => _starts.Length - 1;

    /// <summary>Where a node's arrows lead.</summary>
    /// <param name="node">A node, from 0.</param>
    public ReadOnlySpan<int> From(int node) => _heads.AsSpan(_starts[node].._starts[node + 1]);

    /// <summary>Packs arrows.</summary>
    /// <param name="nodes">Number of nodes.</param>
    /// <param name="arrows">From which node to which.</param>
    public static DirectedGraph Create(int nodes, List<(int From, int To)> arrows)
    {
        var starts = new int[nodes + 1];
        foreach (var (from, _) in arrows) starts[from + 1]++;
        for (var node = 0; node < nodes; node++) starts[node + 1] += starts[node];
        var next = starts.AsSpan(0, nodes).ToArray();
        var heads = new int[arrows.Count];
        foreach (var (from, to) in arrows) heads[next[from]++] = to;
        return new DirectedGraph(starts, heads);
    }

    /// <summary>The same arrows, each turned round.</summary>
    public DirectedGraph Reversed()
    {
        var turned = new List<(int From, int To)>(_heads.Length);
        for (var node = 0; node < Nodes; node++)
        {
            foreach (var head in From(node)) turned.Add((head, node));
        }

        return Create(Nodes, turned);
    }

    /// <summary>An order in which no arrow points back; of the nodes that may come next, the least comes first.</summary>
    /// <returns>Every node once; nodes that lie on a circle, or behind one, are left out.</returns>
    /// <remarks>Kahn, <i>Topological sorting of large networks</i>, 1962; with a heap, O((nodes + arrows) log nodes).</remarks>
    public List<int> Sorted()
    {
        var waits = new int[Nodes];
        foreach (var head in _heads) waits[head]++;
        var ready = new PriorityQueue<int, int>(Enumerable.Range(0, Nodes).Where(node => waits[node] == 0).Select(node => (node, node)));
        var sorted = new List<int>(Nodes);
        while (ready.TryDequeue(out var node, out _))
        {
            sorted.Add(node);
            foreach (var head in From(node))
            {
                if (--waits[head] == 0) ready.Enqueue(head, head);
            }
        }

        return sorted;
    }
}
