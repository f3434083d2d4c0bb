namespace Archive.Halls.Trays.Network;

/// <summary>The places where the trays of a network meet, as a graph: numbered tray by tray, along each tray in order.</summary>
internal sealed class TrayNodes
{
    private const double Rounding = 1e-6;

    // Trays that hang side by side hand their joints to each other; three hands are enough for any stack that is not a maze.
    private const int MostHandings = 4;

    private readonly int[] _first;
    private readonly double[] _along;
    private readonly IReadOnlyList<TrayLine> _lines;

    private TrayNodes(IReadOnlyList<TrayLine> lines, List<double>[] places)
    {
        _lines = lines;
        _first = new int[lines.Count + 1];
        for (var tray = 0; tray < lines.Count; tray++) _first[tray + 1] = _first[tray] + places[tray].Count;
        _along = [.. places.SelectMany(along => along)];
    }

    public int Count => _along.Length;

    /// <summary>Where every joint is; where trays run side by side, also across from each joint that either has with others.</summary>
    public static TrayNodes Create(IReadOnlyList<TrayLine> lines, ILookup<int, TrayJoint> joints)
    {
        var places = Enumerable.Range(0, lines.Count)
            .Select(tray => Distinct(joints[tray].SelectMany(joint => new[] { joint.On.From, joint.On.To })))
            .ToArray();
        var stretches = joints.SelectMany(group => group).Where(joint => joint.IsStretch).ToList();
        for (var round = 0; round < MostHandings; round++)
        {
            var before = places.Sum(along => along.Count);
            foreach (var joint in stretches)
            {
                var across = places[joint.First].Where(joint.Spans).Select(along => joint.Nearest(along).Across);
                places[joint.Second] = Distinct(places[joint.Second].Concat(across));
            }

            if (places.Sum(along => along.Count) == before) break;
        }

        return new TrayNodes(lines, places);
    }

    public TrayPoint SpotOf(int node)
    {
        var tray = Array.BinarySearch(_first, node);
        if (tray < 0) tray = ~tray - 1;
        while (_first[tray + 1] <= node) tray++; // trays without joints have no nodes
        return new TrayPoint(tray, _along[node]);
    }

    /// <summary>
    /// The nodes beside a place of a tray, one on each side, and how far along they are: none where the tray joins no other.
    /// </summary>
    public IEnumerable<(int Node, double Distance)> Beside(TrayPoint spot)
    {
        var (first, end) = (_first[spot.Tray], _first[spot.Tray + 1]);
        if (first == end) yield break;
        var found = Array.BinarySearch(_along, first, end - first, spot.Along);
        var after = found >= 0 ? found : ~found;
        var isRing = _lines[spot.Tray].IsRing;
        var (before, behind) = (after - 1, after);
        if (before < first) before = isRing ? end - 1 : -1;
        if (behind >= end) behind = isRing ? first : -1;
        if (before >= 0) yield return (before, _lines[spot.Tray].Between(_along[before], spot.Along));
        if (behind >= 0 && behind != before) yield return (behind, _lines[spot.Tray].Between(_along[behind], spot.Along));
    }

    /// <summary>The steps from node to node: along a tray to the next one, and over a joint. Each is reported once.</summary>
    public IEnumerable<(int From, int To, double Length)> Steps(IEnumerable<TrayJoint> joints)
    {
        for (var tray = 0; tray < _lines.Count; tray++)
        {
            var (first, end) = (_first[tray], _first[tray + 1]);
            for (var node = first + 1; node < end; node++) yield return (node - 1, node, _along[node] - _along[node - 1]);
            if (_lines[tray].IsRing && end - first > 1) yield return (end - 1, first, _lines[tray].Between(_along[end - 1], _along[first]));
        }

        foreach (var joint in joints)
        {
            for (var node = NodeAt(joint.First, joint.On.From); node < _first[joint.First + 1]
                && _along[node] <= joint.On.To + Rounding; node++)
            {
                yield return (node, NodeAt(joint.Second, joint.Nearest(_along[node]).Across), joint.Cost);
            }
        }
    }

    private int NodeAt(int tray, double along)
    {
        var (first, end) = (_first[tray], _first[tray + 1]);
        var found = Array.BinarySearch(_along, first, end - first, along);
        if (found >= 0) return found;
        var after = Math.Min(~found, end - 1);
        return after > first && along - _along[after - 1] < Math.Abs(_along[after] - along) ? after - 1 : after;
    }

    private static List<double> Distinct(IEnumerable<double> places)
    {
        var distinct = new List<double>();
        foreach (var place in places.Order())
        {
            if (distinct.Count == 0 || place - distinct[^1] > Rounding) distinct.Add(place);
        }

        return distinct;
    }
}
