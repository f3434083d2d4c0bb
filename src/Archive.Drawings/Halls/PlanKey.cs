using Archive.Drawings.Svg;

namespace Archive.Drawings.Halls;

/// <summary>The key of a plan's signs: only those that it uses, set in lines above its lower edge.</summary>
internal static class PlanKey
{

    internal static void Draw(PlanDrawing plan, PlanTextSize lettering)
    {
        var size = lettering.Usual;
        var y = plan.Sheet.Size.Height - 44 - (size / 2);
        var (sample, gap) = (size * 2.4, size * 0.6);
        var x = plan.Scale.Left;
        foreach (var (says, draw) in Signs(plan))
        {
            var width = sample + gap + TextMetrics.Width(says, size);
            if (x + width > plan.Sheet.Size.Width) break;
            draw(new PaperBox(x, y - (size / 2), sample, size));
            plan.Svg.Text(new PlacedText(says, new(x + sample + gap, y + (size * 0.27)), size));
            x += width + (2 * gap);
        }
    }

    private static IEnumerable<(string Says, Action<PaperBox> Draw)> Signs(PlanDrawing plan)
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
            yield return ("tray", box =>
            {
                var line = new SvgPath().Line(new(box.X, box.Centre.Y), new(box.Right, box.Centre.Y));
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
        if (plan.Options.Ways.Length > 0) yield return (plan.Options.WaysAs, box =>
            svg.Path(new SvgPath().Line(new(box.X, box.Centre.Y), new(box.Right, box.Centre.Y)), "way"));
        if (layout.PlacedFrames.Any(placed => !placed.IsSized))
            yield return ("size not recorded", box => svg.Rectangle(box, "box dashed"));

        Action<PaperBox> Sign(string classes) => box =>
        {
            using var group = svg.Group(classes);
            svg.Rectangle(box, "box");
        };
    }
}
