using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Records.Model;

namespace Archive.Drawings.Halls;

/// <summary>What the hall itself is: walls with their openings, columns, the taped line.</summary>
internal static class PlanOutline
{
    private const double HatchPitch = 3.5;

    internal static void Draw(PlanDrawing plan)
    {
        using var group = plan.Svg.Group("shell");
        var walls = new SvgPath();
        foreach (var ring in plan.Layout.Walls(PlanSheet.WallThickness / plan.Scale.PerMillimetre))
            walls.Figure(ring.Select(plan.On), closed: true);
        plan.Svg.Path(walls, "wall");
        if (plan.Layout.Hall.Outline is { } outline) KeepOffWalls(plan, outline);
        foreach (var opening in plan.Layout.Hall.Openings) plan.Svg.Line(plan.On(opening.From), plan.On(opening.To), "fine");
        foreach (var obstacle in plan.Layout.Hall.Obstacles)
        {
            var corners = obstacle.Outline.Points.Select(plan.On).ToList();
            plan.Svg.Path(Hatching.Create(corners, HatchPitch), "fine faint");
            plan.Svg.Path(new SvgPath().Figure(corners, closed: true), "medium");
            if (Around(corners) is { } box) plan.Sheet.Take(box);
        }
    }

    internal static void DrawTakeLine(PlanDrawing plan)
    {
        if (plan.Layout.Hall.Take is not { } take) return;
        plan.Svg.Path(new SvgPath().Figure(take.Points.Select(plan.On), closed: true), "medium dashed");
        Avoid(plan, take);
    }

    /// <summary>Names of openings and obstacles, where there is room for them.</summary>
    internal static void DrawNames(PlanDrawing plan)
    {
        if (plan.Options.IsInset) return;
        foreach (var lettering in plan.Sheet.Letterings)
        {
            plan.Letter(
                lettering,
                plan.Layout.Hall.Openings.Select(opening => NameOf(opening, plan, lettering))
                    .Concat(plan.Layout.Hall.Obstacles.Select(obstacle => NameOf(obstacle, plan, lettering))),
                "minor");
        }
    }

    private static PlacedText? NameOf(Opening opening, PlanDrawing plan, PlanTextSize lettering)
    {
        if (opening.Name?.Value is not { Length: > 0 } name) return null;
        var (from, to) = (plan.On(opening.From), plan.On(opening.To));
        var middle = new PaperPoint((from.X + to.X) / 2, (from.Y + to.Y) / 2);
        var isAcross = Math.Abs(from.X - to.X) >= Math.Abs(from.Y - to.Y);
        var middleOfHall = new PaperPoint(plan.Sheet.Size.Width / 2, plan.Sheet.Size.Height / 2);
        var inward = (isAcross ? middle.Y > middleOfHall.Y : middle.X > middleOfHall.X) ? -1 : 1;
        return lettering.Space.Set([.. lettering.Minor.SelectMany(size => new[] { Beside(size, inward), Beside(size, -inward) })]);

        PlacedText Beside(double size, int side) => PlacedText.Centred(
            name, isAcross
                ? middle.Moved(0, side * (PlanSheet.WallThickness + size))
                : middle.Moved(side * (PlanSheet.WallThickness + size), 0), size, isAcross);
    }

    private static PlacedText? NameOf(Obstacle obstacle, PlanDrawing plan, PlanTextSize lettering)
    {
        if (obstacle.Name?.Value is not { Length: > 0 } name || Around(obstacle.Outline.Points.Select(plan.On)) is not { } box) return null;
        var within =
            lettering.Minor.Select(size => PlacedText.Centred(name, box.Centre, size)).Where(set => box.Grown(-2).Holds(set.Box)).ToList();
        return within.Count > 0 ? within[0] : lettering.Space.Set([.. lettering.Minor.SelectMany(size => Beside(name, box, size))]);
    }

    private static void Avoid(PlanDrawing plan, Outline outline)
    {
        var points = outline.Points;
        for (var i = 0; i < points.Length; i++) plan.Sheet.Avoid(plan.On(points[i]), plan.On(points[(i + 1) % points.Length]), outline);
    }

    // No letters across a wall; slanting ones are left out, as a box around them would bar half the hall.
    private static void KeepOffWalls(PlanDrawing plan, Outline outline)
    {
        var points = outline.Points;
        for (var i = 0; i < points.Length; i++)
        {
            var (from, to) = (plan.On(points[i]), plan.On(points[(i + 1) % points.Length]));
            var box = new PaperBox(Math.Min(from.X, to.X), Math.Min(from.Y, to.Y), Math.Abs(from.X - to.X), Math.Abs(from.Y - to.Y));
            if (Math.Min(box.Width, box.Height) < 1) plan.Sheet.Take(box.Grown(0.5));
        }
    }

    // Right, left, below, above.
    private static IReadOnlyCollection<PlacedText> Beside(string text, PaperBox box, double size) =>
    [
        new(text, new(box.Right + 4, box.Centre.Y + (size * 0.27)), size),
        new(text, new(box.X - 4, box.Centre.Y + (size * 0.27)), size, TextAnchor.End),
        PlacedText.Centred(text, new(box.Centre.X, box.Bottom + (size * 0.8)), size),
        PlacedText.Centred(text, new(box.Centre.X, box.Y - (size * 0.8)), size),
    ];

    private static PaperBox? Around(IEnumerable<PaperPoint> points)
    {
        var around = Footprint.Around(points.Select(point => new PlanPoint(point.X, point.Y)));
        return around is { } box ? new PaperBox(box.West, box.North, box.Across, box.Down) : null;
    }
}
