using System.Collections.Immutable;
using Archive.Drawings.Svg;
using Archive.Records.Model;
using Archive.Wiring.Ports;

namespace Archive.Drawings.Frames;

/// <summary>A position on a large face: its name in full, units in its slots, and its ports with their state and far ends.</summary>
internal sealed class ShelfDrawing(SvgWriter svg, PaperBox box, FrameFaceOptions options)
{
    private const double Pad = 5;
    private const double NameSize = 12;
    private const double Line = 14.5;
    private const double PortSize = 9;
    private const double Mark = 6;
    private const double MarkRow = 13;
    private const double SlotRow = 16;

    /// <summary>Draws a position.</summary>
    public void Draw(Position position)
    {
        svg.Rectangle(box, "box");
        var ports = options.IsRear ? [.. options.Ports(position).Reverse()] : options.Ports(position);
        var slots = options.IsRear ? [] : options.Slots(position);
        var top = box.Y + Words(position);
        if (slots.Length > 0 && box.Bottom - top >= SlotRow + (ports.Length > 0 ? MarkRow : 0)) top = Slots(slots, top);
        if (ports.Length > 0 && box.Bottom - top >= MarkRow - 3) Ports(ports, top);
    }

    // The name, on as many lines as it takes and the shelf has room for; in a shelf that is too thin, smaller.
    private double Words(Position position)
    {
        var size = Math.Clamp(box.Height * 0.8, 8.6, NameSize);
        var id = position.Id.Value;
        var room = box.Width - (2 * Pad);
        using var link = svg.Link(options.Href(position), PositionDrawing.Name(position));
        var x = box.X + Pad;
        var y = box.Y + Math.Min((box.Height / 2) + (size * 0.36), size + 2);
        id = TextMetrics.Cut(id, size * 1.08, room);
        svg.Text(new PlacedText(id, new(x, y), size), "name");
        if (position.Holds is not { } holds) return Line + 2;
        x += TextMetrics.Width(id, size * 1.08) + Pad;
        var rest = holds.Value;
        var lines = 0;
        while (rest.Length > 0)
        {
            var isLast = y + Line > box.Bottom - 2;
            var width = box.Right - Pad - x;
            var (first, second) = isLast ? (TextMetrics.Cut(rest, size, width), "") : TextMetrics.Split(rest, size, width);
            if (first.Length > 0) svg.Text(new PlacedText(first, new(x, y), size));
            if (isLast) break;
            (rest, lines) = (second, lines + 1);
            y += Line;
        }

        return (Math.Max(lines, 1) * Line) + 3;
    }

    private double Slots(ImmutableArray<FaceSlot> slots, double top)
    {
        var pitch = (box.Width - (2 * Pad)) / slots.Length;
        var cells = new SvgPath();
        using (svg.Letters(PortSize, "minor"))
        {
            for (var i = 0; i < slots.Length; i++)
            {
                var cell = new PaperBox(box.X + Pad + (i * pitch), top, pitch, SlotRow - 3);
                cells.Box(cell);
                var (name, unit) = (slots[i].Name, slots[i].Unit);
                var text = new[] { $"{name} {unit}".TrimEnd(), unit.Length > 0 ? unit : name, name }
                    .FirstOrDefault(text => TextMetrics.Width(text, PortSize) <= pitch - 3);
                if (text is not null) Linked(slots[i].Href, text, new(cell.X + 2, cell.Bottom - 3));
            }
        }

        svg.Path(cells, "fine");
        return top + SlotRow;
    }

    // Ports stand along the lower edge: the mark of the state, the name beside it, the far end above; in narrow columns all of it upright.
    private void Ports(ImmutableArray<FacePort> ports, double top)
    {
        var pitch = (box.Width - (2 * Pad)) / ports.Length;
        var y = box.Bottom - 7;
        foreach (var state in ports.GroupBy(port => port.State))
        {
            var (path, bold) = (new SvgPath(), new SvgPath());
            for (var i = 0; i < ports.Length; i++)
            {
                if (ports[i].State == state.Key)
                    Sign(path, bold, state.Key, new(LeftOf(i, pitch) + 5, y), Math.Min(Mark, pitch * 0.7));
            }

            svg.Path(path, state.Key is PortState.Used or PortState.Disputed ? "fine solid" : "fine");
            svg.Path(bold, "medium");
        }

        if (pitch < PortSize + 1.5) return;
        var isUpright = ports.All(port => TextMetrics.Width(port.Name, PortSize) <= pitch - 13);
        using var letters = svg.Letters(PortSize, "port-names", isUpright);
        for (var i = 0; i < ports.Length; i++)
        {
            var left = LeftOf(i, pitch);
            if (isUpright) Beside(ports[i], left, pitch, top, y);
            else Above(ports[i], left, y - 7 - top, y);
        }
    }

    private double LeftOf(int port, double pitch) => PaperBox.Half(box.X + Pad + (pitch * port));

    private void Beside(FacePort port, double left, double pitch, double top, double y)
    {
        var far = y - 8 - PortSize < top - 2
            ? null
            : new[] { port.Far, port.FarFrame }.FirstOrDefault(far => far.Length > 0 && TextMetrics.Width(far, PortSize) <= pitch - 3);
        var name = new PaperPoint(left + 11, y + 3.2);
        if (port.Href is null || far is null)
        {
            Linked(port.Href, port.Name, name);
            return;
        }

        using var link = svg.TextLink(port.Href);
        svg.Small(port.Name, name);
        svg.Small(far, new(left + 2, y - 8));
    }

    private void Above(FacePort port, double left, double high, double y)
    {
        var text = new[] { $"{port.Name} {port.Far}".TrimEnd(), $"{port.Name} {port.FarFrame}".TrimEnd(), port.Name }
            .FirstOrDefault(text => TextMetrics.Width(text, PortSize) <= high);

        // Turned to the left by a quarter: what was up the sheet is along it.
        if (text is not null) Linked(port.Href, text, new(-(y - 6), left + 8));
    }

    private void Linked(string? href, string text, PaperPoint at)
    {
        if (href is null)
        {
            svg.Small(text, at);
            return;
        }

        using var link = svg.TextLink(href);
        svg.Small(text, at);
    }

    // Each state has a shape of its own: free an empty square, used a full one, from the label an empty one with a stroke, disputed a full
    // diamond, disconnected a cross.
    private static void Sign(SvgPath path, SvgPath bold, PortState state, PaperPoint at, double side)
    {
        var half = side / 2;
        var square = new PaperBox(at.X - half, at.Y - half, side, side);
        switch (state)
        {
            case PortState.Done:
                bold.Line(new(square.X, square.Y), new(square.Right, square.Bottom));
                bold.Line(new(square.X, square.Bottom), new(square.Right, square.Y));
                break;
            case PortState.Disputed:
                var far = half * 1.4;
                path.Figure([at.Moved(0, -far), at.Moved(far, 0), at.Moved(0, far), at.Moved(-far, 0)], closed: true);
                break;
            default:
                path.Box(square);
                if (state == PortState.Unseen) path.Line(new(square.X, square.Bottom), new(square.Right, square.Y));
                break;
        }
    }
}
