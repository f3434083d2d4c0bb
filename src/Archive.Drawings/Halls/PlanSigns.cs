using Archive.Drawings.Svg;
using Archive.Records.Model;

namespace Archive.Drawings.Halls;

/// <summary>The signs for how far frames have come.</summary>
internal static class PlanSigns
{
    /// <summary>Those that a key explains, with their words.</summary>
    public static IEnumerable<(FrameSign Sign, string Says)> InKey =>
        [
                (FrameSign.Planned, "planned, not here yet"),
                (FrameSign.Arrived, "arrived, not in place"),
                (FrameSign.Connected, "some cables connected"),
                (FrameSign.NotOurs, "not ours, do not touch")
            ];

    /// <summary>What is read out behind a frame's name; nothing for one that simply stands.</summary>
    public static string Words(FrameSign sign) => InKey.FirstOrDefault(each => each.Sign == sign) is { Says: { } says } ? $", {says}" : "";

    /// <summary>An arrow around a point.</summary>
    public static SvgPath Arrow(PaperPoint at, Compass to)
    {
        const double Half = 3.5;
        var (x, y) = to switch { Compass.East => (1, 0), Compass.West => (-1, 0), Compass.South => (0, 1), _ => (0, -1) };
        return new SvgPath().Figure(
            [
                at.Moved(Half * x, Half * y),
                at.Moved((-Half * x) - (Half * y), (-Half * y) + (Half * x)),
                at.Moved((-Half * x) + (Half * y), (-Half * y) - (Half * x)),
            ],
            closed: true);
    }

    /// <summary>Draws a frame's box.</summary>
    /// <param name="isSized">Whether its size is recorded.</param>
    public static void Draw(SvgWriter svg, PaperBox box, FrameSign sign, bool isSized)
    {
        svg.Rectangle(box, (sign == FrameSign.Planned ? "box planned" : "box") + (isSized ? "" : " dashed"));
        if (sign == FrameSign.NotOurs) svg.Line(new(box.X, box.Y), new(box.Right, box.Bottom), "medium");
        if (sign is FrameSign.Arrived or FrameSign.NotOurs) svg.Line(new(box.X, box.Bottom), new(box.Right, box.Y), "medium");
        if (sign != FrameSign.Connected) return;
        var side = Math.Min(box.Width, box.Height) * 0.3;
        svg.Rectangle(new PaperBox(box.X, box.Y, side, side), "solid");
    }
}
