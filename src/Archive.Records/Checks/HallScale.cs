using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>Whether a hall was drawn in millimetres.</summary>
public static class HallScale
{
    /// <summary>
    /// Whether an outline is so small that it must have been drawn in metres. That is reported once (AF1507), and not again of each frame
    /// that then seems to stand outside.
    /// </summary>
    public static bool IsInMetres(Outline outline)
    {
        var (width, depth) = Sides(outline);
        return Math.Max(width, depth) < FactLimits.HallSide.Least;
    }

    /// <summary>How far an outline reaches from west to east, and from north to south; millimetres.</summary>
    public static (double Width, double Depth) Sides(Outline outline) => (
        outline.Points.Max(point => point.X) - outline.Points.Min(point => point.X),
        outline.Points.Max(point => point.Y) - outline.Points.Min(point => point.Y));
}
