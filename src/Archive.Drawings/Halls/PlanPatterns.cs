using Archive.Drawings.Svg;
using Archive.Markup.Text;

namespace Archive.Drawings.Halls;

/// <summary>Fills boxes with patterns, on plans and in the keys beside them.</summary>
public static class PlanPatterns
{
    private const double Pitch = 5;
    private const double ClosePitch = 2.5;

    // The sample of a key, in units.
    private static readonly PaperBox _sample = new(1, 1, 30, 18);

    /// <summary>A sample of a pattern for a key beside a drawing.</summary>
    public static HtmlFragment Sample(PlanPattern pattern)
    {
        var svg = new SvgWriter(new SheetSize(32, 20), "swatch", "pattern", "What frames of this sort are filled with.", hasLinks: false);
        svg.Rectangle(_sample, "box");
        Fill(svg, _sample, pattern);
        return svg.Finish();
    }

    internal static void Fill(SvgWriter svg, PaperBox box, PlanPattern pattern)
    {
        if (pattern is PlanPattern.Grey or PlanPattern.Close) svg.Rectangle(box, "grey");
        svg.Path(LinesOf(box, pattern), "fine");
    }

    private static SvgPath LinesOf(PaperBox box, PlanPattern pattern)
    {
        var path = new SvgPath();
        if (pattern is PlanPattern.Rising or PlanPattern.Crossed) Slanting(path, box, Pitch, isRising: true);
        if (pattern is PlanPattern.Falling or PlanPattern.Crossed) Slanting(path, box, Pitch, isRising: false);
        if (pattern is PlanPattern.Close) Slanting(path, box, ClosePitch, isRising: true);
        if (pattern is PlanPattern.Level)
            for (var y = box.Y + Pitch; y < box.Bottom; y += Pitch) path.Line(new(box.X, y), new(box.Right, y));
        if (pattern is PlanPattern.Upright)
            for (var x = box.X + Pitch; x < box.Right; x += Pitch) path.Line(new(x, box.Y), new(x, box.Bottom));
        return path;
    }

    // Lines at 45 degrees, cut off at the edges of the box.
    private static void Slanting(SvgPath path, PaperBox box, double pitch, bool isRising)
    {
        var step = pitch * Math.Sqrt(2);
        for (var along = step; along < box.Width + box.Height; along += step)
        {
            PaperPoint low = new(Math.Max(0, along - box.Height), Math.Min(along, box.Height));
            PaperPoint high = new(Math.Min(along, box.Width), Math.Max(0, along - box.Width));
            path.Line(On(low), On(high));
        }

        PaperPoint On(PaperPoint at) => new(box.X + at.X, isRising ? box.Y + at.Y : box.Bottom - at.Y);
    }
}
