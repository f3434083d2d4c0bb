using Archive.Diagnostics;
using NetTopologySuite.Geometries.Prepared;
using NetTopologySuite.Index.Strtree;

namespace Archive.Hall;

/// <summary>AF0603 and AF0611: frames that stand in one another, or in a column. Only certain footprints are judged.</summary>
internal static class Overlaps
{
    // More other places than these only tire the reader: the mend of one is as a rule the mend of all.
    private const int MostRelated = 3;

    /// <summary>Both through one sort-tile-recursive tree over the footprints: n log n and the number of overlaps.</summary>
    internal static IEnumerable<Diagnostic> Check(HallLayout layout)
    {
        var certain = layout.Standing.Where(standing => standing.IsCertain).ToList();
        var tree = new STRtree<int>();
        for (var i = 0; i < certain.Count; i++) tree.Insert(PlanFigure.Box(certain[i].Footprint), i);
        tree.Build();
        return Frames(certain, tree).Concat(Obstacles(layout, certain, tree));
    }

    private static IEnumerable<Diagnostic> Frames(List<StandingFrame> certain, STRtree<int> tree)
    {
        for (var i = 0; i < certain.Count; i++)
        {
            var standing = certain[i];
            var before = tree.Query(PlanFigure.Box(standing.Footprint))
                .Where(j => j < i && certain[j].Footprint.Overlap(standing.Footprint) > Footprint.Touch)
                .Order()
                .Select(j => certain[j])
                .ToList();
            if (before.Count == 0) continue;
            var by = before[0].Footprint.Overlap(standing.Footprint);
            var more = before.Count > 1 ? $", and {before.Count - 1} more" : string.Empty;
            yield return Faults.OverlappingFrames.At(
                standing.Span,
                $"frame {standing.Frame.Id} overlaps frame {before[0].Frame.Id} by {Millimetres.Say(by)}{more}",
                "mend the corner of either row, a gap, or the size of a frame; frames may touch",
                [.. before.Take(MostRelated).Select(other => new Related(other.Span, $"{other.Frame.Id} stands here"))]);
        }
    }

    private static IEnumerable<Diagnostic> Obstacles(HallLayout layout, List<StandingFrame> certain, STRtree<int> tree)
    {
        foreach (var obstacle in layout.Hall.Obstacles)
        {
            var area = PlanFigure.Area(obstacle.Outline);
            if (area.IsEmpty) continue;
            var prepared = PreparedGeometryFactory.Prepare(area);
            foreach (var i in tree.Query(area.EnvelopeInternal).Order())
            {
                var standing = certain[i];
                if (!prepared.Intersects(PlanFigure.Area(standing.Footprint.Grown(-Footprint.Touch)))) continue;
                var name = obstacle.Name?.Value ?? "obstacle";
                yield return Faults.FrameInObstacle.At(
                    standing.Span,
                    $"frame {standing.Frame.Id} stands in the {name} of hall {layout.Hall.Id}",
                    "mend the row, the frame's size, or the outline of what is in the way",
                    new Related(obstacle.Outline.Span, "what is in the way stands here"));
            }
        }
    }
}
