namespace Archive.Wiring.Decabling;

/// <summary>Finds what lies on circles: nodes that each can be reached from each other.</summary>
internal static class StronglyConnectedComponents
{
    /// <summary>Numbers the strongly connected components of a graph.</summary>
    /// <returns>For each node the number of its component; numbers run from 0 in the order of the components' least nodes.</returns>
    /// <remarks>
    /// Tarjan, <i>Depth-first search and linear graph algorithms</i>, 1972; linear. The path is kept on a stack of our own, for
    /// a tray may hold a pile of a hundred thousand cables.
    /// </remarks>
    public static int[] Find(DirectedGraph arrows)
    {
        var search = new Search(arrows);
        for (var node = 0; node < arrows.Nodes; node++) search.Visit(node);
        return ByLeast(search.Components);
    }

    private static int[] ByLeast(int[] components)
    {
        var numbers = new Dictionary<int, int>();
        var named = new int[components.Length];
        for (var node = 0; node < components.Length; node++)
        {
            if (!numbers.TryGetValue(components[node], out var number)) numbers[components[node]] = number = numbers.Count;
            named[node] = number;
        }

        return named;
    }

    private sealed class Search(DirectedGraph arrows)
    {
        private const int Unseen = -1;

        private readonly int[] _found = Enumerable.Repeat(Unseen, arrows.Nodes).ToArray();
        private readonly int[] _low = new int[arrows.Nodes];
        private readonly int[] _taken = new int[arrows.Nodes];
        private readonly Stack<int> _path = new();
        private readonly Stack<int> _open = new();
        private int _time;

        internal int[] Components { get; } = Enumerable.Repeat(Unseen, arrows.Nodes).ToArray();

        internal void Visit(int root)
        {
            if (_found[root] != Unseen) return;
            Enter(root);
            while (_path.TryPeek(out var node))
            {
                if (_taken[node] < arrows.From(node).Length) Follow(node, arrows.From(node)[_taken[node]++]);
                else Leave(node);
            }
        }

        private void Enter(int node)
        {
            _found[node] = _low[node] = _time++;
            _path.Push(node);
            _open.Push(node);
        }

        private void Follow(int node, int head)
        {
            if (_found[head] == Unseen) Enter(head);
            else if (Components[head] == Unseen) _low[node] = Math.Min(_low[node], _found[head]);
        }

        private void Leave(int node)
        {
            _path.Pop();
            if (_path.TryPeek(out var above)) _low[above] = Math.Min(_low[above], _low[node]);
            if (_low[node] != _found[node]) return;
            int member;
            do
            {
                member = _open.Pop();
                Components[member] = node;
            }
            while (member != node);
        }
    }
}
