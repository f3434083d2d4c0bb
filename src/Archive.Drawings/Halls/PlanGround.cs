using Archive.Drawings.Svg;
using Archive.Halls.Layout;

namespace Archive.Drawings.Halls;

/// <summary>
/// A hall as small plans show it around what their pages are about: a picture of its own, drawn once for thousands of pages. It is ink
/// without paper, so that a page may show it on light or dark.
/// </summary>
public static class PlanGround
{
    /// <summary>Draws a hall's ground.</summary>
    /// <returns>An SVG document; null where nothing of the hall has a place.</returns>
    public static string? Draw(HallLayout layout)
    {
        var options = new FloorPlanOptions { Href = static _ => "", Ground = "" };
        if (PlanSheet.Create(layout, options) is not { } sheet) return null;
        var svg = SvgWriter.Alone(sheet.Size, $"Floor plan of {layout.Hall.Title}");
        var plan = new PlanDrawing(layout, options, sheet, svg);
        var frames = new PlanFrames(plan);
        frames.TakeRoom();
        PlanOutline.Draw(plan);
        using (svg.Behind(frames.Boxes(), sheet.Size)) PlanTrays.DrawGround(plan);
        PlanOutline.DrawTakeLine(plan);
        frames.DrawGround();
        frames.DrawRowNames();
        return svg.FinishAlone();
    }
}
