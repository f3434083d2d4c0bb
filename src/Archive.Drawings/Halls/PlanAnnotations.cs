using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Drawings.Halls;

/// <summary>What makes a plan a drawing: overall dimensions, north, a scale, and the key of its signs.</summary>
internal static class PlanAnnotations
{
    private const double Tick = 3.5;
    private const double DimensionAway = 14;

    /// <summary>Keeps labels off the margins that the furniture stands in.</summary>
    internal static void TakeRoom(PlanDrawing plan)
    {
        var (size, scale) = (plan.Sheet.Size, plan.Scale);
        var top = scale.Top - PlanSheet.WallThickness - 2;
        plan.Sheet.Take(new PaperBox(0, 0, size.Width, top));
        plan.Sheet.Take(new PaperBox(0, 0, scale.Left - PlanSheet.WallThickness - 2, size.Height));
        plan.Sheet.Take(new PaperBox(0, size.Height - 66, size.Width, 66));
    }

    internal static void Draw(PlanDrawing plan)
    {
        using var group = plan.Svg.Group("furniture");
        North(plan);
        if (plan.Layout.Hall.Outline is { } outline && Footprint.Around(outline.Points) is { } extent) Dimensions(plan, extent);
        foreach (var lettering in plan.Sheet.Letterings)
        {
            using var one = plan.Svg.Group(lettering.Class);
            ScaleBar.Draw(
                plan.Svg,
                new PaperPoint(plan.Scale.Left, plan.Sheet.Size.Height - 14 - lettering.Usual),
                plan.Scale.PerMillimetre,
                plan.Sheet.Size.Width / 4,
                plan.Options.Units,
                lettering.Usual);
            PlanKey.Draw(plan, lettering);
        }
    }

    private static void North(PlanDrawing plan)
    {
        var foot = new PaperPoint(plan.Sheet.Size.Width - 36, plan.Sheet.Size.Height - 26);
        Arrow(plan.Svg, foot);
        foreach (var lettering in plan.Sheet.Letterings)
        {
            plan.Letter(lettering, [new PlacedText("N", foot.Moved(-6, -14 + (lettering.Usual * 0.36)), lettering.Usual, TextAnchor.End)]);
        }
    }

    /// <summary>An arrow to the north, up from a point.</summary>
    internal static void Arrow(SvgWriter svg, PaperPoint foot)
    {
        svg.Path(new SvgPath().Line(foot, foot.Moved(0, -20)), "fine");
        svg.Path(new SvgPath().Figure([foot.Moved(0, -24), foot.Moved(3.5, -13), foot.Moved(-3.5, -13)], closed: true), "solid");
    }

    private static void Dimensions(PlanDrawing plan, Footprint extent)
    {
        var units = new UnitFormatter(plan.Options.Units);
        var box = plan.Scale.ToPaper(extent);
        var (y, x) = (box.Y - PlanSheet.WallThickness - DimensionAway, box.X - PlanSheet.WallThickness - DimensionAway);
        var path = new SvgPath().Line(new(box.X, y), new(box.Right, y)).Line(new(x, box.Y), new(x, box.Bottom));
        foreach (var end in (PaperPoint[])[new(box.X, y), new(box.Right, y), new(x, box.Y), new(x, box.Bottom)])
        {
            path.Line(end.Moved(-Tick, Tick), end.Moved(Tick, -Tick));
        }

        foreach (var at in (double[])[box.X, box.Right]) path.Line(new(at, y + DimensionAway - 3), new(at, y - 5));
        foreach (var at in (double[])[box.Y, box.Bottom]) path.Line(new(x + DimensionAway - 3, at), new(x - 5, at));
        plan.Svg.Path(path, "fine");
        foreach (var lettering in plan.Sheet.Letterings)
        {
            plan.Letter(lettering,
            [
                PlacedText.Centred(
                    units.Format(Length.FromMillimeters(extent.Across)), new(box.Centre.X, y - (lettering.Usual * 0.62)), lettering.Usual),
                PlacedText.Centred(
                    units.Format(Length.FromMillimeters(extent.Down)),
                    new(x - (lettering.Usual * 0.62), box.Centre.Y),
                    lettering.Usual,
                    isUpright: false),
            ]);
        }
    }
}
