using System.Collections.Immutable;
using System.Globalization;
using Archive.Drawings.Halls;
using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Drawings.Sheets;

/// <summary>What a wall sheet is called.</summary>
/// <param name="Archive">The archive's title.</param>
/// <param name="Custodian">Who keeps it; empty where that is not said.</param>
/// <param name="Hall">The hall.</param>
/// <param name="Title">What the sheet shows, such as “Trays at 2.45 m”.</param>
/// <param name="Number">Which sheet of how many.</param>
public sealed record WallSheetText(string Archive, string Custodian, string Hall, string Title, string Number);

/// <summary>
/// A sheet at a true scale: a unit is a CSS pixel, which is 25.4 / 96 mm on paper (CSS Values and Units, 5.2), so that what is drawn is as
/// large as it says if it is printed at 100 %.
/// </summary>
internal sealed class WallSheet
{
    /// <summary>Units of a millimetre of paper.</summary>
    internal const double Unit = 96 / 25.4;

    /// <summary>Scales that are drawn at, the largest first (ISO 5455, and 1:25 is left out: nobody has a rule for it at hand).</summary>
    private static readonly ImmutableArray<int> _scales = [20, 50, 100, 200, 500];

    // In millimetres of paper: the border (ISO 5457: 10 mm), figures of the grid, and the strip of the title block.
    private const double Border = 10, Figures = 9, Strip = 38, BlockWidth = 180, Pad = 3;
    private const double TextSize = 13, TitleSize = 18, SmallSize = 9.5;
    private const double MostGridLines = 200;

    private WallSheet(PaperFormat paper, int scale, Footprint extent)
    {
        Paper = paper;
        Scale = scale;
        Extent = extent;
        var perMillimetre = Unit / scale;
        var area = Area(paper);
        var (width, height) = (extent.Across / scale, extent.Down / scale);
        Drawn = new PlanScale(
            extent.West,
            extent.North,
            Unit * (area.X + ((area.Width - width) / 2)),
            Unit * (area.Y + ((area.Height - height) / 2)),
            perMillimetre);
    }

    internal PaperFormat Paper { get; }

    /// <summary>One to how many.</summary>
    internal int Scale { get; }

    /// <summary>What is drawn, in millimetres of the hall.</summary>
    internal Footprint Extent { get; }

    /// <summary>How it lies on the sheet.</summary>
    internal PlanScale Drawn { get; }

    internal SheetSize Size => new(Paper.Width * Unit, Paper.Height * Unit);

    /// <summary>A sheet on which something is drawn as large as it can be; null where it fits at no scale.</summary>
    internal static WallSheet? Create(PaperFormat paper, Footprint extent) =>
        ScaleFor(paper, extent) is { } scale ? new WallSheet(paper, scale, extent) : null;

    /// <summary>The largest scale at which something fits; null where there is none.</summary>
    internal static int? ScaleFor(PaperFormat paper, Footprint extent)
    {
        var area = Area(paper);
        return _scales.Where(scale => extent.Across / scale <= area.Width && extent.Down / scale <= area.Height)
            .Select(scale => (int?)scale)
            .FirstOrDefault();
    }

    /// <summary>Draws border, grid, title block, scale and, where wanted, north.</summary>
    /// <param name="isPlan">Whether it is seen from above, north up; else from a side, and heights are counted from the floor.</param>
    internal void DrawAround(SvgWriter svg, WallSheetText text, DisplayUnits units, bool isPlan)
    {
        Grid(svg, units, isPlan);
        using var group = svg.Group("furniture");
        var border = OnPaper(Border, Border, Paper.Width - (2 * Border), Paper.Height - (2 * Border));
        svg.Rectangle(border, "heavy");
        var strip = OnPaper(Border, Paper.Height - Border - Strip, Paper.Width - (2 * Border), Strip);
        svg.Line(new(strip.X, strip.Y), new(strip.Right, strip.Y), "medium");
        TitleBlock(svg, text);
        ScaleBar.Draw(
            svg,
            new PaperPoint(strip.X + (Pad * Unit), strip.Y + (22 * Unit)),
            Drawn.PerMillimetre,
            Math.Min(100, Paper.Width - BlockWidth - (2 * Border) - 40) * Unit,
            units,
            TextSize);
        if (!isPlan) return;
        var foot = new PaperPoint(OnPaper(Paper.Width - Border - BlockWidth - 12, 0, 0, 0).X, strip.Bottom - (6 * Unit));
        PlanAnnotations.Arrow(svg, foot);
        svg.Text(new PlacedText("N", foot.Moved(-6, -12), TextSize, TextAnchor.End));
    }

    /// <summary>Where the key of signs stands.</summary>
    internal (double X, double Y, double Right) KeyLine => (
        (Border + Pad) * Unit, (Paper.Height - Border - Strip + 10) * Unit, (Paper.Width - Border - BlockWidth - 4) * Unit);

    private static PaperBox Area(PaperFormat paper) => new(
        Border + Figures,
        Border + Figures,
        paper.Width - (2 * (Border + Figures)),
        paper.Height - (2 * (Border + Figures)) - Strip);

    private static PaperBox OnPaper(double x, double y, double width, double height) =>
        new(x * Unit, y * Unit, width * Unit, height * Unit);

    // Three lines: archive and number; title and scale; hall, custodian and date, which the page writes into the last box.
    private void TitleBlock(SvgWriter svg, WallSheetText text)
    {
        var block = OnPaper(Paper.Width - Border - BlockWidth, Paper.Height - Border - Strip, BlockWidth, Strip);
        var (third, side) = (block.Height / 3, block.X + (120 * Unit));
        svg.Rectangle(block, "medium");
        svg.Line(new(side, block.Y), new(side, block.Bottom), "fine");
        for (var i = 1; i < 3; i++) svg.Line(new(block.X, block.Y + (i * third)), new(block.Right, block.Y + (i * third)), "fine");
        var left = block.X + (Pad * Unit);
        Line(svg, text.Archive, left, side, block.Y + (third * 0.62), TextSize);
        Line(svg, text.Title, left, side, block.Y + (third * 1.66), TitleSize);
        Line(
            svg,
            text.Custodian.Length > 0 ? $"{text.Hall}. {text.Custodian}" : text.Hall,
            left,
            side,
            block.Y + (third * 2.62),
            TextSize);
        var right = side + (Pad * Unit);
        Line(svg, $"Drawing {text.Number}", right, block.Right, block.Y + (third * 0.62), TextSize);
        var scale = $"1:{Scale.ToString(CultureInfo.InvariantCulture)} on {Paper.Name}";
        Line(svg, scale, right, block.Right, block.Y + (third * 1.66), TitleSize);
        Line(svg, "Date", right, block.Right, block.Y + (third * 2.4), SmallSize);
    }

    private static void Line(SvgWriter svg, string text, double x, double right, double y, double size) =>
        svg.Text(new PlacedText(TextMetrics.Cut(text, size, right - x - (Pad * Unit)), new(x, y), size));

    // A line a metre, or five feet, from the hall's own corner; in an elevation, from the floor and from its left end.
    private void Grid(SvgWriter svg, DisplayUnits units, bool isPlan)
    {
        var isFeet = units == DisplayUnits.InchPound;
        var (step, count) = isFeet ? (5 * 304.8, 5) : (1000d, 1);
        while (Math.Max(Extent.Across, Extent.Down) / step > MostGridLines) (step, count) = (step * 10, count * 10);
        var unit = isFeet ? " ft" : " m";
        var box = Drawn.ToPaper(Extent);
        var lines = new SvgPath();
        var figures = new List<PlacedText>();
        for (var i = Math.Ceiling(Extent.West / step); i * step <= Extent.East + 0.5; i++)
        {
            var x = Drawn.ToPaper(new PlanPoint(i * step, Extent.North)).X;
            lines.Line(new(x, box.Y - (2 * Unit)), new(x, box.Bottom + (2 * Unit)));
            figures.Add(PlacedText.Centred(Says(i), new(x, box.Y - (4.5 * Unit)), SmallSize));
        }

        for (var i = Math.Ceiling(Extent.North / step); i * step <= Extent.South + 0.5; i++)
        {
            var y = Drawn.ToPaper(new PlanPoint(Extent.West, i * step)).Y;
            lines.Line(new(box.X - (2 * Unit), y), new(box.Right + (2 * Unit), y));
            figures.Add(new PlacedText(Says(isPlan ? i : -i), new(box.X - (3 * Unit), y + (SmallSize * 0.27)), SmallSize, TextAnchor.End));
        }

        using var group = svg.Group("grid");
        svg.Path(lines, "hair");
        foreach (var figure in figures) svg.Text(figure);

        string Says(double i) => ((i * count) + 0d).ToString("0", CultureInfo.InvariantCulture) + unit;
    }
}
