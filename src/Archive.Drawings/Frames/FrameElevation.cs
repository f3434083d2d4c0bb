using System.Collections.Immutable;
using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Drawings.Frames;

/// <summary>What a frame's elevation shows, and where its parts lead.</summary>
public sealed record FrameElevationOptions
{
    /// <summary>Address of a position, such as its anchor on the frame's page.</summary>
    public required Func<Position, string> Href { get; init; }

    /// <summary>What is in each slot of a position, in their order; none where that is not drawn.</summary>
    public Func<Position, ImmutableArray<SlotContent>> Slots { get; init; } = _ => [];

    /// <summary>Units of the scale and of the size below.</summary>
    public DisplayUnits Units { get; init; }

    /// <summary>Id of the position that the page is about, or null.</summary>
    public string? Marked { get; init; }
}

/// <summary>What is in a slot.</summary>
public enum SlotContent
{
    /// <summary>It was found empty.</summary>
    Empty,

    /// <summary>A unit is in it.</summary>
    In,

    /// <summary>The unit that was found in it is out.</summary>
    Out,
}

/// <summary>The front of a frame, drawn from its positions: where each stands, how high it is, and what it holds.</summary>
public static class FrameElevation
{
    private const double Width = 340;
    private const double Least = 200;
    private const double MostFace = 206;
    private const double MostHeight = 600;
    private const double LeftMargin = 38;
    private const double TopMargin = 14;
    private const double BelowFloor = 34;
    private const double LineOfList = 17;

    // Where no position has to be named beside the frame, the scale alone is there.
    private const double RightMargin = 38;
    private const int MostNamed = 60;

    /// <summary>Draws a frame's front.</summary>
    /// <param name="options">What the drawing shows.</param>
    /// <returns>Inline SVG in a box of class <c>drawing elevation</c>; nothing for a frame without size and positions.</returns>
    public static HtmlFragment Draw(Frame frame, FrameElevationOptions options)
    {
        if (frame.Size is null && frame.Positions.Length == 0) return HtmlFragment.None;
        var (width, height) = Face(frame);
        if (!(width > 0 && height > 0)) return HtmlFragment.None;
        var placed = frame.Positions.Where(IsPlaced).ToImmutableArray();
        var unplaced = frame.Positions.Where(position => !IsPlaced(position)).ToImmutableArray();
        var scale = Math.Min(MostFace / width, MostHeight / height);
        var face = new PaperBox(LeftMargin, TopMargin, width * scale, height * scale);
        var listTop = face.Bottom + BelowFloor;
        var lanes = ElevationLanes.Arrange(placed, face, scale).ToList();
        var sheet = new SheetSize(
            lanes.Any(lane => PositionDrawing.IsNamedBeside(lane.Box)) ? Width : Math.Max(face.Right + RightMargin, Least),
            listTop + (unplaced.Length == 0 ? 0 : LineOfList * (unplaced.Length + 1)));
        var svg = new SvgWriter(sheet, "elevation", $"Front of {frame.Id}", Description(frame, options), hasLinks: true);
        var elevation = new ElevationDrawing(options, svg, new LabelPlacement(sheet), face, scale);

        ElevationScale.Draw(elevation);
        svg.Rectangle(face, frame.Size is null ? "heavy dashed" : "heavy");
        foreach (var (position, box) in lanes) PositionDrawing.Draw(elevation, position, box);
        Floor(elevation, frame, sheet);
        List(elevation, unplaced, listTop);
        return svg.Finish();
    }

    /// <summary>Whether it is known where a position stands.</summary>
    private static bool IsPlaced(Position position) => position is { FromFloor: not null, Height.Value.Millimeters: > 0 };

    // Where the size is not recorded, high enough for all positions and a common cabinet's width.
    private static (double Width, double Height) Face(Frame frame)
    {
        var top = frame.Positions
            .Where(IsPlaced)
            .Select(position => position.FromFloor!.Value.Value + position.Height!.Value.Value)
            .DefaultIfEmpty()
            .Max().Millimeters;
        return frame.Size is { Value: var size }
            ? (size.Width.Millimeters, Math.Max(size.Height.Millimeters, Math.Min(top, size.Height.Millimeters * 2)))
            : (PlacedFrame.DrawnSize, top > 0 ? top + 100 : 2000);
    }

    private static void Floor(ElevationDrawing elevation, Frame frame, SheetSize sheet)
    {
        var (svg, face) = (elevation.Svg, elevation.Face);
        var floor = new SvgPath();
        for (var x = face.X - 8; x < face.Right + 2; x += 7) floor.Line(new(x, face.Bottom + 5), new(x + 5, face.Bottom));
        svg.Path(floor, "fine");
        svg.Line(new(face.X - 7, face.Bottom), new(face.Right + 4, face.Bottom), "heavy");
        var says = frame.Size is { } size ? new UnitFormatter(elevation.Options.Units).Format(size.Value) : "size not recorded";
        var text = PlacedText.Centred(says, new(face.Centre.X, face.Bottom + 19), TextMetrics.Usual);
        if (text.Box.X < 2) text = new PlacedText(says, new(2, text.Baseline.Y), TextMetrics.Usual);
        svg.Text(text with { Text = TextMetrics.Cut(says, TextMetrics.Usual, sheet.Width - 4) });
    }

    // What has no height is listed, so that nothing that was recorded is missing from the drawing.
    private static void List(ElevationDrawing elevation, ImmutableArray<Position> unplaced, double top)
    {
        if (unplaced.Length == 0) return;
        elevation.Svg.Text(new PlacedText("height not recorded", new(LeftMargin, top + 10), TextMetrics.Usual), "minor");
        for (var i = 0; i < unplaced.Length; i++)
        {
            PositionDrawing.Draw(
                elevation, unplaced[i], new PaperBox(LeftMargin, top + (LineOfList * (i + 1)), elevation.Face.Width, LineOfList - 3));
        }
    }

    private static string Description(Frame frame, FrameElevationOptions options)
    {
        if (frame.Positions.Length > MostNamed) return $"{frame.Positions.Length} positions.";
        var units = new UnitFormatter(options.Units);
        var fromTop = frame.Positions.OrderByDescending(position => position.FromFloor?.Value ?? Length.FromMeters(-1)).Select(position =>
        {
            var at = position.FromFloor is { } from ? $" at {units.Format(from.Value)} above the floor" : string.Empty;
            return $"{PositionDrawing.Name(position)}{at}{PositionDrawing.Describe(options.Slots(position))}";
        });
        return frame.Positions.Length == 0 ? "No positions are recorded." : $"From the top: {string.Join("; ", fromTop)}.";
    }
}

/// <summary>An elevation being drawn.</summary>
/// <param name="Options">What it shows.</param>
/// <param name="Svg">The pen.</param>
/// <param name="Space">Room for labels beside the frame.</param>
/// <param name="Face">The frame's front on the sheet.</param>
/// <param name="PerMillimetre">Units a millimetre.</param>
internal sealed record ElevationDrawing(
    FrameElevationOptions Options, SvgWriter Svg, LabelPlacement Space, PaperBox Face, double PerMillimetre)
{
    /// <summary>Where a height above the floor lies on the sheet.</summary>
    internal double Level(double millimetres) => Face.Bottom - (millimetres * PerMillimetre);
}
