namespace Archive.DemoPictures;

/// <summary>A black sleeve with the print stamped round it in white.</summary>
internal static class Sleeve
{
    /// <param name="model">Where it is built.</param>
    /// <param name="line">The way of the cable under it.</param>
    /// <param name="v">Upright of the letters.</param>
    /// <param name="w">Direction that the print faces.</param>
    /// <param name="thick">Diameter.</param>
    /// <param name="label">The print.</param>
    public static void Build(Model model, IReadOnlyList<Point3> line, Point3 v, Point3 w, double thick, string label)
    {
        model.Tube(line, thick, new ColouredMaterial(Material.Sheath, "#141517"));
        var (a, b) = (line[0], line[^1]);
        var length = (b - a).Length;
        var capital = Math.Min(4.6, (length - 3) / StrokeFont.Width(label, 1));
        var from = (length - StrokeFont.Width(label, capital)) / 2;
        var radius = (thick / 2) + 0.25;
        model.Write(label, a, capital, "#f0eee6", (x, y) =>
        {
            var angle = (y - (capital / 2)) / radius;
            var at = Along(line, (from + x) / length) + (((w * Math.Cos(angle)) + (v * Math.Sin(angle))) * radius);
            return at;
        });

    }

    private static Point3 Along(IReadOnlyList<Point3> line, double t)
    {
        var at = Math.Clamp(t, 0, 1) * (line.Count - 1);
        var i = Math.Min((int)at, line.Count - 2);
        return Point3.Between(line[i], line[i + 1], at - i);
    }
}
