using System.Collections.Immutable;
using Archive.Records.Model;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Utilities;

namespace Archive.Halls.Layout;

/// <summary>Figures of the plan as the geometry library sees them. The library's types stay inside this project.</summary>
internal static class GeometryConversion
{
    private static readonly GeometryFactory Factory = new();

    /// <summary>An outline as an area; one that crosses itself is fixed, so it may have several parts or none.</summary>
    internal static Geometry Area(Outline outline) => Area(outline.Points);

    internal static Geometry Area(ImmutableArray<PlanPoint> points)
    {
        var ring = points.Where(IsFinite).Select(Convert).ToList();
        if (ring.Count < 3) return Factory.CreatePolygon();
        ring.Add(ring[0]);
        Geometry area = Factory.CreatePolygon([.. ring]);
        return area.IsValid ? area : GeometryFixer.Fix(area);
    }

    internal static Geometry Area(Footprint footprint) => Factory.ToGeometry(Box(footprint));

    internal static Envelope Box(Footprint footprint) => new(footprint.West, footprint.East, footprint.North, footprint.South);

    /// <summary>A centre line; null without two finite points.</summary>
    internal static LineString? Line(ImmutableArray<PlanPoint> path)
    {
        var points = path.Where(IsFinite).Select(Convert).ToArray();
        return points.Length < 2 ? null : Factory.CreateLineString(points);
    }

    internal static Coordinate Convert(PlanPoint point) => new(point.X, point.Y);

    internal static PlanPoint Convert(Coordinate coordinate) => new(coordinate.X, coordinate.Y);

    private static bool IsFinite(PlanPoint point) => double.IsFinite(point.X) && double.IsFinite(point.Y);
}
