using Archive.Drawings.Svg;
using Archive.Records.Model;

namespace Archive.Drawings.Halls;

/// <summary>The key of a plan's signs: only those that it uses, set in lines above its lower edge.</summary>
internal static class PlanKey
{
    internal static void Draw(PlanDrawing plan, PlanTextSize lettering) =>
        Draw(plan, lettering, plan.Scale.Left, plan.Sheet.Size.Height - 44 - (lettering.Usual / 2), plan.Sheet.Size.Width);

    /// <param name="x">Where its line begins.</param>
    /// <param name="y">The middle of its line.</param>
    /// <param name="right">Where it ends.</param>
    internal static void Draw(PlanDrawing plan, PlanTextSize lettering, double x, double y, double right)
    {
        var size = lettering.Usual;
        var (sample, gap) = (size * 2.4, size * 0.6);
        foreach (var (says, draw) in Signs(plan, lettering))
        {
            var width = sample + gap + TextMetrics.Width(says, size);
            if (x + width > right) continue;
            draw(new PaperBox(x, y - (size / 2), sample, size));
            plan.Svg.Text(new PlacedText(says, new(x + sample + gap, y + (size * 0.27)), size));
            x += width + (2 * gap);
        }
    }

    private static IEnumerable<(string Says, Action<PaperBox> Draw)> Signs(PlanDrawing plan, PlanTextSize lettering)
    {
        var (layout, svg) = (plan.Layout, plan.Svg);
        if (layout.PlacedFrames.Length > 0)
        {
            yield return ("front", box =>
            {
                svg.Rectangle(box, "box");
                svg.Line(new(box.X, box.Bottom), new(box.Right, box.Bottom), "heavy");
            }
            );
        }

        if (layout.Trays.Length > 0)
        {
            yield return (lettering.Class != "narrow" && layout.Trays.Length > 1 ? "tray, the higher over the lower" : "tray", box =>
            {
                var line = new SvgPath().Line(new(box.X, box.Centre.Y), new(box.Right, box.Centre.Y));
                svg.Path(line, "edge", box.Height + 2);
                svg.Path(line, "bed", box.Height);
                svg.Path(line, "band", box.Height);
                svg.Path(line, "fine");
            }
            );
        }

        if (layout.Hall.Take is not null) yield return ("frames inside this line leave", box => svg.Rectangle(box, "medium dashed"));
        foreach (var (sign, says) in PlanSigns.InKey.Where(each =>
            layout.PlacedFrames.Any(placed => plan.Options.Signs.TryGetValue(placed.Frame.Id, out var own) && own == each.Sign)))
            yield return (says, box => PlanSigns.Draw(svg, box, sign, isSized: true));
        if (plan.Options.Shaded.Count > 0) yield return (plan.Options.ShadedAs, Sign("shaded"));
        if (!plan.Options.Stretches.IsEmpty)
        {
            yield return (plan.Options.StretchesAs, box => svg.Path(
                new SvgPath().Line(new(box.X, box.Centre.Y), new(box.Right, box.Centre.Y)), "load", PlanStretches.WidthOf(1, 4)));
        }

        if (plan.Options.Arrows.Count > 0 && lettering.Class != "narrow")
            yield return (plan.Options.ArrowsAs, box => svg.Path(PlanSigns.Arrow(box.Centre, Compass.East), "solid"));
        if (layout.PlacedFrames.Any(placed => !placed.IsSized))
            yield return ("size not recorded", box => svg.Rectangle(box, "box dashed"));

        Action<PaperBox> Sign(string classes) => box =>
        {
            using var group = svg.Group(classes);
            svg.Rectangle(box, "box");
        };
    }
}
