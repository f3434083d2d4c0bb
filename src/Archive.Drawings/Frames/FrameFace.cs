using System.Collections.Immutable;
using Archive.Drawings.Svg;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Wiring.Ports;

namespace Archive.Drawings.Frames;

/// <summary>A port as it is drawn.</summary>
/// <param name="Far">Where its cable goes; empty for a free port.</param>
/// <param name="FarFrame">The same, of less detail, where there is little room.</param>
/// <param name="Href">Where its cable is listed; null for a free port.</param>
public sealed record FacePort(string Name, PortState State, string Far, string FarFrame, string? Href);

/// <summary>A slot of a position as it is drawn.</summary>
/// <param name="Unit">The unit that was in it; empty for an empty slot.</param>
/// <param name="Href">The unit's page; null for an empty slot.</param>
public sealed record FaceSlot(string Name, string Unit, string? Href);

/// <summary>What a face shows, and where its parts lead.</summary>
public sealed record FrameFaceOptions
{
    /// <summary>Whether it is seen from behind: what was at the left is at the right.</summary>
    public required bool IsRear { get; init; }

    /// <summary>Address of a position, such as its anchor on the frame's page.</summary>
    public required Func<Position, string> Href { get; init; }

    /// <summary>The ports of a position, from the left as seen from the front.</summary>
    public required Func<Position, ImmutableArray<FacePort>> Ports { get; init; }

    /// <summary>The slots of a position, from the left as seen from the front.</summary>
    public required Func<Position, ImmutableArray<FaceSlot>> Slots { get; init; }

    /// <summary>Units of the scale.</summary>
    public DisplayUnits Units { get; init; }
}

/// <summary>
/// A frame's front or rear as large as a page allows: names in full, units in their slots, and each port with its state and its far end.
/// </summary>
public static class FrameFace
{
    private const double Width = 500;
    private const double FaceWidth = 424;
    private const double MostHeight = 1500;
    private const double LeftMargin = 38;
    private const double TopMargin = 14;
    private const double BelowFloor = 10;

    /// <summary>Draws a face.</summary>
    /// <returns>Inline SVG in a box of class <c>drawing elevation face</c>; nothing where the frame's size or the heights of all its
    /// positions are not recorded: the small elevation lists those.</returns>
    public static HtmlFragment Draw(Frame frame, FrameFaceOptions options)
    {
        var placed = frame.Positions
            .Where(position => position is { FromFloor: not null, Height.Value.Millimeters: > 0 })
            .ToImmutableArray();
        if (frame.Size is not { Value: var size } || placed.Length == 0) return HtmlFragment.None;
        var (width, height) = (size.Width.Millimeters, size.Height.Millimeters);
        if (!(width > 0 && height > 0)) return HtmlFragment.None;
        var scale = Math.Min(FaceWidth / width, MostHeight / height);
        var face = new PaperBox(LeftMargin, TopMargin, width * scale, height * scale);
        var sheet = new SheetSize(Width, face.Bottom + BelowFloor);
        var side = options.IsRear ? "Rear" : "Front";
        var svg = new SvgWriter(
            sheet,
            "elevation face",
            $"{side} of {frame.Id}",
            $"{placed.Length} positions with their ports; the tables below name them all.",
            hasLinks: true);
        var elevation = new ElevationDrawing(
            new FrameElevationOptions { Href = options.Href, Units = options.Units }, svg, new LabelPlacement(sheet), face, scale);
        ElevationScale.Draw(elevation);
        svg.Rectangle(face, "heavy");
        svg.Line(new(face.X - 7, face.Bottom), new(face.Right + 4, face.Bottom), "heavy");
        foreach (var (position, lane) in ElevationLanes.Arrange(placed, face, scale))
        {
            var box = options.IsRear ? lane with { X = face.X + face.Right - lane.Right } : lane;
            new ShelfDrawing(svg, box.Snapped(), options).Draw(position);
        }

        return svg.Finish();
    }
}
