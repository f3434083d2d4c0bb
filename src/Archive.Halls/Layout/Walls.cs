using System.Collections.Immutable;
using Archive.Records.Model;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;
using NetTopologySuite.Operation.OverlayNG;

namespace Archive.Halls.Layout;

/// <summary>The walls of a hall as areas to draw: a band around the outline, broken where the openings are.</summary>
public static class Walls
{
    /// <summary>The band's rings. Fill them by the even-odd rule: holes are rings like the others.</summary>
    /// <param name="thickness">How thick the walls are drawn, in millimetres; the record knows only their inner line.</param>
    /// <returns>Closed rings without their last point; empty where the hall has no outline.</returns>
    public static ImmutableArray<ImmutableArray<PlanPoint>> Compute(Hall hall, double thickness)
    {
        if (hall.Outline is not { } outline) return [];
        var room = GeometryConversion.Area(outline);
        if (room.IsEmpty) return [];
        var mitred = new BufferParameters { JoinStyle = JoinStyle.Mitre };
        var band = OverlayNGRobust.Overlay(
            BufferOp.Buffer(room, thickness, mitred), room, NetTopologySuite.Operation.Overlay.SpatialFunction.Difference);
        foreach (var opening in hall.Openings)
        {
            if (Gap(opening, thickness) is { } gap)
            {
                band = OverlayNGRobust.Overlay(band, gap, NetTopologySuite.Operation.Overlay.SpatialFunction.Difference);
            }
        }

        return [.. Rings(band)];
    }

    // Wide enough to break the band on whichever side of the line it lies, and no longer than the opening.
    private static Geometry? Gap(Opening opening, double thickness) =>
        GeometryConversion.Line([opening.From, opening.To]) is { Length: > 0 } line
            ? BufferOp.Buffer(line, 2 * thickness, new BufferParameters { EndCapStyle = EndCapStyle.Flat })
            : null;

    private static IEnumerable<ImmutableArray<PlanPoint>> Rings(Geometry area)
    {
        for (var i = 0; i < area.NumGeometries; i++)
        {
            if (area.GetGeometryN(i) is not Polygon polygon) continue;
            yield return Ring(polygon.ExteriorRing);
            foreach (var hole in polygon.InteriorRings) yield return Ring(hole);
        }
    }

    private static ImmutableArray<PlanPoint> Ring(LineString ring) => [.. ring.Coordinates[..^1].Select(GeometryConversion.Convert)];
}
