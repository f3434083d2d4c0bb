using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Terms;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.OverlayNG;

namespace Archive.Halls.Placement;

/// <summary>
/// Finds the bays of a hall: the rows that it has, as far as the floor is free, and rows under trays where no row stands. No frame stands
/// on an obstacle, in the swing of a door (as deep as the door is wide), outside the walls, or in the aisle before another bay.
/// </summary>
internal sealed class BayFinder
{
    private readonly PlacementRequest _question;
    private readonly double _depth;
    private readonly double _least;
    private readonly Geometry? _room;
    private readonly Geometry? _clear;
    private readonly List<Bay> _bays = [];
    private readonly List<Geometry> _bodies = [];
    private readonly List<Geometry> _aisles = [];

    private BayFinder(PlacementRequest question, IReadOnlyCollection<FrameSize> sizes)
    {
        _question = question;
        _depth = sizes.Max(size => size.Depth.Millimeters);
        _least = sizes.Min(size => size.Width.Millimeters);
        if (question.Layout.Hall.Outline is not { } outline) return;
        _room = GeometryConversion.Area(outline);
        foreach (var obstacle in question.Layout.Hall.Obstacles) _room = Without(_room, GeometryConversion.Area(obstacle.Outline));
        _clear = question.Layout.Hall.Openings.Aggregate(_room, (room, opening) => Without(room, Swing(opening)));
    }

    /// <summary>The bays; those of given rows first.</summary>
    /// <param name="question">The hall and its trays.</param>
    /// <param name="sizes">Sizes of the frames that are to stand; at least one.</param>
    public static ImmutableArray<Bay> Bays(PlacementRequest question, IReadOnlyCollection<FrameSize> sizes)
    {
        var floor = new BayFinder(question, sizes);
        foreach (var row in question.Layout.Rows) floor.TakeRow(row);
        foreach (var tray in question.Layout.Trays) floor.TakeBeneath(tray);
        return [.. floor._bays];
    }

    // A row stands where it was given, blocked or not: its bay is at least as long as its frames.
    private void TakeRow(RowLayout row)
    {
        var start = new Bay(row.Row.Id.Value, row.Row.At, row.Row.Runs.Value, row.Row.Faces.Value, 0);
        var given = row.Extent is { } extent ? start.Along(extent).To : 0;
        var free = Free(start, Reach(start));
        var first = free.Count > 0 && free[0].From <= Footprint.Touch ? free[0].To : 0;
        Take(start with { Length = Math.Max(first, given) });
        var number = 2;
        foreach (var (from, to) in free.Where(stretch => stretch.From >= Math.Max(first, given)))
            Take(From(start, $"{start.Row}-{number++}", from, to));
    }

    private void TakeBeneath(Tray tray)
    {
        for (var i = 1; i < tray.Path.Length; i++)
        {
            var (from, to) = (tray.Path[i - 1], tray.Path[i]);
            if (from.X > to.X || from.Y > to.Y) (from, to) = (to, from);
            if (from.X != to.X && from.Y != to.Y) continue;
            var runs = from.Y == to.Y ? Compass.East : Compass.South;
            ReadOnlySpan<Compass> fronts = runs == Compass.East ? [Compass.South, Compass.North] : [Compass.East, Compass.West];
            var best = (Bays: new List<Bay>(), Length: 0.0);
            foreach (var faces in fronts)
            {
                var start = new Bay($"beneath-{tray.Id}", from.Step(faces, _depth / 2), runs, faces, 0);
                var number = 1;
                var bays = Free(start, from.DistanceTo(to))
                    .Select(stretch => From(start, number++ == 1 ? start.Row : $"{start.Row}-{number - 1}", stretch.From, stretch.To))
                    .ToList();
                if (bays.Sum(bay => bay.Length) > best.Length) best = (bays, bays.Sum(bay => bay.Length));
            }

            foreach (var bay in best.Bays) Take(bay with { Row = Unused(bay.Row) });
        }
    }

    private string Unused(string row)
    {
        var name = row;
        for (var number = 2; _bays.Exists(bay => bay.Row == name); number++) name = $"{row}-{number}";
        return name;
    }

    private static Bay From(Bay start, string row, double from, double to) =>
        start with { Row = row, At = start.At.Step(start.Runs, Math.Ceiling(from)), Length = Math.Floor(to) - Math.Ceiling(from) };

    private void Take(Bay bay)
    {
        if (bay.Length < _least) return;
        _bays.Add(bay);
        _bodies.Add(GeometryConversion.Area(bay.Strip(0, bay.Length, 0, _depth)));
        _aisles.Add(GeometryConversion.Area(bay.Strip(0, bay.Length, -PlacementRequest.LeastAisle, 0)));
    }

    // To the far side of the hall; without walls a row is as long as it was given.
    private double Reach(Bay bay) => _room is null || _room.IsEmpty ? 0 : Math.Max(0, bay.Along(BoxOf(_room)).To);

    private List<(double From, double To)> Free(Bay start, double reach)
    {
        var free = new List<(double From, double To)>();
        if (reach < _least || _room is null || _clear is null) return free;
        var body = GeometryConversion.Area(start.Strip(0, reach, 0, _depth));
        var aisle = GeometryConversion.Area(start.Strip(0, reach, -PlacementRequest.LeastAisle, 0));
        IEnumerable<Geometry> blocked =
        [
            Without(body, _clear), Without(aisle, _room),
            .. _bodies.SelectMany(other => new[] { Common(body, other), Common(aisle, other) }),
            .. _aisles.Select(other => Common(body, other)),
        ];
        var at = 0.0;
        foreach (var (from, to) in blocked.SelectMany(Parts).Select(start.Along).Order())
        {
            if (from - at >= _least) free.Add((at, from));
            at = Math.Max(at, to);
        }

        if (reach - at >= _least) free.Add((at, reach));
        return free;
    }

    // What only touches does not block.
    private static IEnumerable<Footprint> Parts(Geometry geometry)
    {
        for (var i = 0; i < geometry.NumGeometries; i++)
        {
            if (geometry.GetGeometryN(i) is Polygon { IsEmpty: false, Area: > 1 } part) yield return BoxOf(part);
        }
    }

    private static Footprint BoxOf(Geometry geometry) =>
        new(geometry.EnvelopeInternal.MinX, geometry.EnvelopeInternal.MinY, geometry.EnvelopeInternal.MaxX, geometry.EnvelopeInternal.MaxY);

    private static Geometry Swing(Opening opening) => GeometryConversion.Line([opening.From, opening.To]) is { Length: > 0 } line
        ? NetTopologySuite.Operation.Buffer.BufferOp.Buffer(
            line,
            line.Length,
            new NetTopologySuite.Operation.Buffer.BufferParameters { EndCapStyle = NetTopologySuite.Operation.Buffer.EndCapStyle.Flat })
        : GeometryConversion.Area(ImmutableArray<PlanPoint>.Empty);

    private static Geometry Without(Geometry one, Geometry other) =>
        OverlayNGRobust.Overlay(one, other, NetTopologySuite.Operation.Overlay.SpatialFunction.Difference);

    private static Geometry Common(Geometry one, Geometry other) =>
        OverlayNGRobust.Overlay(one, other, NetTopologySuite.Operation.Overlay.SpatialFunction.Intersection);
}
