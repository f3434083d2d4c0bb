namespace Archive.Halls.Layout;

/// <summary>
/// Finds the first few of many footprints that reach into one, without going through all that do: a thousand frames may be recorded at one
/// place.
/// </summary>
/// <remarks>
/// A sort-tile-recursive tree (S. T. Leutenegger and others, "STR: a simple and efficient algorithm for R-tree packing", 1997) whose nodes
/// know the least number below them; it is searched in the order of the numbers. n log n to make.
/// </remarks>
internal sealed class FootprintTree
{
    private const int Fanout = 8;

    private readonly Node? _root;

    /// <summary>Makes the tree.</summary>
    /// <param name="footprints">The footprints; each is known by its place in the list.</param>
    public FootprintTree(IReadOnlyList<Footprint> footprints)
    {
        var level = footprints.Select((footprint, number) => new Node(footprint, number, [])).ToList();
        while (level.Count > 1) level = Packed(level);
        _root = level.Count > 0 ? level[0] : null;
    }

    /// <summary>How many nodes were looked at so far.</summary>
    public long Visited { get; private set; }

    /// <summary>The footprints that reach into one by more than they may, those of the least numbers first.</summary>
    /// <param name="before">Only those with numbers below this.</param>
    public IEnumerable<int> Overlapping(Footprint footprint, int before)
    {
        var open = new PriorityQueue<Node, int>();
        if (_root is not null) open.Enqueue(_root, _root.Least);
        while (open.TryDequeue(out var node, out var least) && least < before)
        {
            Visited++;
            if (node.Around.Overlap(footprint) <= Footprint.Touch) continue;
            if (node.Below.Length == 0) yield return node.Least;
            foreach (var below in node.Below) open.Enqueue(below, below.Least);
        }
    }

    private static List<Node> Packed(List<Node> level)
    {
        var slices = (int)Math.Ceiling(Math.Sqrt(Math.Ceiling(level.Count / (double)Fanout)));
        return [.. level.OrderBy(node => node.Around.Centre.X).ThenBy(node => node.Least).Chunk(Math.Max(Fanout, slices * Fanout))
            .SelectMany(slice => slice.OrderBy(node => node.Around.Centre.Y).ThenBy(node => node.Least).Chunk(Fanout))
            .Select(nodes => new Node(
                nodes.Select(node => node.Around).Aggregate((one, other) => one.Joined(other)), nodes.Min(node => node.Least), nodes))];
    }

    private sealed record Node(Footprint Around, int Least, Node[] Below);
}
