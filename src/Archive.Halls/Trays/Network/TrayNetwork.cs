using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;

namespace Archive.Halls.Trays.Network;

/// <summary>
/// The trays of a hall as a network: which join, where one may drop to a frame, and the shortest way between two frames. It is made once a
/// hall and does not depend on where frames are, so that any number of arrangements can be tried against it.
/// </summary>
/// <remarks>Immutable to its callers; safe to ask from several threads. Lengths are millimetres.</remarks>
public sealed class TrayNetwork
{
    // A tray drawn exactly at the limit serves, whatever the last places of its numbers say.
    private const double Rounding = 1e-6;

    // The nearest of the trays above a frame: ways are tried from each of one frame to each of the other.
    private const int MostServing = 16;

    private readonly ImmutableArray<TrayLine> _lines;
    private readonly FrozenDictionary<string, int> _numbers;
    private readonly ILookup<int, TrayJoint> _joints;
    private readonly TrayNodes _nodes;

    // Found when a way is first asked for: a check follows cables through the trays that they lie in, and needs none.
    private readonly Lazy<ShortestPaths> _ways;

    private readonly STRtree<int> _tree = new();

    private TrayNetwork(ImmutableArray<TrayLine> lines, ImmutableArray<Tray> unmeasured)
    {
        _lines = lines;
        Unmeasured = unmeasured;
        _numbers = Enumerable.Range(0, lines.Length).ToFrozenDictionary(i => lines[i].Tray.Id, StringComparer.Ordinal);
        (var joints, AreAllJoined) = TrayJoints.Find(lines);
        _joints = joints.Concat(joints.Select(joint => joint.Turned)).ToLookup(joint => joint.First);
        _nodes = TrayNodes.Create(lines, _joints);
        _ways = new(() => new ShortestPaths(_nodes.Count, _nodes.Steps(joints)));
        for (var i = 0; i < lines.Length; i++) _tree.Insert(BoxOf(lines[i]), i);
        _tree.Build();
    }

    /// <summary>Trays that are left out because their height is not recorded or their line has no length; by id.</summary>
    public ImmutableArray<Tray> Unmeasured { get; }

    /// <summary>
    /// Whether all places where trays meet are known: not in a hall where too many come near each other, which its checks report.
    /// </summary>
    public bool AreAllJoined { get; }

    /// <summary>Number of places where trays meet: what the shortest ways are searched over.</summary>
    public int NodeCount => _nodes.Count;

    /// <summary>The trays of the network, by id.</summary>
    public IEnumerable<Tray> Trays => _lines.Select(line => line.Tray);

    /// <summary>Makes the network of trays that hang in one hall. n log n in their stretches.</summary>
    public static TrayNetwork Create(IEnumerable<Tray> trays)
    {
        var byId = trays.OrderBy(tray => tray.Id, StringComparer.Ordinal).ToLookup(tray => TrayLine.From(tray) is null);
        return new TrayNetwork([.. byId[false].Select(tray => TrayLine.From(tray)!)], [.. byId[true]]);
    }

    /// <summary>Pairs of trays that join, by id, and what passing from one to the other costs: the difference in height.</summary>
    public IEnumerable<(Tray One, Tray Other, double Cost)> Joined =>
        from joints in _joints
        from joint in joints
        where joint.First < joint.Second
        select (_lines[joint.First].Tray, _lines[joint.Second].Tray, joint.Cost);

    /// <summary>
    /// How a frame is served: by the nearest point of each tray within 900 mm in plan of its top's middle. Coming to that point from the
    /// frame's top costs the difference in height and the distance in plan: up to the tray, and across to its line.
    /// </summary>
    /// <param name="middle">Middle of the frame's top, in plan.</param>
    /// <param name="top">Height of the frame's top above the floor, in millimetres.</param>
    public FrameDrops Drops(PlanPoint middle, double top)
    {
        var box = new Envelope(new Coordinate(middle.X, middle.Y));
        box.ExpandBy(ServingTray.Reach + Rounding);
        var near = _tree.Query(box).Order()
            .Select(tray => (Tray: tray, Nearest: _lines[tray].Nearest(middle)))
            .Where(near => near.Nearest.Distance <= ServingTray.Reach + Rounding)
            .OrderBy(near => near.Nearest.Distance).ThenBy(near => near.Tray)
            .Take(MostServing)
            .ToList();
        return new FrameDrops(
            [.. near.Select(at => Serving(at.Tray, at.Nearest.Along, at.Nearest.Distance, top))],
            [.. near.SelectMany(at => Entering(new TrayPoint(at.Tray, at.Nearest.Along), CostOf(at.Tray, at.Nearest.Distance, top)))]);
    }

    /// <summary>
    /// The shortest way from the top of one frame to that of another, over all pairs of trays that serve them, in millimetres.
    /// </summary>
    /// <param name="from">How one frame is served.</param>
    /// <param name="to">How the other is.</param>
    /// <returns>Infinite where a frame is not served or there is no way.</returns>
    public double Between(FrameDrops from, FrameDrops to) => Best(from, to).Length;

    /// <summary>
    /// The ways from a frame's top to every place where trays meet, calculated once: <see cref="Between(FrameTopPaths, FrameTopPaths)"/>
    /// then costs a few additions. For anyone who asks of the same stands a hundred thousand times.
    /// </summary>
    /// <param name="drops">How the frame is served.</param>
    internal FrameTopPaths WaysOf(FrameDrops drops)
    {
        var entries = drops.Drops
            .SelectMany(drop => _nodes.Beside(drop.Spot).Select(beside => (beside.Node, Cost: drop.Cost + beside.Distance)))
            .ToArray();
        var ways = _ways.Value;
        var distance = new double[_nodes.Count];
        for (var node = 0; node < distance.Length; node++)
        {
            distance[node] = double.PositiveInfinity;
            foreach (var (entry, cost) in entries) distance[node] = Math.Min(distance[node], cost + ways.Between(entry, node));
        }

        return new FrameTopPaths([.. drops.Drops], entries, distance);
    }

    /// <summary>The same as <see cref="Between(FrameDrops, FrameDrops)"/>.</summary>
    internal double Between(FrameTopPaths from, FrameTopPaths to)
    {
        var best = double.PositiveInfinity;
        foreach (var (node, cost) in to.Entries) best = Math.Min(best, from.Distance[node] + cost);
        foreach (var drop in from.Drops)
        {
            foreach (var other in to.Drops)
            {
                if (drop.Spot.Tray == other.Spot.Tray)
                    best = Math.Min(best, drop.Cost + other.Cost + _lines[drop.Spot.Tray].Between(drop.Spot.Along, other.Spot.Along));
            }
        }

        return best;
    }

    /// <summary>A shortest way, tray by tray; of several as short, always the same one.</summary>
    /// <param name="from">How one frame is served.</param>
    /// <param name="to">How the other is.</param>
    /// <returns>The way, or null where there is none.</returns>
    public TrayPath? Way(FrameDrops from, FrameDrops to)
    {
        var best = Best(from, to);
        if (double.IsPositiveInfinity(best.Length)) return null;
        IEnumerable<TrayPoint> passes = best.Leave < 0 ? [] : _ways.Value.Way(best.Leave, best.Arrive).Select(_nodes.SpotOf);
        return new TrayPath(best.Length, Legs([best.From, .. passes, best.To]));
    }

    /// <summary>Whether a tray is part of the network.</summary>
    public bool Has(Tray tray) => _numbers.ContainsKey(tray.Id);

    /// <summary>
    /// The way through given trays in their order, from a frame's top to another's, whether or not the first and last serve them.
    /// </summary>
    /// <param name="trays">Trays of this network, at least one; from each a joint leads to the next.</param>
    /// <param name="from">Middle and height of the frame's top where the way begins; null where that is not known, and the way begins in
    /// the tray.</param>
    /// <param name="to">The same where it ends.</param>
    /// <returns>The shortest such way, or null where a tray is not of this network or does not join the next.</returns>
    public TrayPath? Through(ImmutableArray<Tray> trays, FrameTop? from, FrameTop? to)
    {
        if (trays.Length == 0 || !trays.All(Has)) return null;
        var numbers = trays.Select(tray => _numbers[tray.Id]).ToArray();
        var steps = FixedTrayPath.Shortest([.. numbers.Select(number => _lines[number])], JointsAlong(numbers), from, to);
        return steps is { } way
            ? new TrayPath(way.Length, [.. way.Stretches.Select((stretch, i) => Leg(_lines[numbers[i]], stretch.From, stretch.To))])
            : null;
    }

    // A list that names a tray twice in a row stays in it.
    private TrayJoint[][] JointsAlong(int[] numbers) =>
        [.. numbers.Skip(1).Select((number, i) => _joints[numbers[i]].Where(joint => joint.Second == number).ToArray())];

    private static TrayLeg Leg(TrayLine line, double from, double to) =>
        new(line.Tray, line.Between(from, to), line.Stretch(from, to), from, to);

    private (double Length, TrayPoint From, TrayPoint To, int Leave, int Arrive) Best(FrameDrops from, FrameDrops to)
    {
        var ways = _ways.Value;
        var best = (Length: double.PositiveInfinity, From: default(TrayPoint), To: default(TrayPoint), Leave: -1, Arrive: -1);
        foreach (var drop in from.Drops)
        {
            foreach (var other in to.Drops)
            {
                var ends = drop.Cost + other.Cost;
                if (drop.Spot.Tray == other.Spot.Tray)
                    Take(ends + _lines[drop.Spot.Tray].Between(drop.Spot.Along, other.Spot.Along), -1, -1);
                foreach (var (leave, before) in _nodes.Beside(drop.Spot))
                {
                    foreach (var (arrive, behind) in _nodes.Beside(other.Spot))
                        Take(ends + before + ways.Between(leave, arrive) + behind, leave, arrive);
                }

                void Take(double length, int leave, int arrive)
                {
                    if (length < best.Length) best = (length, drop.Spot, other.Spot, leave, arrive);
                }
            }
        }

        return best;
    }

    private ImmutableArray<TrayLeg> Legs(ImmutableArray<TrayPoint> spots)
    {
        var legs = ImmutableArray.CreateBuilder<TrayLeg>();
        for (var i = 0; i < spots.Length;)
        {
            var line = _lines[spots[i].Tray];
            var points = ImmutableArray.CreateBuilder<PlanPoint>();
            var length = 0.0;
            points.Add(line.PointAt(spots[i].Along));
            var next = i + 1;
            for (; next < spots.Length && spots[next].Tray == spots[i].Tray; next++)
            {
                length += line.Between(spots[next - 1].Along, spots[next].Along);
                points.AddRange(line.Stretch(spots[next - 1].Along, spots[next].Along).Skip(1));
            }

            legs.Add(new TrayLeg(line.Tray, length, points.ToImmutable(), spots[i].Along, spots[next - 1].Along));
            i = next;
        }

        return legs.ToImmutable();
    }

    // Where a tray runs side by side with another, a cable may pass over at once. So the place across from it is entered, too.
    private IEnumerable<Drop> Entering(TrayPoint spot, double cost) => _joints[spot.Tray]
        .Where(joint => joint.Spans(spot.Along))
        .Select(joint => new Drop(new TrayPoint(joint.Second, joint.Nearest(spot.Along).Across), cost + joint.Cost))
        .Prepend(new Drop(spot, cost));

    private ServingTray Serving(int tray, double along, double distance, double top) =>
        new(_lines[tray].Tray, _lines[tray].PointAt(along), distance, Math.Abs(_lines[tray].Height - top));

    private double CostOf(int tray, double across, double top) => Math.Abs(_lines[tray].Height - top) + across;

    private static Envelope BoxOf(TrayLine line)
    {
        var box = new Envelope();
        foreach (var point in line.Points) box.ExpandToInclude(point.X, point.Y);
        return box;
    }
}
