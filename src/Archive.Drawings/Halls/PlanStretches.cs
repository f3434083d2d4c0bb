using Archive.Drawings.Svg;
using Archive.Records.Wording;

namespace Archive.Drawings.Halls;

/// <summary>Stretches of trays with a number each: a line, the wider the greater its number, and the number beside it.</summary>
internal static class PlanStretches
{
    // In units: so that the narrowest is seen and the widest lies within a tray.
    private const double Narrowest = 1.5, Widest = 9;

    internal static void Draw(PlanDrawing plan)
    {
        if (plan.Options.Stretches.IsEmpty) return;
        using var group = plan.Svg.Group("loads");
        var most = plan.Options.Stretches.Max(stretch => stretch.Count);
        foreach (var stretch in plan.Options.Stretches)
            plan.Svg.Path(new SvgPath().Figure(stretch.Line.Select(plan.On), closed: false), "load", WidthOf(stretch.Count, most));
    }

    /// <summary>The numbers, the greatest first; one that finds no room is left out.</summary>
    internal static void DrawCounts(PlanDrawing plan)
    {
        if (plan.Options.Stretches.IsEmpty) return;
        foreach (var lettering in plan.Sheet.Letterings)
        {
            plan.Letter(
                lettering,
                plan.Options.Stretches.OrderByDescending(stretch => stretch.Count)
                    .Select(stretch => lettering.Space.Set([.. Places(stretch, plan, lettering)])),
                "strong");
        }
    }

    /// <summary>How wide the line of a number is drawn, where the greatest is known.</summary>
    internal static double WidthOf(int count, int most) =>
        Narrowest + ((Widest - Narrowest) * Math.Sqrt(count / (double)Math.Max(1, most)));

    private static IEnumerable<PlacedText> Places(PlanStretch stretch, PlanDrawing plan, PlanTextSize lettering)
    {
        var points = stretch.Line.Select(plan.On).ToList();
        var (from, to) = points.Zip(points.Skip(1)).MaxBy(piece => Math.Abs(piece.First.X - piece.Second.X)
            + Math.Abs(piece.First.Y - piece.Second.Y));
        var isAcross = Math.Abs(from.X - to.X) >= Math.Abs(from.Y - to.Y);
        foreach (var aside in (double[])[0, 1, -1])
        {
            foreach (var part in (double[])[0.5, 0.3, 0.7])
            {
                var at = new PaperPoint(from.X + (part * (to.X - from.X)), from.Y + (part * (to.Y - from.Y)));
                var by = aside * lettering.Usual;
                yield return PlacedText.Centred(
                    Phrase.Count(stretch.Count), isAcross ? at.Moved(0, by) : at.Moved(by, 0), lettering.Usual);
            }
        }
    }
}
