using System.Collections.Immutable;
using Archive.Drawings.Svg;
using Archive.Halls.Layout;

namespace Archive.Drawings.Halls;

/// <summary>
/// A size of lettering that a drawing is made in. A full plan carries two, and its style sheet shows the one that can be read.
/// </summary>
/// <param name="Class">Class of its texts; empty where it is the only one.</param>
/// <param name="Usual">Size in units.</param>
/// <param name="Least">Least size in units; what does not fit at it is left out.</param>
/// <param name="Space">The room that its texts share.</param>
internal sealed record PlanTextSize(string Class, double Usual, double Least, LabelPlacement Space)
{
    /// <summary>Sizes for what is named beside the frames, the better first.</summary>
    internal double[] Minor => Usual * 0.925 is var minor && minor > Least ? [minor, Least] : [Least];
}

/// <summary>The sheet that a hall is drawn on: its size, its scale, and the lettering that is set on it.</summary>
internal sealed class PlanSheet
{
    /// <summary>How thick walls are drawn, in units: the record knows only their inner line.</summary>
    internal const double WallThickness = 5;

    // A column of text is 720 px wide on paper (190 mm) and 328 px on a phone: what is 22 units there is 10 px, and 9 px
    // are the least that is read there.
    private const double FullWidth = 720;
    private const double InsetWidth = 340;
    private const double PhoneUsual = 22;
    private const double PhoneLeast = 21;

    // A small plan is 314 px wide on a phone, so that 10 units of its 340 are 9 px there.
    private const double InsetUsual = 10.5;
    private const double InsetLeast = 10;

    // 3.5 mm, a usual height of lettering on sheets that hang on a wall (ISO 3098-1).
    private const double WallUsual = 13;
    private const double WallLeast = 9;

    private PlanSheet(SheetSize size, PlanScale scale, double hallRight, ImmutableArray<PlanTextSize> letterings)
    {
        Size = size;
        Scale = scale;
        HallRight = hallRight;
        Letterings = letterings;
    }

    internal SheetSize Size { get; }

    internal PlanScale Scale { get; }

    /// <summary>Right edge of all that is drawn to scale.</summary>
    internal double HallRight { get; }

    internal ImmutableArray<PlanTextSize> Letterings { get; }

    /// <summary>Lays a hall on a sheet: as wide as the column, unless it would then be taller than a page.</summary>
    /// <returns>The sheet, or null where nothing of the hall has a place, or its numbers are past all measure.</returns>
    internal static PlanSheet? Create(HallLayout layout, FloorPlanOptions options)
    {
        if (Extent(layout) is not { } extent || extent.Across > 1e9 || extent.Down > 1e9) return null;
        var margin = options.IsInset ? new Margin(8, 8, 8, 8) : new Margin(44, 46, 30, 78);
        var (width, most) = options.IsInset ? (InsetWidth, 340.0) : (FullWidth, 900.0);
        var perMillimetre = Math.Min(
            (width - margin.Left - margin.Right) / Math.Max(extent.Across, 1),
            (most - margin.Top - margin.Bottom) / Math.Max(extent.Down, 1));
        var drawnWidth = extent.Across * perMillimetre;
        var size = new SheetSize(
            options.IsInset ? drawnWidth + margin.Left + margin.Right : Math.Max(drawnWidth + margin.Left + margin.Right, FullWidth / 2),
            (extent.Down * perMillimetre) + margin.Top + margin.Bottom);
        var left = (size.Width - drawnWidth + margin.Left - margin.Right) / 2;
        var letterings = options.IsInset
            ? ImmutableArray.Create(new PlanTextSize(string.Empty, InsetUsual, InsetLeast, new LabelPlacement(size)))
            : [
                new("wide", TextMetrics.Usual, TextMetrics.Least, new LabelPlacement(size)),
                new("narrow", PhoneUsual, PhoneLeast, new LabelPlacement(size))
            ];
        return new PlanSheet(
            size, new PlanScale(extent.West, extent.North, left, margin.Top, perMillimetre), left + drawnWidth, letterings);
    }

    /// <summary>A sheet of a size and a scale of its own, with one lettering.</summary>
    /// <param name="hallRight">Right edge of all that is drawn to scale.</param>
    internal static PlanSheet ToScale(SheetSize size, PlanScale scale, double hallRight) =>
        new(size, scale, hallRight, [new PlanTextSize(string.Empty, WallUsual, WallLeast, new LabelPlacement(size))]);

    /// <summary>Keeps all letterings clear of a box.</summary>
    internal void Take(PaperBox box)
    {
        foreach (var lettering in Letterings) lettering.Space.Take(box);
    }

    /// <summary>Marks a line that labels had better not lie on.</summary>
    internal void Avoid(PaperPoint from, PaperPoint to, object owner)
    {
        foreach (var lettering in Letterings) lettering.Space.Avoid(from, to, owner);
    }

    /// <summary>All that is drawn of a hall; null where nothing of it has a place.</summary>
    internal static Footprint? Extent(HallLayout layout)
    {
        var points = (layout.Hall.Outline?.Points ?? [])
            .Concat(layout.Trays.SelectMany(tray => tray.Path))
            .Concat(layout.Hall.Obstacles.SelectMany(obstacle => obstacle.Outline.Points))
            .Concat(layout.Hall.Take?.Points ?? [])
            .Concat(layout.PlacedFrames.SelectMany(placed => placed.Footprint.Corners));
        return Footprint.Around(points);
    }

    private readonly record struct Margin(double Left, double Top, double Right, double Bottom);
}
