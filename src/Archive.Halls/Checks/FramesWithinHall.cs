using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Layout;
using Archive.Records.Checks;
using NetTopologySuite.Geometries.Prepared;

namespace Archive.Halls.Checks;

/// <summary>AF0606: a frame that stands outside the outline of its hall, or through a wall. Only certain footprints are judged.</summary>
internal static class FramesWithinHall
{
    internal static IEnumerable<Diagnostic> Check(HallLayout layout)
    {
        if (layout.Hall.Outline is not { } outline || HallScale.IsInMetres(outline)) yield break;
        var room = GeometryConversion.Area(outline);
        if (room.IsEmpty) yield break;
        var prepared = PreparedGeometryFactory.Prepare(room);
        foreach (var placed in layout.PlacedFrames.Where(placed => placed.IsCertain))
        {
            var area = GeometryConversion.Area(placed.Footprint.Grown(-Footprint.Touch));
            if (prepared.Covers(area)) continue;
            var where = prepared.Intersects(area) ? "through the wall" : "outside the outline";
            yield return DiagnosticDescriptors.FrameOutsideHall.At(
                placed.Span,
                $"frame {placed.Frame.Id} stands {where} of hall {layout.Hall.Id}",
                "correct the row's corner or direction, a gap, the frame's size, or the outline",
                new Related(outline.Span, "the outline is drawn here"));
        }
    }
}
