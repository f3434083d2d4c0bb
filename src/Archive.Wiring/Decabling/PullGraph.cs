using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>
/// What is pulled before what: lifts as the record's <c>lies_over</c> has it, and earths behind the other cables of their frames, so that
/// they can stay connected as long. Nodes are the lifts, then a gate for each frame that takes no time: all its other cables go in, its
/// earths come out.
/// </summary>
internal sealed class PullGraph
{
    private readonly LiesOverGraph _over;
    private readonly LabelReadings _readings;
    private readonly Dictionary<string, int> _frames = new(StringComparer.Ordinal);
    private readonly List<List<int>> _liftsAt = [];
    private readonly bool[] _isEarth;

    /// <summary>Builds the graph. Linear in cables, their ends and what they lie over.</summary>
    /// <param name="readings">Its labels as read.</param>
    /// <param name="over">What lies over what, among the cables that come out.</param>
    public PullGraph(ArchiveModel record, LabelReadings readings, LiesOverGraph over)
    {
        (_over, _readings) = (over, readings);
        Lifts = over.Lifts.Length;
        _isEarth = [.. over.Lifts.Select(lift => lift.Cables.All(cable => CableRoles.Of(record, cable) == CableRole.Earth))];
        FramesOf = [.. over.Lifts.Select(FramesAt)];
        FrameIds = [.. _frames.OrderBy(frame => frame.Value).Select(frame => frame.Key)];
        Down = WithEarthsLast();
        Up = Down.Reversed();
    }

    /// <summary>Number of lifts: the first nodes.</summary>
    public int Lifts { get; }

    /// <summary>Numbers of the frames where each lift has an end.</summary>
    public int[][] FramesOf { get; }

    /// <summary>Ids of the frames by number.</summary>
    public string[] FrameIds { get; }

    /// <summary>The lifts at each frame.</summary>
    public IReadOnlyList<IReadOnlyList<int>> LiftsAt => _liftsAt;

    /// <summary>From each node to those that come after it; without circles.</summary>
    public DirectedGraph Down { get; }

    /// <summary>From each node to those that come before it.</summary>
    public DirectedGraph Up { get; }

    private int[] FramesAt(PullGroup lift, int number)
    {
        int[] frames =
            [.. lift.Cables.SelectMany(cable => _readings.Find(cable.Id)!.Ends).Select(end => NumberOf(end.At.Frame)).Distinct()];
        foreach (var frame in frames) _liftsAt[frame].Add(number);
        return frames;
    }

    private int NumberOf(string frame)
    {
        if (_frames.TryGetValue(frame, out var number)) return number;
        _liftsAt.Add([]);
        return _frames[frame] = _frames.Count;
    }

    private DirectedGraph WithEarthsLast()
    {
        var nodes = Lifts + FrameIds.Length;
        var musts = new List<(int From, int To)>();
        for (var lift = 0; lift < Lifts; lift++)
        {
            foreach (var under in _over.Down.From(lift)) musts.Add((lift, under));
        }

        var gates = Enumerable.Range(0, FrameIds.Length).SelectMany(GateOf).ToList();
        var circles = StronglyConnectedComponents.Find(DirectedGraph.Create(nodes, [.. musts, .. gates]));
        return DirectedGraph.Create(nodes, [.. musts, .. gates.SelectMany(arrow => Opened(arrow, circles))]);
    }

    private IEnumerable<(int From, int To)> GateOf(int frame)
    {
        if (!_liftsAt[frame].Exists(lift => _isEarth[lift])) yield break;
        foreach (var lift in _liftsAt[frame]) yield return _isEarth[lift] ? (Lifts + frame, lift) : (lift, Lifts + frame);
    }

    // An earth that would wait for itself, because it lies over what it waits for, passes the gate and waits for the others one by one.
    private IEnumerable<(int From, int To)> Opened((int From, int To) arrow, int[] circles)
    {
        if (arrow.From < Lifts || circles[arrow.From] != circles[arrow.To]) return [arrow];
        return _liftsAt[arrow.From - Lifts]
            .Where(lift => !_isEarth[lift] && circles[lift] != circles[arrow.To])
            .Select(lift => (lift, arrow.To));
    }
}
