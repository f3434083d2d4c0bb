using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>
/// What comes before what: lifts as the record's <c>lies_over</c> has it, and earths behind the other cables of their frames. Nodes are the
/// lifts, then two gates a frame that take no time: all its other cables go in, its earths come out.
/// </summary>
internal sealed class PullGraph
{
    private readonly LiesOverGraph _over;
    private readonly LabelReadings _readings;
    private readonly Dictionary<string, int> _frames = new(StringComparer.Ordinal);
    private readonly List<List<int>> _liftsAt = [];

    /// <summary>Builds the graph. Linear in cables, their ends and what they lie over.</summary>
    /// <param name="readings">Its labels as read.</param>
    /// <param name="over">What lies over what, among the cables that come out.</param>
    public PullGraph(ArchiveModel record, LabelReadings readings, LiesOverGraph over)
    {
        (_over, _readings) = (over, readings);
        Lifts = over.Lifts.Length;
        Families = [.. over.Lifts.Select(lift => FamilyOf(record, lift))];
        FramesOf = [.. over.Lifts.Select(FramesAt)];
        FrameIds = [.. _frames.OrderBy(frame => frame.Value).Select(frame => frame.Key)];
        BeforeFeeders = FindBeforeFeeders();
        Down = WithEarthsLast();
        Up = Down.Reversed();
    }

    /// <summary>Number of lifts: the first nodes.</summary>
    public int Lifts { get; }

    /// <summary>What each lift counts as.</summary>
    public CableFamily[] Families { get; }

    /// <summary>Numbers of the frames where each lift has an end.</summary>
    public int[][] FramesOf { get; }

    /// <summary>Ids of the frames by number.</summary>
    public string[] FrameIds { get; }

    /// <summary>The lifts at each frame.</summary>
    public IReadOnlyList<IReadOnlyList<int>> LiftsAt => _liftsAt;

    /// <summary>Whether each lift is a feeder, or lies over one, be it through others.</summary>
    public bool[] BeforeFeeders { get; }

    /// <summary>From each node to those that come after it; without circles.</summary>
    public DirectedGraph Down { get; }

    /// <summary>From each node to those that come before it.</summary>
    public DirectedGraph Up { get; }

    // A knot with a feeder in it is handled as a feeder; it counts as earths where it holds nothing else.
    private static CableFamily FamilyOf(ArchiveModel record, PullGroup lift)
    {
        var families = lift.Cables.Select(cable => Family(record, cable)).ToList();
        return families.Contains(CableFamily.Power) ? CableFamily.Power : families.TrueForAll(family => family == CableFamily.Earth) ? CableFamily.Earth : CableFamily.Other;
    }

    internal static CableFamily Family(ArchiveModel record, Cable cable) => CableRoles.FamilyOf(record, cable) ?? CableFamily.Other;

    private int[] FramesAt(PullGroup lift, int number)
    {
        int[] frames = [.. lift.Cables.SelectMany(cable => _readings.Find(cable.Id)!.Ends).Select(end => NumberOf(end.At.Frame)).Distinct()];
        foreach (var frame in frames) _liftsAt[frame].Add(number);
        return frames;
    }

    private int NumberOf(string frame)
    {
        if (_frames.TryGetValue(frame, out var number)) return number;
        _liftsAt.Add([]);
        return _frames[frame] = _frames.Count;
    }

    private bool[] FindBeforeFeeders()
    {
        var up = _over.Down.Reversed();
        var before = new bool[Lifts];
        var waiting = new Stack<int>(Enumerable.Range(0, Lifts).Where(lift => Families[lift] == CableFamily.Power));
        while (waiting.TryPop(out var lift))
        {
            if (before[lift]) continue;
            before[lift] = true;
            foreach (var above in up.From(lift)) waiting.Push(above);
        }

        return before;
    }

    private DirectedGraph WithEarthsLast()
    {
        var nodes = Lifts + (2 * FrameIds.Length);
        var musts = new List<(int From, int To)>();
        for (var lift = 0; lift < Lifts; lift++)
        {
            foreach (var under in _over.Down.From(lift)) musts.Add((lift, under));
        }

        var gates = Enumerable.Range(0, FrameIds.Length).SelectMany(GatesOf).ToList();
        var circles = StronglyConnectedComponents.Find(DirectedGraph.Create(nodes, [.. musts, .. gates]));
        return DirectedGraph.Create(nodes, [.. musts, .. gates.SelectMany(arrow => Opened(arrow, circles))]);
    }

    // The first gate is for what comes before feeders, the second for the rest: an earth that lies over a feeder waits at the first alone.
    private IEnumerable<(int From, int To)> GatesOf(int frame)
    {
        if (!_liftsAt[frame].Exists(lift => Families[lift] == CableFamily.Earth)) yield break;
        foreach (var lift in _liftsAt[frame])
        {
            var (first, second) = (Lifts + (2 * frame), Lifts + (2 * frame) + 1);
            if (Families[lift] != CableFamily.Earth) yield return (lift, BeforeFeeders[lift] ? first : second);
            else yield return (first, lift);
            if (Families[lift] == CableFamily.Earth && !BeforeFeeders[lift]) yield return (second, lift);
        }
    }

    // An earth that would wait for itself, because it lies over what it waits for, passes the gate and waits for the others one by one.
    private IEnumerable<(int From, int To)> Opened((int From, int To) arrow, int[] circles)
    {
        if (arrow.From < Lifts || circles[arrow.From] != circles[arrow.To]) return [arrow];
        var (frame, isFirst) = ((arrow.From - Lifts) / 2, (arrow.From - Lifts) % 2 == 0);
        return _liftsAt[frame]
            .Where(lift => Families[lift] != CableFamily.Earth && BeforeFeeders[lift] == isFirst && circles[lift] != circles[arrow.To])
            .Select(lift => (lift, arrow.To));
    }
}
