using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;
using UnitsNet;

namespace Archive.Halls.Floor;

/// <summary>Measures aisles: from each frame's face and back straight to the next frame, obstacle or wall.</summary>
/// <remarks>n log n in frames and corners: things are looked for near by first, then farther and farther off.</remarks>
public sealed class Aisles
{
    private const double NearBy = 2500;
    private const double Farther = 4;

    private readonly HallLayout _layout;
    private readonly STRtree<Edge> _tree = new();
    private readonly Envelope _all = new();

    private Aisles(HallLayout layout)
    {
        _layout = layout;
        foreach (var placed in layout.PlacedFrames) Add(placed.Footprint.Corners, placed.Frame.Id);
        foreach (var obstacle in layout.Hall.Obstacles) Add(obstacle.Outline.Points, obstacle.Name?.Value ?? "obstacle");
        if (layout.Hall.Outline is { } outline) Add(outline.Points, "wall");
        _tree.Build();
    }

    /// <summary>The aisles of every frame of a hall whose place and size are known, in the hall's order.</summary>
    /// <param name="layout">A hall, set out.</param>
    public static ImmutableArray<FrameAisles> Measure(HallLayout layout)
    {
        var aisles = new Aisles(layout);
        return
        [
            .. layout.Whereabouts.Select(placement => placement.Placed).Where(placed => placed.IsCertain)
                .Select(placed =>
                    new FrameAisles(placed, aisles.From(placed, placed.Faces), aisles.From(placed, Opposite(placed.Faces)))),
        ];
    }

    /// <summary>The narrowest clearance before or behind the frames of a row.</summary>
    /// <param name="aisles">The aisles of the row's frames.</param>
    /// <param name="side">Which side of them.</param>
    public static Clearance Narrowest(IEnumerable<FrameAisles> aisles, Func<FrameAisles, Clearance> side) =>
        aisles.Select(side)
            .OrderBy(clearance => clearance.Distance?.Millimeters ?? double.PositiveInfinity)
            .ThenBy(clearance => clearance.To, StringComparer.Ordinal)
            .FirstOrDefault(new Clearance(null, ""));

    private Clearance From(PlacedFrame placed, Compass side)
    {
        var ahead = new Strip(placed.Footprint, side);
        for (var reach = NearBy; ; reach *= Farther)
        {
            var nearest = _tree.Query(ahead.Box(reach))
                .Where(edge => edge.Name != placed.Frame.Id)
                .Select(edge => (Distance: ahead.DistanceTo(edge), edge.Name))
                .Where(thing => thing.Distance <= reach)
                .OrderBy(thing => thing.Distance).ThenBy(thing => thing.Name, StringComparer.Ordinal)
                .FirstOrDefault((Distance: double.PositiveInfinity, Name: ""));
            if (double.IsFinite(nearest.Distance)) return new Clearance(Length.FromMillimeters(nearest.Distance), nearest.Name);
            if (reach > ahead.Farthest(_all)) return new Clearance(null, "");
        }
    }

    private void Add(ImmutableArray<PlanPoint> corners, string name)
    {
        for (var i = 0; i < corners.Length; i++)
        {
            var edge = new Edge(corners[i], corners[(i + 1) % corners.Length], name);
            if (!double.IsFinite(edge.From.X + edge.From.Y + edge.To.X + edge.To.Y)) continue;
            var box = new Envelope(edge.From.X, edge.To.X, edge.From.Y, edge.To.Y);
            _tree.Insert(box, edge);
            _all.ExpandToInclude(box);
        }
    }

    private static Compass Opposite(Compass side) => (Compass)(((int)side + 2) % 4);

    private readonly record struct Edge(PlanPoint From, PlanPoint To, string Name);

    // The floor straight ahead of one side of a frame, a touch narrower than the frame: what only touches its flanks is not ahead of it.
    private readonly record struct Strip(Footprint Frame, Compass Side)
    {
        private bool IsDown => Side is Compass.North or Compass.South;

        private double Left => (IsDown ? Frame.West : Frame.North) + Footprint.Touch;

        private double Right => (IsDown ? Frame.East : Frame.South) - Footprint.Touch;

        public Envelope Box(double reach) => Side switch
        {
            Compass.North => new(Frame.West, Frame.East, Frame.North - reach, Frame.North),
            Compass.South => new(Frame.West, Frame.East, Frame.South, Frame.South + reach),
            Compass.West => new(Frame.West - reach, Frame.West, Frame.North, Frame.South),
            _ => new(Frame.East, Frame.East + reach, Frame.North, Frame.South),
        };

        public double Farthest(Envelope all) => Side switch
        {
            Compass.North => Frame.North - all.MinY,
            Compass.South => all.MaxY - Frame.South,
            Compass.West => Frame.West - all.MinX,
            _ => all.MaxX - Frame.East,
        };

        // The nearest point of the part of an edge that lies ahead; infinite where none does.
        public double DistanceTo(Edge edge)
        {
            var (from, to) = (On(edge.From), On(edge.To));
            if (from.Across > to.Across) (from, to) = (to, from);
            if (to.Across < Left || from.Across > Right) return double.PositiveInfinity;
            var (one, other) = (AheadAt(from, to, Math.Max(Left, from.Across)), AheadAt(to, from, Math.Min(Right, to.Across)));
            return Math.Max(one, other) < -Footprint.Touch ? double.PositiveInfinity : Math.Max(0, Math.Min(one, other));
        }

        private static double AheadAt((double Across, double Ahead) from, (double Across, double Ahead) to, double across) =>
            from.Across == to.Across
                ? from.Ahead
                : from.Ahead + ((to.Ahead - from.Ahead) * (across - from.Across) / (to.Across - from.Across));

        private (double Across, double Ahead) On(PlanPoint point) => Side switch
        {
            Compass.North => (point.X, Frame.North - point.Y),
            Compass.South => (point.X, point.Y - Frame.South),
            Compass.West => (point.Y, Frame.West - point.X),
            _ => (point.Y, point.X - Frame.East),
        };
    }
}
