namespace Archive.Halls.Trays.Network;

/// <summary>Shortest ways in a graph of steps that go both ways and cost nothing less than nothing.</summary>
/// <remarks>
/// Dijkstra's algorithm (E. W. Dijkstra, "A note on two problems in connexion with graphs", 1959) with a binary heap: (steps + nodes) log
/// nodes for each node that ways begin at. Ways from a node are calculated when first asked for, and kept while there is room: anyone who
/// asks for ways from the same node together never waits twice.
/// </remarks>
internal sealed class ShortestPaths
{
    // Twelve bytes each: 24 MB at most, which is every way of a hall with 1,400 places where trays meet.
    private const int MostKept = 2_000_000;

    private readonly int[] _first;
    private readonly (int To, double Length)[] _steps;
    private readonly From?[] _from;
    private readonly int _mostFrom;
    private int _kept;

    /// <summary>Takes the graph.</summary>
    /// <param name="count">Number of nodes.</param>
    /// <param name="steps">Its steps, each once.</param>
    public ShortestPaths(int count, IEnumerable<(int From, int To, double Length)> steps)
    {
        var bothWays = steps.SelectMany(step => new[] { step, (From: step.To, To: step.From, step.Length) }).OrderBy(step => step).ToList();
        _steps = [.. bothWays.Select(step => (step.To, step.Length))];
        _first = new int[count + 1];
        foreach (var step in bothWays) _first[step.From + 1]++;
        for (var node = 0; node < count; node++) _first[node + 1] += _first[node];
        _from = new From?[count];
        _mostFrom = Math.Max(16, MostKept / Math.Max(1, count));
    }

    /// <summary>The shortest distance between two nodes; infinite where there is no way.</summary>
    /// <param name="from">One node.</param>
    /// <param name="to">The other.</param>
    public double Between(int from, int to) => WaysFrom(from).Distance[to];

    /// <summary>The nodes of a shortest way, both ends included; empty where there is none.</summary>
    /// <param name="from">Where it begins.</param>
    /// <param name="to">Where it ends.</param>
    public List<int> Way(int from, int to)
    {
        var ways = WaysFrom(from);
        var way = new List<int>();
        if (double.IsPositiveInfinity(ways.Distance[to])) return way;
        for (var node = to; node >= 0; node = ways.Previous[node]) way.Add(node);
        way.Reverse();
        return way;
    }

    private From WaysFrom(int node)
    {
        if (Volatile.Read(ref _from[node]) is { } known) return known;
        if (Interlocked.Increment(ref _kept) > _mostFrom)
        {
            Array.Clear(_from);
            Interlocked.Exchange(ref _kept, 1);
        }

        var found = Search(node);
        Volatile.Write(ref _from[node], found);
        return found;
    }

    private From Search(int start)
    {
        var distance = new double[_from.Length];
        var previous = new int[_from.Length];
        Array.Fill(distance, double.PositiveInfinity);
        Array.Fill(previous, -1);
        distance[start] = 0;
        var open = new PriorityQueue<int, double>();
        open.Enqueue(start, 0);
        while (open.TryDequeue(out var node, out var reached))
        {
            if (reached > distance[node]) continue;
            for (var i = _first[node]; i < _first[node + 1]; i++)
            {
                var (to, length) = _steps[i];
                var through = distance[node] + length;
                if (through >= distance[to]) continue;
                (distance[to], previous[to]) = (through, node);
                open.Enqueue(to, through);
            }
        }

        return new From(distance, previous);
    }

    private sealed record From(double[] Distance, int[] Previous);
}
