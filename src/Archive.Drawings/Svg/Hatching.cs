namespace Archive.Drawings.Svg;

/// <summary>Hatching as lines of its own, so that drawings need no patterns, and no ids that could meet on a page.</summary>
internal static class Hatching
{
    // A figure that needs more is too large to be hatched: it is left white.
    private const int MostLines = 2000;

    /// <summary>Lines at 45 degrees, rising to the right, within a figure by the even-odd rule.</summary>
    /// <param name="corners">Corners of the figure.</param>
    /// <param name="pitch">Distance between lines across them, in units.</param>
    /// <remarks>On each line x + y is the same; each edge is cut where that sum lies between those of its ends. Lines x corners.</remarks>
    internal static SvgPath Create(IReadOnlyList<PaperPoint> corners, double pitch)
    {
        var path = new SvgPath();
        if (corners.Count < 3) return path;
        var step = pitch * Math.Sqrt(2);
        var first = corners.Min(Sum);
        var last = corners.Max(Sum);
        if (!((last - first) / step < MostLines)) return path;
        for (var sum = (Math.Floor(first / step) + 1) * step; sum < last; sum += step)
        {
            var cuts = Cuts(corners, sum).OrderBy(point => point.X).ToList();
            for (var i = 0; i + 1 < cuts.Count; i += 2) path.Line(cuts[i], cuts[i + 1]);
        }

        return path;
    }

    private static IEnumerable<PaperPoint> Cuts(IReadOnlyList<PaperPoint> corners, double sum)
    {
        for (var i = 0; i < corners.Count; i++)
        {
            var (from, to) = (corners[i], corners[(i + 1) % corners.Count]);
            if (Sum(from) <= sum == Sum(to) <= sum) continue;
            var part = (sum - Sum(from)) / (Sum(to) - Sum(from));
            yield return new PaperPoint(from.X + (part * (to.X - from.X)), from.Y + (part * (to.Y - from.Y)));
        }
    }

    private static double Sum(PaperPoint point) => point.X + point.Y;
}
