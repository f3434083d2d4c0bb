using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Layout;
using NetTopologySuite.Geometries.Prepared;
using NetTopologySuite.Index.Strtree;

namespace Archive.Halls.Checks;

/// <summary>AF0603 and AF0611: frames that stand in one another, or in a column. Only certain footprints are judged.</summary>
internal static class Overlaps
{
    // More other places than these only tire the reader: the fix of one is usually the fix of all.
    private const int MostRelated = 3;

    // A sentence can quote it.
    private const int LongestName = 60;

    // Others that are counted.
    private const int MostCounted = 10;

    // Frames that are compared with obstacles of one hall, one by one: a second of work, and more than any hall has.
    private const int MostHeld = 200_000;

    /// <summary>Through sort-tile-recursive trees over the footprints: n log n, however many overlap.</summary>
    internal static IEnumerable<Diagnostic> Check(HallLayout layout)
    {
        var certain = layout.PlacedFrames.Where(placed => placed.IsCertain).ToList();
        return Frames(certain).Concat(Obstacles(layout, certain));
    }

    private static IEnumerable<Diagnostic> Frames(List<PlacedFrame> certain)
    {
        var tree = new FootprintTree([.. certain.Select(placed => placed.Footprint)]);
        for (var i = 0; i < certain.Count; i++)
        {
            var placed = certain[i];
            var before = tree.Overlapping(placed.Footprint, i).Take(MostCounted + 1).Select(j => certain[j]).ToList();
            if (before.Count == 0) continue;
            var by = before[0].Footprint.Overlap(placed.Footprint);
            var more = before.Count == 1
                ? string.Empty
                : before.Count > MostCounted
                ? $", and at least {MostCounted} more"
                : $", and {before.Count - 1} more";
            yield return DiagnosticDescriptors.OverlappingFrames.At(
                placed.Span,
                $"frame {placed.Frame.Id} overlaps frame {before[0].Frame.Id} by {Millimetres.Say(by)}{more}",
                "correct the corner of either row, a gap, or the size of a frame; frames may touch",
                [.. before.Take(MostRelated).Select(other => new Related(other.Span, $"{other.Frame.Id} stands here"))]);
        }
    }

    private static IEnumerable<Diagnostic> Obstacles(HallLayout layout, List<PlacedFrame> certain)
    {
        var tree = new STRtree<int>();
        for (var i = 0; i < certain.Count; i++) tree.Insert(GeometryConversion.Box(certain[i].Footprint), i);
        tree.Build();
        var held = 0;
        foreach (var obstacle in layout.Hall.Obstacles)
        {
            var area = GeometryConversion.Area(obstacle.Outline);
            if (area.IsEmpty) continue;
            var prepared = PreparedGeometryFactory.Prepare(area);
            foreach (var i in tree.Query(area.EnvelopeInternal).Order())
            {
                if (held++ == MostHeld)
                {
                    yield return DiagnosticDescriptors.PlanTooLarge.At(
                        obstacle.Outline.Span,
                        $"hall {layout.Hall.Id} has too many frames and obstacles: from here on, nothing checks whether they overlap",
                        "leave out what is not an obstacle, or record the hall as several");
                    yield break;
                }

                var placed = certain[i];
                if (!prepared.Intersects(GeometryConversion.Area(placed.Footprint.Grown(-Footprint.Touch)))) continue;
                var name = obstacle.Name is { Value.Length: <= LongestName } said ? said.Value : "obstacle";
                yield return DiagnosticDescriptors.FrameInObstacle.At(
                    placed.Span,
                    $"frame {placed.Frame.Id} stands in the {name} of hall {layout.Hall.Id}",
                    "correct the row, the frame's size, or the outline of the obstacle",
                    new Related(obstacle.Outline.Span, "the obstacle is here"));
            }
        }
    }
}
