using System.Collections.Immutable;
using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Halls.Trays;
using Archive.Halls.Views;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Drawings.Halls;

/// <summary>
/// A hall as one above its south-east corner sees it: frames in their heights, trays in theirs, without what others hide; and, if
/// wanted, the way of a cable, drawn through all.
/// </summary>
public static class IsometricView
{
    private const double Width = 960, MostHeight = 900, Margin = 24;
    private const double PhoneSize = 30, NorthLength = 1000;

    /// <summary>Draws a hall.</summary>
    /// <param name="href">Address of a record's page.</param>
    /// <param name="ways">Ways of a cable; none for the hall alone.</param>
    /// <returns>Inline SVG in a box of class <c>drawing plan iso</c>; none for a hall in which nothing has a place, or too much.</returns>
    public static HtmlFragment Draw(HallLayout layout, Func<ArchiveRecord, string> href, params ImmutableArray<CableRoute> ways)
    {
        var solids = Solid.AllIn(layout);
        if (solids.Length is 0 or > VisibleFaces.MostSolids || layout.PlacedFrames.IsEmpty) return HtmlFragment.None;
        var floor = (layout.Hall.Outline?.Points ?? []).Select(point => Isometry.Project(point, 0)).ToImmutableArray();
        var seen = VisibleFaces.Compute(solids);
        var extent = Footprint.Around(seen.SelectMany(solid => solid.Faces).SelectMany(face => face.Rings).SelectMany(ring => ring)
            .Concat(floor));
        if (extent is not { Across: > 1 and < 1e9, Down: > 1 and < 1e9 } around) return HtmlFragment.None;
        var scale = Math.Min((Width - (2 * Margin)) / around.Across, (MostHeight - (2 * Margin)) / around.Down);
        var sheet = new SheetSize(Width, (around.Down * scale) + (2 * Margin));
        var drawn = new PlanScale(around.West, around.North, (Width - (around.Across * scale)) / 2, Margin, scale);
        var svg = new SvgWriter(
            sheet,
            "plan iso",
            $"{layout.Hall.Title} from above its south-east corner",
            $"{Phrase.Count(layout.PlacedFrames.Length, "frame")} and {Phrase.Count(layout.Trays.Length, "tray")} at their heights."
                + " North is up and to the right.",
            hasLinks: true,
            drawn.ForScripts + " iso");
        Floor(svg, layout, drawn, floor);
        Bodies(svg, seen, drawn, href);
        Ways(svg, ways, drawn);
        Names(svg, layout, seen, drawn, sheet);
        return svg.Finish();
    }

    private static void Floor(SvgWriter svg, HallLayout layout, PlanScale drawn, ImmutableArray<PlanPoint> floor)
    {
        using var group = svg.Group("shell");
        svg.Path(new SvgPath().Figure(floor.Select(drawn.ToPaper), closed: true), "floor medium");
        foreach (var obstacle in layout.Hall.Obstacles)
            svg.Path(new SvgPath().Figure(obstacle.Outline.Points.Select(point => On(point, drawn)), closed: true), "fine dashed");
        foreach (var opening in layout.Hall.Openings) svg.Line(On(opening.From, drawn), On(opening.To, drawn), "gap");

        // To the north from the hall's first corner.
        if (layout.Hall.Outline is not { Points: [var corner, ..] }) return;
        svg.Path(
            new SvgPath().Line(On(corner, drawn), On(new PlanPoint(corner.X, corner.Y - NorthLength), drawn)), "fine");
    }

    // Those of a record together, as one link; what others hide is not drawn, so that the order does not matter.
    private static void Bodies(
        SvgWriter svg, ImmutableArray<VisibleSolid> seen, PlanScale drawn, Func<ArchiveRecord, string> href)
    {
        using var group = svg.Group("frames");
        foreach (var record in seen.GroupBy(solid => solid.Solid.Of.Id).Select(group => group.ToList()))
        {
            if (record.TrueForAll(solid => solid.Faces.IsEmpty)) continue;
            var of = record[0].Solid.Of;
            using var link = svg.Link(href(of), Name(of), of is Tray ? "tray" : null);
            foreach (var side in record.SelectMany(solid => solid.Faces).GroupBy(face => face.Side).OrderBy(side => side.Key))
            {
                var path = new SvgPath();
                foreach (var ring in side.SelectMany(face => face.Rings)) path.Figure(ring.Select(drawn.ToPaper), closed: true);
                svg.Path(path, $"box {Class(side.Key)}");
            }

            var fronts = new SvgPath();
            foreach (var line in record.SelectMany(solid => solid.Fronts)) fronts.Figure(line.Select(drawn.ToPaper), closed: false);
            svg.Path(fronts, "heavy");
        }
    }

    private static void Ways(SvgWriter svg, ImmutableArray<CableRoute> ways, PlanScale drawn)
    {
        if (ways.IsEmpty) return;
        using var group = svg.Group("route");
        foreach (var way in ways)
        {
            svg.Path(
                new SvgPath().Figure(
                    way.Line.Zip(way.Heights, (point, height) => drawn.ToPaper(Isometry.Project(point, height))), closed: false),
                "way");
        }
    }

    // Frames and trays by their ids; on a phone, where those are too small, rows by their names.
    private static void Names(
        SvgWriter svg, HallLayout layout, ImmutableArray<VisibleSolid> seen, PlanScale drawn, SheetSize sheet)
    {
        var space = new LabelPlacement(sheet);
        using (svg.Group("wide"))
        {
            foreach (var solid in seen.Reverse().DistinctBy(solid => solid.Solid.Of.Id).OrderBy(solid => solid.Solid.Of is Tray ? 1 : 0))
            {
                if (solid.Label is not { } label) continue;
                var at = drawn.ToPaper(label);
                var text = space.Set([
                    .. new[] { 0, -8.0, 8, -14, 14 }.Select(y => PlacedText.Centred(solid.Solid.Of.Id, at.Moved(0, y), TextMetrics.Usual)),
                ]);
                if (text is { } set) svg.Text(set, solid.Solid.Of is Tray ? "minor" : null);
            }
        }

        var phone = new LabelPlacement(sheet);
        using var rows = svg.Group("narrow strong");
        foreach (var row in layout.Rows.Where(row => row.Extent is { IsFinite: true }))
        {
            var top = row.Frames.Max(RowView.Height);
            var at = drawn.ToPaper(Isometry.Project(row.Extent!.Value.Centre, top));
            var text = phone.Set([
                .. new[] { -34.0, 0, -70, 34, 70 }.Select(y => PlacedText.Centred(Phrase.NameOf(row.Row), at.Moved(0, y), PhoneSize)),
            ]);
            if (text is { } set) svg.Text(set);
        }
    }

    private static PaperPoint On(PlanPoint point, PlanScale drawn) => drawn.ToPaper(Isometry.Project(point, 0));

    private static string Name(ArchiveRecord of) =>
        of is Tray ? $"tray {of.Id}" : of.Title == of.Id ? of.Id : $"{of.Id}, {Phrase.OneLine(of.Title)}";

    private static string Class(FaceSide side) => side switch { FaceSide.Top => "top", FaceSide.South => "south", _ => "east" };
}
