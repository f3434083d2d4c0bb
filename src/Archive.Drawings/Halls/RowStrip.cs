using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Drawings.Halls;

/// <summary>A piece of a row as it is seen from its fronts: a frame between its neighbours, each a link.</summary>
public static class RowStrip
{
    private const double Width = 340;
    private const double MostHeight = 118;
    private const double Margin = 12;
    private const double LineOfIds = 16;
    private const int Neighbours = 3;

    /// <summary>Draws a frame between up to three neighbours on each side, in the order in which one who faces the row sees them.</summary>
    /// <param name="placement">Where the frame stands.</param>
    /// <param name="href">Address of a frame's page.</param>
    /// <returns>Inline SVG in a box of class <c>drawing strip</c>.</returns>
    public static HtmlFragment Draw(FramePlacement placement, Func<Frame, string> href)
    {
        var row = placement.Row.Frames;
        var first = Math.Max(0, placement.Placed.Index - Neighbours);
        var last = Math.Min(row.Length - 1, placement.Placed.Index + Neighbours);
        var shown = row[first..(last + 1)];
        var isSeenInOrder = RowView.IsSeenInOrder(placement.Row.Row);
        var (from, to) = (RowView.Ends(shown[0]).Near, RowView.Ends(shown[^1]).Far);
        var tallest = shown.Max(RowView.Height);
        var scale = Math.Min((Width - (2 * Margin)) / Math.Max(to - from, 1), MostHeight / tallest);
        var floor = Margin + (tallest * scale);
        var left = (Width - ((to - from) * scale)) / 2;

        var seen = (isSeenInOrder ? shown : shown.Reverse()).Select(placed => placed.Frame.Id);
        var svg = new SvgWriter(
            new SheetSize(Width, floor + LineOfIds + 6),
            "strip",
            $"{placement.Placed.Frame.Id} in {Phrase.Row(placement.Row.Row.Id.Value)}",
            $"Seen from the front, from left to right: {string.Join(", ", seen)}.",
            hasLinks: true);
        foreach (var placed in shown)
        {
            var (near, far) = RowView.Ends(placed);
            var x = left + ((isSeenInOrder ? near - from : to - far) * scale);
            Draw(
                svg,
                placed,
                placement,
                new PaperBox(x, floor - (RowView.Height(placed) * scale), (far - near) * scale, RowView.Height(placed) * scale),
                href);
        }

        svg.Line(new(Margin / 2, floor), new(Width - (Margin / 2), floor), "heavy");
        More(svg, isSeenInOrder ? first > 0 : last < row.Length - 1, new(left - 5, floor - 4));
        More(svg, isSeenInOrder ? last < row.Length - 1 : first > 0, new(left + ((to - from) * scale) + 5, floor - 4));
        return svg.Finish();
    }

    private static void Draw(SvgWriter svg, PlacedFrame placed, FramePlacement placement, PaperBox box, Func<Frame, string> href)
    {
        var frame = placed.Frame;
        using var link = svg.Link(
            href(frame),
            frame.Name is { } name ? $"{frame.Id}, {name.Value}" : frame.Id,
            frame.Id == placement.Placed.Frame.Id ? "marked" : null);
        svg.Rectangle(box.Snapped(), placed.IsSized ? "box" : "box dashed");
        var shelves = new SvgPath();
        var perMillimetre = box.Height / RowView.Height(placed);
        foreach (var position in frame.Positions)
        {
            if (position is not { FromFloor: { } from, Height: { } height }) continue;
            var bottom = from.Value.Millimeters * perMillimetre;
            var top = Math.Min(bottom + (height.Value.Millimeters * perMillimetre), box.Height);
            if (top <= bottom) continue;
            shelves.Box(new PaperBox(box.X + (box.Width * 0.1), box.Bottom - top, box.Width * 0.8, top - bottom).Snapped());
        }

        svg.Path(shelves, "fine faint");
        var head = IdSuffixes.Head([.. placement.Row.Frames.Select(other => other.Frame.Id)]);
        var says = new[]
        {
            frame.Id,
            frame.Id[head.Length..]
        }.FirstOrDefault(text => TextMetrics.Width(text, TextMetrics.Usual) < box.Width);
        if (says is not null) svg.Text(PlacedText.Centred(says, new(box.Centre.X, box.Bottom + (LineOfIds / 2) + 2), TextMetrics.Usual));
    }

    private static void More(SvgWriter svg, bool hasMore, PaperPoint at)
    {
        if (hasMore) svg.Text(PlacedText.Centred("…", at, TextMetrics.Usual), "minor");
    }
}
