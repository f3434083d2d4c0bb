using Archive.Drawings.Svg;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Wiring.Decabling;

namespace Archive.Drawings.Charts;

/// <summary>A tangle drawn: its cables in a ring, an arrow from each to those that it lies over.</summary>
public static class TangleDiagram
{
    /// <summary>Tangles of more cables are not drawn: nobody could follow the arrows.</summary>
    public const int MostCables = 12;

    private const double Half = 15;
    private const double Barb = 7;

    /// <summary>Draws a tangle.</summary>
    /// <param name="record">The record, where former ids are looked up.</param>
    /// <param name="href">Address of a cable's page.</param>
    /// <returns>Inline SVG in a box of class <c>drawing knot</c>; nothing for a tangle too large to be read.</returns>
    public static HtmlFragment Draw(PullGroup knot, ArchiveModel record, Func<Cable, string> href)
    {
        if (knot.Cables.Length > MostCables) return HtmlFragment.None;
        var wide = knot.Cables.Max(cable => TextMetrics.Width(cable.Id, TextMetrics.Usual)) + 14;
        var radius = knot.Cables.Length == 2 ? (wide / 2) + 34 : Math.Max(wide * 0.9, knot.Cables.Length * 18.0);
        var (width, height) = ((2 * radius) + wide + 4, knot.Cables.Length == 2 ? 60 : (2 * radius) + (2 * Half) + 4);
        var places = knot.Cables
            .Select((cable, at) => (cable.Id, At: Around(new PaperPoint(width / 2, height / 2), radius, knot.Cables.Length, at)))
            .ToDictionary(place => place.Id, place => place.At, StringComparer.Ordinal);
        var over = knot.Cables.SelectMany(cable => cable.LiesOver
            .Select(name => record.Find<Cable>(name.Value)?.Id)
            .OfType<string>()
            .Where(places.ContainsKey)
            .Distinct()
            .Select(under => (Over: cable.Id, Under: under))).ToList();
        var svg = new SvgWriter(
            new SheetSize(width, height),
            "knot",
            $"Tangle of {knot.Cables.Length} cables",
            string.Join(" ", over.Select(pair => $"{pair.Over} lies over {pair.Under}.")),
            hasLinks: true);
        foreach (var (from, to) in over) Arrow(svg, places[from], places[to], new PaperBox(0, 0, wide, 2 * Half));
        foreach (var cable in knot.Cables)
        {
            using var link = svg.Link(href(cable), cable.Id);
            var at = places[cable.Id];
            svg.Rectangle(new PaperBox(at.X - (wide / 2), at.Y - Half, wide, 2 * Half), "box");
            svg.Text(PlacedText.Centred(cable.Id, at, TextMetrics.Usual));
        }

        return svg.Finish();
    }

    private static PaperPoint Around(PaperPoint centre, double radius, int count, int at)
    {
        var angle = (2 * Math.PI * at / count) - (count == 2 ? Math.PI : Math.PI / 2);
        return centre.Moved(radius * Math.Cos(angle), radius * Math.Sin(angle));
    }

    // From edge to edge of the boxes, a little to the right of the line between them, so that two arrows the opposite ways stand apart.
    private static void Arrow(SvgWriter svg, PaperPoint from, PaperPoint to, PaperBox box)
    {
        var (x, y) = (to.X - from.X, to.Y - from.Y);
        var length = Math.Sqrt((x * x) + (y * y));
        var (dx, dy) = (x / length, y / length);
        var inset = Math.Min(box.Width / 2 / Math.Max(Math.Abs(dx), 1e-9), box.Height / 2 / Math.Max(Math.Abs(dy), 1e-9)) + 2;
        var (side, start, end) = (6.0, inset, length - inset);
        var (a, b) = (
            from.Moved((dx * start) - (dy * side), (dy * start) + (dx * side)),
            from.Moved((dx * end) - (dy * side), (dy * end) + (dx * side)));
        var head = new SvgPath().Figure([
            b,
            b.Moved((-dx * Barb) - (dy * Barb / 2), (-dy * Barb) + (dx * Barb / 2)),
            b.Moved((-dx * Barb) + (dy * Barb / 2), (-dy * Barb) - (dx * Barb / 2))
        ], closed: true);
        svg.Line(a, b, "medium");
        svg.Path(head, "solid");
    }
}
