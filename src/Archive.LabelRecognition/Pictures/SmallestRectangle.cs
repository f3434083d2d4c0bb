namespace Archive.LabelRecognition.Pictures;

/// <summary>The smallest rectangle around points, at any angle.</summary>
internal static class SmallestRectangle
{
    /// <summary>
    /// Finds it: one of its sides lies on a side of the convex hull (Freeman and Shapira 1975). The hull by Andrew's monotone chain (1979).
    /// Time: points times their logarithm, and the square of the hull's corners.
    /// </summary>
    /// <param name="points">At least one.</param>
    /// <returns>With its longer side as its length, and an angle above -90° and up to 90°.</returns>
    internal static LineBox Around(IReadOnlyCollection<(double X, double Y)> points)
    {
        var hull = Hull(points);
        var best = default(LineBox);
        var least = double.PositiveInfinity;
        for (var at = 0; at < hull.Count; at++)
        {
            var (from, to) = (hull[at], hull[(at + 1) % hull.Count]);
            var box = At(hull, Math.Atan2(to.Y - from.Y, to.X - from.X));
            if (box.Length * box.Height >= least) continue;
            (best, least) = (box, box.Length * box.Height);
        }

        return best;
    }

    /// <summary>The rectangle around points whose side is at an angle.</summary>
    internal static LineBox At(IReadOnlyCollection<(double X, double Y)> points, double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        var (left, right) = (points.Min(Along), points.Max(Along));
        var (top, bottom) = (points.Min(Across), points.Max(Across));
        var (u, v) = ((left + right) / 2, (top + bottom) / 2);
        var (length, height) = (right - left, bottom - top);
        if (height > length) (length, height, angle) = (height, length, angle + (Math.PI / 2));
        return new LineBox((u * cos) - (v * sin), (u * sin) + (v * cos), length, height, Upright(angle));

        double Along((double X, double Y) point) => (point.X * cos) + (point.Y * sin);

        double Across((double X, double Y) point) => (point.Y * cos) - (point.X * sin);
    }

    private static double Upright(double angle)
    {
        angle = Math.IEEERemainder(angle, Math.PI);
        return angle <= (-Math.PI / 2) + 1e-9 ? Math.Min(angle + Math.PI, Math.PI / 2) : angle;
    }

    private static List<(double X, double Y)> Hull(IReadOnlyCollection<(double X, double Y)> points)
    {
        var sorted = points.Distinct().OrderBy(point => point.X).ThenBy(point => point.Y).ToList();
        if (sorted.Count < 3) return sorted;
        var hull = new List<(double X, double Y)>();
        foreach (var way in (IEnumerable<(double X, double Y)>[])[sorted, Enumerable.Reverse(sorted)])
        {
            var start = hull.Count;
            foreach (var point in way)
            {
                while (hull.Count >= start + 2 && Turn(hull[^2], hull[^1], point) <= 0) hull.RemoveAt(hull.Count - 1);
                hull.Add(point);
            }

            hull.RemoveAt(hull.Count - 1);
        }

        return hull;
    }

    private static double Turn((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) =>
        ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
}
