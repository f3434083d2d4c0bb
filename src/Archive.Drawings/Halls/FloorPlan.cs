using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using UnitsNet;

namespace Archive.Drawings.Halls;

/// <summary>
/// The floor plan of a hall, drawn from the record: every frame and tray on it is a link; on a small plan only what its page is about.
/// </summary>
public static class FloorPlan
{
    // More than these in one list is read out by nobody.
    private const int MostNamed = 60;

    /// <summary>Draws a hall.</summary>
    /// <param name="layout">The hall, set out.</param>
    /// <param name="options">What the plan shows.</param>
    /// <returns>Inline SVG in a box of class <c>drawing plan</c>; nothing where the hall has neither outline nor frames nor
    /// trays.</returns>
    public static HtmlFragment Draw(HallLayout layout, FloorPlanOptions options)
    {
        if (PlanSheet.Create(layout, options) is not { } sheet) return HtmlFragment.None;
        var kind = "plan" + (options.IsInset
            ? " inset"
            : string.Empty) + (options.Route.Length > 1 ? " routed" : string.Empty)
            + (options.Layer is null ? string.Empty : " layered");
        var svg = new SvgWriter(
            sheet.Size,
            kind,
            Title(layout, options),
            Description(layout, options),
            hasLinks: true,
            options.IsInset ? "" : sheet.Scale.ForScripts);
        var plan = new PlanDrawing(layout, options, sheet, svg);
        if (!options.IsInset) PlanAnnotations.TakeRoom(plan);
        var key = options.Ground is { } ground ? DrawOn(ground, plan) : DrawHall(plan);
        if (!options.IsInset) PlanAnnotations.Draw(plan);
        return svg.Finish(key);
    }

    /// <summary>Draws what stands and hangs in the hall, and names it.</summary>
    /// <returns>Numbers and ids of rows that are lettered with numbers.</returns>
    internal static HtmlFragment DrawHall(PlanDrawing plan)
    {
        var frames = new PlanFrames(plan);
        frames.TakeRoom();
        PlanOutline.Draw(plan);
        PlanTrays.Draw(plan);
        PlanOutline.DrawTakeLine(plan);
        PlanTrays.DrawRoute(plan);
        PlanStretches.Draw(plan);
        frames.Draw();
        frames.DrawRowNames();
        PlanOutline.DrawNames(plan);
        PlanStretches.DrawCounts(plan);
        PlanTrays.DrawNames(plan);
        return frames.Key();
    }

    // A small plan: what its page is about, over the picture of the hall.
    private static HtmlFragment DrawOn(string ground, PlanDrawing plan)
    {
        var frames = new PlanFrames(plan);
        plan.Svg.Image(ground, plan.Sheet.Size);
        if (plan.Layout.Trays.Any(tray => tray.Id == plan.Options.Marked)) PlanTrays.Draw(plan);
        PlanTrays.DrawRoute(plan);
        frames.DrawMarked();
        return frames.Key();
    }

    private static string Title(HallLayout layout, FloorPlanOptions options) =>
        options.Marked is { } marked ? $"Floor plan of {layout.Hall.Title} with {marked} marked"
        : options.Layer is { } layer ? $"Floor plan of {layout.Hall.Title}: {layer.Title}"
        : $"Floor plan of {layout.Hall.Title}";

    private static string Description(HallLayout layout, FloorPlanOptions options)
    {
        if (options.IsInset) return options.Says.Length > 0 ? options.Says : "North is up.";
        var units = new UnitFormatter(options.Units);
        var says = new List<string>();
        if (layout.Hall.Outline is { } outline && Footprint.Around(outline.Points) is { } extent)
        {
            says.Add($"{units.Format(Length.FromMillimeters(extent.Across))} from west to east, {units.Format(Length.FromMillimeters(extent.Down))} from north to south; north is up.");
        }

        says.AddRange(layout.PlacedFrames.Length <= MostNamed
            ? layout.Rows
                .Where(row => row.Frames.Length > 0)
                .Select(row => $"{Phrase.NameOf(row.Row)}: {string.Join(", ", row.Frames.Select(placed => placed.Frame.Id))}.")
            : [$"{Phrase.Count(layout.PlacedFrames.Length, "frame")} in {Phrase.Count(layout.Rows.Length, "row")}."]);
        if (layout.Trays.Length is > 0 and <= MostNamed) says.Add($"Trays: {string.Join(", ", layout.Trays.Select(tray => tray.Id))}.");
        if (options.Says.Length > 0) says.Add(options.Says);
        return string.Join(' ', says);
    }
}

/// <summary>A plan being drawn: what is drawn, on which sheet, with which pen.</summary>
internal sealed record PlanDrawing(HallLayout Layout, FloorPlanOptions Options, PlanSheet Sheet, SvgWriter Svg)
{
    internal PlanScale Scale => Sheet.Scale;

    internal PaperPoint On(PlanPoint point) => Scale.ToPaper(point);

    /// <summary>Draws texts of one lettering as a group that is shown where that lettering can be read.</summary>
    internal void Letter(PlanTextSize lettering, IEnumerable<PlacedText?> texts, string classes = "")
    {
        using var group = Svg.Group($"{lettering.Class} {classes}".Trim());
        foreach (var text in texts)
        {
            if (text is { } set) Svg.Text(set);
        }
    }
}
