using Archive.Drawings.Halls;
using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Markup.Text;
using Archive.Records.Wording;

namespace Archive.Drawings.Sheets;

/// <summary>A hall from above at a true scale, with all its trays or those of one height.</summary>
public static class HallSheet
{
    /// <summary>The scale that a hall is drawn at, one to how many; null where nothing of it has a place, or it fits at none.</summary>
    public static int? ScaleOf(HallLayout layout, PaperFormat paper) =>
        PlanSheet.Extent(layout) is { } extent ? WallSheet.ScaleFor(paper, extent) : null;

    /// <summary>Draws the sheet.</summary>
    /// <returns>Inline SVG in a box of class <c>drawing wall-sheet</c>; none where it fits at no scale.</returns>
    public static HtmlFragment Draw(HallLayout layout, FloorPlanOptions options, PaperFormat paper, WallSheetText text)
    {
        if (PlanSheet.Extent(layout) is not { } extent || WallSheet.Create(paper, extent) is not { } wall) return HtmlFragment.None;
        var sheet = PlanSheet.ToScale(wall.Size, wall.Drawn, wall.Drawn.ToPaper(extent).Right);
        var svg = new SvgWriter(
            wall.Size,
            "plan wall-sheet",
            $"{text.Hall}: {text.Title}, 1:{wall.Scale}",
            $"{Phrase.Count(layout.PlacedFrames.Length, "frame")} from above, north up. {options.Says}".TrimEnd(),
            hasLinks: true);
        wall.DrawAround(svg, text, options.Units, isPlan: true);
        var plan = new PlanDrawing(layout, options, sheet, svg);
        var key = FloorPlan.DrawHall(plan);
        var (x, y, right) = wall.KeyLine;
        PlanKey.Draw(plan, sheet.Letterings[0], x, y, right);
        return svg.Finish(key);
    }
}
