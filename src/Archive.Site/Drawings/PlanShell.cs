using Archive.Hall;
using Archive.Records;

namespace Archive.Site;

/// <summary>What the hall itself is: walls with their openings, columns, the taped line.</summary>
internal static class PlanShell
{
    private const double HatchPitch = 3.5;

    internal static void Draw(PlanDrawing plan)
    {
        using var group = plan.Svg.Group("shell");
        var walls = new SvgPath();
        foreach (var ring in Walls.Of(plan.Layout.Hall, PlanSheet.WallThickness / plan.Scale.PerMillimetre)) walls.Figure(ring.Select(plan.On), closed: true);
        plan.Svg.Path(walls, "wall");
        foreach (var opening in plan.Layout.Hall.Openings) plan.Svg.Line(plan.On(opening.From), plan.On(opening.To), "fine");
        foreach (var obstacle in plan.Layout.Hall.Obstacles)
        {
            var corners = obstacle.Outline.Points.Select(plan.On).ToList();
            plan.Svg.Path(Hatching.Of(corners, HatchPitch), "fine");
            plan.Svg.Path(new SvgPath().Figure(corners, closed: true), "medium");
            if (Around(corners) is { } box) plan.Sheet.Take(box);
        }
    }

    internal static void DrawTakeLine(PlanDrawing plan)
    {
        if (plan.Layout.Hall.Take is { } take) plan.Svg.Path(new SvgPath().Figure(take.Points.Select(plan.On), closed: true), "medium dashed");
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

    private static Lettered? NameOf(Opening opening, PlanDrawing plan, PlanLettering lettering)
    {
        if (opening.Name?.Value is not { Length: > 0 } name) return null;
        var (from, to) = (plan.On(opening.From), plan.On(opening.To));
        var middle = new PaperPoint((from.X + to.X) / 2, (from.Y + to.Y) / 2);
        var size = lettering.Least;
        var away = PlanSheet.WallThickness + size;
        var isAcross = Math.Abs(from.X - to.X) >= Math.Abs(from.Y - to.Y);
        return lettering.Space.Set(
        [
            .. new[] { away, -away }.Select(by => Lettered.Centred(name, isAcross ? middle.Moved(0, by) : middle.Moved(by, 0), size, isAcross)),
            .. isAcross ? (Lettered[])[] : [new Lettered(name, middle.Moved(size, size / 3), size), new Lettered(name, middle.Moved(-size, size / 3), size, Anchor.End)],
        ]);
    }

    private static Lettered? NameOf(Obstacle obstacle, PlanDrawing plan, PlanLettering lettering)
    {
        if (obstacle.Name?.Value is not { Length: > 0 } name || Around(obstacle.Outline.Points.Select(plan.On)) is not { } box) return null;
        return lettering.Space.Set(Beside(name, box, lettering.Least));
    }

    /// <summary>Places of a text around a box: right, left, below, above.</summary>
    internal static IEnumerable<Lettered> Beside(string text, PaperBox box, double size) =>
    [
        new(text, new(box.Right + 4, box.Centre.Y + (size * 0.27)), size),
        new(text, new(box.X - 4, box.Centre.Y + (size * 0.27)), size, Anchor.End),
        Lettered.Centred(text, new(box.Centre.X, box.Bottom + (size * 0.8)), size),
        Lettered.Centred(text, new(box.Centre.X, box.Y - (size * 0.8)), size),
    ];

    private static PaperBox? Around(IEnumerable<PaperPoint> points)
    {
        var around = Footprint.Around(points.Select(point => new PlanPoint(point.X, point.Y)));
        return around is { } box ? new PaperBox(box.West, box.North, box.Across, box.Down) : null;
    }
}
