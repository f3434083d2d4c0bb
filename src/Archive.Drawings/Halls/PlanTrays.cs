using Archive.Drawings.Svg;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Drawings.Halls;

/// <summary>The trays of a plan, under the frames: a band of the tray's own width and its line; and the way of a cable over them.</summary>
internal static class PlanTrays
{
    // Pieces of a long tray that are tried for its name.
    private const int MostPieces = 12;

    // On each side of a tray, in units: what keeps it apart from one that it crosses.
    private const double Edge = 1.1;

    /// <summary>The lowest first, so that one that hangs higher covers what it crosses; those of one height run into each other.</summary>
    internal static void Draw(PlanDrawing plan)
    {
        using var group = plan.Svg.Group("trays");
        foreach (var level in Shown(plan).GroupBy(HeightOf).OrderBy(level => level.Key))
        {
            foreach (var edges in plan.Options.IsInset ? [] : level.GroupBy(tray => Width(tray, plan)))
            {
                var lines = new SvgPath();
                foreach (var tray in edges) lines.Figure(tray.Path.Select(plan.On), closed: false);
                plan.Svg.Path(lines, "edge", edges.Key + (2 * Edge));
            }

            foreach (var tray in level) Draw(tray, plan);
        }
    }

    private static IEnumerable<Tray> Shown(PlanDrawing plan) => plan.Layout.Trays.Where(tray =>
        (!plan.Options.IsInset || tray.Id == plan.Options.Marked) && plan.Options.OnlyTrays?.Contains(tray.Id) != false);

    private static void Draw(Tray tray, PlanDrawing plan)
    {
        var line = new SvgPath().Figure(tray.Path.Select(plan.On), closed: false);
        using var link = plan.Svg.Link(
            plan.Options.Href(tray), $"tray {tray.Id}{Height(tray, plan, ", ")}", tray.Id == plan.Options.Marked ? "marked" : null);
        if (!plan.Options.IsInset) plan.Svg.Path(line, "bed", Width(tray, plan));
        plan.Svg.Path(line, "band", Width(tray, plan));
        plan.Svg.Path(line, "fine");
        Avoid(plan, tray);
    }

    // A tray of unknown height is drawn under all others.
    private static double HeightOf(Tray tray) => tray.Height?.Value.Millimeters ?? 0;

    private static string Height(Tray tray, PlanDrawing plan, string before) =>
        tray.Height is { } height ? before + new UnitFormatter(plan.Options.Units).Format(height.Value) : "";

    /// <summary>All trays, a stroke for each width.</summary>
    internal static void DrawGround(PlanDrawing plan)
    {
        var lines = new SvgPath();
        foreach (var wide in plan.Layout.Trays.GroupBy(tray => Width(tray, plan)))
        {
            var bands = new SvgPath();
            foreach (var tray in wide)
            {
                bands.Figure(tray.Path.Select(plan.On), closed: false);
                lines.Figure(tray.Path.Select(plan.On), closed: false);
                Avoid(plan, tray);
            }

            plan.Svg.Path(bands, "band", wide.Key);
        }

        plan.Svg.Path(lines, "fine centred");
    }

    internal static double Width(Tray tray, PlanDrawing plan) =>
        Math.Max(tray.Size is { } size ? size.Value.Width.Millimeters * plan.Scale.PerMillimetre : 0, 4);

    internal static void DrawRoute(PlanDrawing plan)
    {
        if (plan.Options.Route.Length < 2) return;
        using var group = plan.Svg.Group("route");
        foreach (var route in plan.Options.Tails.Append(plan.Options.Route))
        {
            plan.Svg.Path(new SvgPath().Figure(route.Select(plan.On), closed: false), "way");
            foreach (var end in (PlanPoint[])[route[0], route[^1]])
            {
                if (!plan.Layout.PlacedFrames.Any(placed => placed.Footprint.Holds(end))) plan.Svg.Circle(plan.On(end), 3.5, "end");
            }
        }
    }

    /// <summary>Each tray's id upon its line, turned with it, where there is room.</summary>
    internal static void DrawNames(PlanDrawing plan)
    {
        if (plan.Options.IsInset) return;
        foreach (var lettering in plan.Sheet.Letterings)
        {
            plan.Letter(lettering, Shown(plan).Select(tray =>
                lettering.Space.Set([.. NamesOf(tray, plan, lettering)
                    .SelectMany(name => lettering.Minor.SelectMany(size => Places(name, tray, plan, size)))], tray)), "minor trays");
        }
    }

    // On a wide sheet with its height, which says what crosses over what.
    private static string[] NamesOf(Tray tray, PlanDrawing plan, PlanTextSize lettering) =>
        lettering.Class != "narrow" && tray.Height is not null ? [tray.Id + Height(tray, plan, " "), tray.Id] : [tray.Id];

    private static void Avoid(PlanDrawing plan, Tray tray)
    {
        if (tray.Path.Length > MostPieces) return;
        for (var i = 1; i < tray.Path.Length; i++) plan.Sheet.Avoid(plan.On(tray.Path[i - 1]), plan.On(tray.Path[i]), tray);
    }

    private static IEnumerable<PlacedText> Places(string name, Tray tray, PlanDrawing plan, double size)
    {
        var points = tray.Path.Select(plan.On).ToList();
        var pieces = points.Zip(points.Skip(1)).OrderByDescending(piece => Reach(piece.First, piece.Second)).Take(MostPieces);
        foreach (var (from, to) in pieces)
        {
            var isAcross = Math.Abs(from.X - to.X) >= Math.Abs(from.Y - to.Y);
            foreach (var part in (double[])[0.5, 0.03, 0.97, 0.3, 0.7, 0.15, 0.85, 0.4, 0.6, 0.08, 0.92, 0.22, 0.78])
            {
                yield return PlacedText.Centred(
                    name, new(from.X + (part * (to.X - from.X)), from.Y + (part * (to.Y - from.Y))), size, isAcross);
            }
        }
    }

    private static double Reach(PaperPoint from, PaperPoint to) => Math.Abs(from.X - to.X) + Math.Abs(from.Y - to.Y);
}
