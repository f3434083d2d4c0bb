using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Overlay;
using NetTopologySuite.Operation.OverlayNG;

namespace Archive.Halls.Views;

/// <summary>Which side of a body a face is.</summary>
public enum FaceSide
{
    /// <summary>The upper side.</summary>
    Top,

    /// <summary>A side that looks to the south rather than to the east.</summary>
    South,

    /// <summary>A side that looks to the east rather than to the south.</summary>
    East,
}

/// <summary>What is seen of a face.</summary>
/// <param name="Rings">Its outlines and holes on the sheet, by the even-odd rule.</param>
public sealed record VisibleFace(FaceSide Side, ImmutableArray<ImmutableArray<PlanPoint>> Rings);

/// <summary>What is seen of a body.</summary>
/// <param name="Faces">The faces that are not wholly hidden.</param>
/// <param name="Fronts">What is seen of the upper edge of its front.</param>
/// <param name="Label">A point well within the largest of them, for its name; null for a body that is wholly hidden.</param>
public sealed record VisibleSolid(
    Solid Solid, ImmutableArray<VisibleFace> Faces, ImmutableArray<ImmutableArray<PlanPoint>> Fronts, PlanPoint? Label);

/// <summary>
/// What is seen of bodies in an isometric drawing, with all removed that others hide: each face less the outlines of the bodies before it.
/// </summary>
public static class VisibleFaces
{
    /// <summary>More bodies are not drawn so: each is compared with all others.</summary>
    public const int MostSolids = 1000;

    // Pieces of less than this, in square millimetres, and of less than a millimetre are rounding.
    private const double LeastArea = 4, LeastLength = 1;

    /// <summary>What is seen of each body, the farthest first. Quadratic.</summary>
    public static ImmutableArray<VisibleSolid> Compute(ImmutableArray<Solid> solids)
    {
        var outlines = solids.Select(Outline).ToImmutableArray();
        var boxes = outlines.Select(outline => outline.EnvelopeInternal).ToImmutableArray();
        var order = PaintOrder.Sort(solids, (a, b) => boxes[a].Intersects(boxes[b]));
        return
        [
            .. order.Select((number, place) => See(
                solids[number],
                [.. order[(place + 1)..].Where(near => boxes[near].Intersects(boxes[number])).Select(near => outlines[near])])),
        ];
    }

    private static VisibleSolid See(Solid solid, ImmutableArray<Geometry> before)
    {
        var faces = Faces(solid).Select(face => (face.Side, Seen: Less(GeometryConversion.Area(face.Corners), before)))
            .Where(face => face.Seen.Area >= LeastArea)
            .ToList();
        var fronts = solid.Front is { } front && GeometryConversion.Line([
            Isometry.Project(front.From, solid.Top),
            Isometry.Project(front.To, solid.Top),
        ]) is { } line
            ? Less(line, before)
            : null;
        return new VisibleSolid(
            solid,
            [.. faces.Select(face => new VisibleFace(face.Side, Rings(face.Seen)))],
            fronts is null ? [] : [.. Parts(fronts).Where(part => part.Length >= LeastLength).Select(Points)],
            faces.Count == 0 ? null : GeometryConversion.Convert(faces.MaxBy(face => face.Seen.Area).Seen.InteriorPoint.Coordinate));
    }

    private static Geometry Less(Geometry figure, ImmutableArray<Geometry> before)
    {
        foreach (var outline in before)
        {
            if (figure.IsEmpty) break;
            if (figure.EnvelopeInternal.Intersects(outline.EnvelopeInternal))
                figure = OverlayNGRobust.Overlay(figure, outline, SpatialFunction.Difference);
        }

        return figure;
    }

    // The upper side, and the sides that look towards the viewer.
    private static IEnumerable<(FaceSide Side, ImmutableArray<PlanPoint> Corners)> Faces(Solid solid)
    {
        yield return (FaceSide.Top, [.. solid.Base.Select(point => Isometry.Project(point, solid.Top))]);
        for (var i = 0; i < solid.Base.Length; i++)
        {
            var (from, to) = (solid.Base[i], solid.Base[(i + 1) % solid.Base.Length]);
            var middle = new PlanPoint((from.X + to.X) / 2, (from.Y + to.Y) / 2);
            var side = PaintOrder.Sides(solid).MinBy(side => Math.Abs((side.Normal.X * middle.X) + (side.Normal.Y * middle.Y) - side.At)
                + Math.Abs((side.Normal.X * (to.X - from.X)) + (side.Normal.Y * (to.Y - from.Y))));
            if (side.Normal.X + side.Normal.Y <= 1e-9) continue;
            yield return (
                side.Normal.Y >= side.Normal.X ? FaceSide.South : FaceSide.East,
                [
                    Isometry.Project(from, solid.Bottom),
                    Isometry.Project(to, solid.Bottom),
                    Isometry.Project(to, solid.Top),
                    Isometry.Project(from, solid.Top),
                ]);
        }
    }

    private static Geometry Outline(Solid solid) => new MultiPoint(
    [
        .. solid.Base.SelectMany(point => new[] { Isometry.Project(point, solid.Bottom), Isometry.Project(point, solid.Top) })
            .Select(point => new Point(GeometryConversion.Convert(point))),
    ]).ConvexHull();

    private static IEnumerable<Geometry> Parts(Geometry geometry) =>
        Enumerable.Range(0, geometry.NumGeometries).Select(geometry.GetGeometryN);

    private static ImmutableArray<ImmutableArray<PlanPoint>> Rings(Geometry area) =>
    [
        .. Parts(area).OfType<Polygon>()
            .Where(polygon => polygon.Area >= LeastArea)
            .SelectMany(polygon => polygon.InteriorRings.Prepend(polygon.ExteriorRing))
            .Select(ring => Points(ring)),
    ];

    private static ImmutableArray<PlanPoint> Points(Geometry line) => [.. line.Coordinates.Select(GeometryConversion.Convert)];
}
