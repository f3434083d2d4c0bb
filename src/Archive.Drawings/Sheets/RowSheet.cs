using System.Collections.Immutable;
using Archive.Drawings.Frames;
using Archive.Drawings.Halls;
using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;

namespace Archive.Drawings.Sheets;

/// <summary>A row of frames from its fronts at a true scale: each frame with its positions.</summary>
public static class RowSheet
{
    private const double NameSize = 13, PositionSize = 10, Leading = 1.15;

    // Room above the frames for their names, in millimetres of the hall, and the most that a row may have of frames.
    private const double Above = 400;

    /// <summary>The scale that a row is drawn at, one to how many; null for a row without frames, or one that fits at none.</summary>
    public static int? ScaleOf(RowLayout row, PaperFormat paper) => Extent(row) is { } extent ? WallSheet.ScaleFor(paper, extent) : null;

    /// <summary>Draws the sheet.</summary>
    /// <param name="href">Address of a frame's page.</param>
    /// <returns>Inline SVG in a box of class <c>drawing wall-sheet</c>; none where it fits at no scale.</returns>
    public static HtmlFragment Draw(RowLayout row, PaperFormat paper, WallSheetText text, DisplayUnits units, Func<Frame, string> href)
    {
        if (Extent(row) is not { } extent || WallSheet.Create(paper, extent) is not { } wall) return HtmlFragment.None;
        var isInOrder = RowView.IsSeenInOrder(row.Row);
        var seen = isInOrder ? row.Frames : [.. row.Frames.Reverse()];
        var svg = new SvgWriter(
            wall.Size,
            "wall-sheet",
            $"{text.Hall}: {text.Title}, 1:{wall.Scale}",
            $"{Phrase.NameOf(row.Row)} from the front, from left to right: {string.Join(", ", seen.Select(placed => placed.Frame.Id))}.",
            hasLinks: true);
        wall.DrawAround(svg, text, units, isPlan: false);
        var origin = Origin(row, isInOrder);
        foreach (var placed in seen)
        {
            var (near, far) = RowView.Ends(placed);
            var left = isInOrder ? near - origin : origin - far;
            var at = wall.Drawn.ToPaper(new PlanPoint(left, -RowView.Height(placed)));
            var face = new PaperBox(
                at.X, at.Y, (far - near) * wall.Drawn.PerMillimetre, RowView.Height(placed) * wall.Drawn.PerMillimetre);
            Draw(svg, placed, face, wall.Drawn.PerMillimetre, href);
        }

        var floor = wall.Drawn.ToPaper(extent);
        svg.Line(new(floor.X - 10, floor.Bottom), new(floor.Right + 10, floor.Bottom), "heavy");
        var (x, y, _) = wall.KeyLine;
        svg.Text(new PlacedText(
            $"Seen from the {Phrase.For(row.Row.Faces.Value)}. Dashed: height or width not recorded.", new(x, y + 4), NameSize));
        return svg.Finish();
    }

    // From the left end of the row to the right, and from above its frames down to the floor, which is 0.
    private static Footprint? Extent(RowLayout row)
    {
        if (row.Frames.IsEmpty) return null;
        var ends = row.Frames.Select(RowView.Ends).ToList();
        var width = ends.Max(end => end.Far) - ends.Min(end => end.Near);
        return new Footprint(0, -row.Frames.Max(RowView.Height) - Above, width, 0);
    }

    private static double Origin(RowLayout row, bool isInOrder) =>
        isInOrder ? row.Frames.Min(placed => RowView.Ends(placed).Near) : row.Frames.Max(placed => RowView.Ends(placed).Far);

    private static void Draw(SvgWriter svg, PlacedFrame placed, PaperBox face, double perMillimetre, Func<Frame, string> href)
    {
        var frame = placed.Frame;
        using (svg.Link(href(frame), frame.Name is { } name ? $"{frame.Id}, {name.Value}" : frame.Id))
        {
            svg.Rectangle(face, placed.IsSized ? "box" : "box dashed");
            svg.Text(PlacedText.Centred(
                TextMetrics.Cut(frame.Id, NameSize, face.Width), new(face.Centre.X, face.Y - (NameSize * 3)), NameSize), "name");
            var at = face.Y - (NameSize * 1.75);
            foreach (var line in TextMetrics.Lines(frame.Name?.Value ?? "", PositionSize, face.Width - 4, 2))
            {
                svg.Text(PlacedText.Centred(line, new(face.Centre.X, at), PositionSize));
                at += PositionSize * Leading;
            }
        }

        var shelves = frame.Positions
            .Where(position => position is { FromFloor: not null, Height.Value.Millimeters: > 0 })
            .ToImmutableArray();
        foreach (var (position, box) in ElevationLanes.Arrange(shelves, face, perMillimetre)) Draw(svg, position, box);
    }

    // What it holds on as many lines as the shelf has room for.
    private static void Draw(SvgWriter svg, Position position, PaperBox box)
    {
        svg.Rectangle(box, "fine");
        var at = box.Y + PositionSize + 2.5;
        foreach (var line in TextMetrics.Lines(
            PositionDrawing.Name(position), PositionSize, box.Width - 6, (int)((box.Height - 3) / (PositionSize * Leading))))
        {
            svg.Text(new PlacedText(line, new(box.X + 3, at), PositionSize));
            at += PositionSize * Leading;
        }
    }
}
