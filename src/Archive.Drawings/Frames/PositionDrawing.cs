using System.Collections.Immutable;
using System.Globalization;
using Archive.Drawings.Svg;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Drawings.Frames;

/// <summary>A position on a frame's face: its box, its name and what it holds, and its ports.</summary>
internal static class PositionDrawing
{
    private const double Pad = 4;
    private const double NameSize = 10.5;
    private const double HoldsSize = 10;
    private const double PortSize = 10;
    private const double LeastLine = 12.5;
    private const double PortLine = 19;
    private const int MostPortNames = 10;
    private const int MostPortTicks = 48;
    private const double Callout = 30;
    private const int MostSlots = 48;
    private const double LeastSlot = 6;
    private const double MostSlot = 26;

    /// <summary>Whether a position is too thin for letters.</summary>
    internal static bool IsNamedBeside(PaperBox box) => box.Height < LeastLine;

    internal static string Name(Position position) =>
        position.Holds is { } holds ? $"{position.Id.Value}, {holds.Value}" : position.Id.Value;

    internal static void Draw(ElevationDrawing elevation, Position position, PaperBox box)
    {
        var svg = elevation.Svg;
        var isMarked = elevation.Options.Marked is { } marked && LeadingZeros.Comparer.Equals(marked, position.Id.Value);
        var line = Math.Min(box.Height, NameSize * 1.5);
        var ports = Count(position);
        var hasPortRow = ports is > 0 and <= MostPortTicks && box.Height >= line + 7;
        List<string> names = hasPortRow ? NamesOf(position, box, ports) : [];

        // What is read in the link is what it is called, word for word (WCAG 2.5.3); the row of ports stands outside it.
        var count = PortCount(ports);
        using (svg.Link(
            elevation.Options.Href(position), count.Length > 0 ? $"{Name(position)}, {count}" : Name(position), isMarked ? "marked" : null))
        {
            svg.Rectangle(box, "box");
            if (IsNamedBeside(box))
            {
                CallOut(elevation, position, box);
                return;
            }

            var high = box.Y + (line / 2) + (hasPortRow ? Math.Min(2, (box.Height - line - 7) / 2) : 2);
            var lowest = hasPortRow ? PortsAt(box, names) - 3 : box.Bottom;
            var slots = SlotsOf(elevation, position, new PaperBox(box.X, box.Y + line, box.Width, lowest - box.Y - line));
            var secondLine = high + (NameSize * 0.36) + (HoldsSize * 1.5);
            if (names.Count > 0 && slots.IsEmpty && secondLine > lowest && secondLine <= PortsAt(box, []) - 3 && IsLong(position, box))
            {
                // Units of a frame often differ in the last word alone: it comes before the names of ports.
                names = [];
                lowest = PortsAt(box, names) - 3;
            }

            var hasTwoLines = slots.IsEmpty && secondLine <= lowest;
            var middle = hasPortRow || hasTwoLines ? Math.Min(high, box.Centre.Y) : box.Centre.Y;
            Slots(svg, slots, new PaperBox(box.X, box.Y + line, box.Width, lowest - box.Y - line));
            Words(svg, position, box, middle, Math.Min(1, line / (NameSize * 1.2)), hasPortRow ? string.Empty : count, hasTwoLines);
        }

        if (hasPortRow) Ports(svg, names, box, ports);
    }

    /// <summary>What is in the slots of a position, for those who do not see the drawing; empty for none.</summary>
    internal static string Describe(ImmutableArray<SlotContent> slots)
    {
        if (slots.IsEmpty) return string.Empty;
        var (inside, outside) = (slots.Count(slot => slot == SlotContent.In), slots.Count(slot => slot == SlotContent.Out));
        return string.Create(CultureInfo.InvariantCulture, $" ({slots.Length} slots: {inside} units in, {outside} out)");
    }

    private static ImmutableArray<SlotContent> SlotsOf(ElevationDrawing elevation, Position position, PaperBox room)
    {
        var slots = elevation.Options.Slots(position);
        return slots.Length is > 0 and <= MostSlots && room.Height >= LeastSlot + 4 ? slots : [];
    }

    // A card a slot, side by side: filled where a unit is in, dashed where the one that was found there is out.
    private static void Slots(SvgWriter svg, ImmutableArray<SlotContent> slots, PaperBox room)
    {
        if (slots.IsEmpty) return;
        var pitch = (room.Width - (2 * Pad)) / slots.Length;
        var height = Math.Min(MostSlot, room.Height - 4);
        foreach (var (content, kind) in (ReadOnlySpan<(SlotContent, string)>)[
            (SlotContent.Empty, "fine faint"), (SlotContent.In, "slot"), (SlotContent.Out, "fine dashed")])
        {
            var path = new SvgPath();
            var any = false;
            for (var i = 0; i < slots.Length; i++)
            {
                if (slots[i] != content) continue;
                any = true;
                path.Box(new PaperBox(room.X + Pad + (i * pitch) + (pitch * 0.15), room.Y + 1, pitch * 0.7, height));
            }

            if (any) svg.Path(path, kind);
        }
    }

    private static string PortCount(long ports) =>
        ports > 0 ? ports.ToString(CultureInfo.InvariantCulture) + (ports == 1 ? " port" : " ports") : string.Empty;

    // Name, what it holds, and how many ports, on one line; written in the order in which they are read.
    private static void Words(SvgWriter svg, Position position, PaperBox box, double middle, double factor, string count, bool hasTwoLines)
    {
        var (name, size) = (NameSize * factor, HoldsSize * factor);
        var right = box.Right - Pad;
        var id = IdOf(position, box, name);
        var x = HoldsAt(box, id, name);
        svg.Text(new PlacedText(id, new(box.X + Pad, middle + (name * 0.36)), name), "name");
        if (position.Holds is { } holds)
        {
            var (first, second) = hasTwoLines
                ? TextMetrics.InTwo(holds.Value, size, right - x)
                : (TextMetrics.Cut(holds.Value, size, right - x), string.Empty);
            if (first.Length > 0) svg.Text(new PlacedText(first, new(x, middle + (name * 0.36)), size));
            if (second.Length > 0) svg.Text(new PlacedText(second, new(x, middle + (name * 0.36) + (size * 1.2)), size));
        }

        if (count.Length > 0 && x + TextMetrics.Width(count, size) <= right && position.Holds is { } held
            && TextMetrics.Width(held.Value, size) + TextMetrics.Width(count, size) + Pad <= right - x)
        {
            svg.Text(new PlacedText(count, new(right, middle + (name * 0.36)), size, TextAnchor.End), "minor");
        }
    }

    private static string IdOf(Position position, PaperBox box, double size) =>
        TextMetrics.Cut(position.Id.Value, size * 1.08, box.Width - (2 * Pad));

    // Where what it holds begins, behind its id.
    private static double HoldsAt(PaperBox box, string id, double size) => box.X + Pad + TextMetrics.Width(id, size * 1.08) + Pad;

    // Whether what it holds takes more than a line.
    private static bool IsLong(Position position, PaperBox box) => position.Holds is { } holds
        && TextMetrics.Width(holds.Value, HoldsSize) > box.Right - Pad - HoldsAt(box, IdOf(position, box, NameSize), NameSize);

    // Names of ports where they are few and there is room, else none.
    private static List<string> NamesOf(Position position, PaperBox box, long ports)
    {
        if (ports > MostPortNames || box.Height < (NameSize * 1.5) + PortLine) return [];
        var names = position.Ports.SelectMany(range => range.Names).ToList();
        return names.TrueForAll(name => TextMetrics.Width(name, PortSize) < Pitch(box, ports) - 1) ? names : [];
    }

    private static double Pitch(PaperBox box, long ports) => (box.Width - (2 * Pad)) / ports;

    private static double PortsAt(PaperBox box, List<string> names) => box.Bottom - (names.Count > 0 ? 14 : 5);

    // A tick a port along the lower edge, its name below it.
    private static void Ports(SvgWriter svg, List<string> names, PaperBox box, long ports)
    {
        var (pitch, y) = (Pitch(box, ports), PortsAt(box, names));
        var side = Math.Min(3.2, pitch * 0.6);
        double MiddleOf(int port) => box.X + Pad + ((port + 0.5) * pitch);
        var path = new SvgPath();
        for (var i = 0; i < ports; i++) path.Box(new PaperBox(MiddleOf(i) - (side / 2), y - (side / 2), side, side));
        svg.Path(path, "fine");
        if (names.Count == 0) return;
        using var letters = svg.Letters(PortSize, "minor", anchor: TextAnchor.Middle);
        for (var i = 0; i < ports; i++)
            svg.Small(names[i], PlacedText.Centred(names[i], new(MiddleOf(i), box.Bottom - 6), PortSize).Baseline);
    }

    // A position too thin for letters is named beside the frame.
    private static void CallOut(ElevationDrawing elevation, Position position, PaperBox box)
    {
        var x = elevation.Face.Right + Callout;
        var text = TextMetrics.Cut(Name(position), HoldsSize, 336 - x);
        if (text.Length == 0) return;
        var places = new[]
        {
            0.0, 11, -11, 22, -22
        }.Select(drop => new PlacedText(text, new(x, box.Centre.Y + 3 + drop), HoldsSize)).ToList();
        if (elevation.Space.Set(places) is not { } set) return;
        elevation.Svg.Path(new SvgPath().Line(new(box.Right, box.Centre.Y), new(x - 2, set.Baseline.Y - 3)), "fine faint");
        elevation.Svg.Text(set);
    }

    private static long Count(Position position) => position.Ports.Sum(range => (long)range.Count);
}
