using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;

namespace Archive.Halls.Trays.Network;

/// <summary>The centre line of a tray, measured along in millimetres from its first point.</summary>
internal sealed class TrayLine
{
    // Points closer than this are one: a billionth of a millimetre is rounding.
    private const double Rounding = 1e-9;

    private readonly double[] _at;

    private TrayLine(Tray tray, ImmutableArray<PlanPoint> points, double height)
    {
        Tray = tray;
        Points = points;
        Height = height;
        _at = new double[points.Length];
        for (var i = 1; i < points.Length; i++) _at[i] = _at[i - 1] + points[i - 1].DistanceTo(points[i]);
        IsRing = points.Length > 3 && points[0].DistanceTo(points[^1]) <= Rounding;
    }

    public Tray Tray { get; }

    /// <summary>Its bends in order; no two in a row are the same.</summary>
    public ImmutableArray<PlanPoint> Points { get; }

    /// <summary>Height of its bottom above the floor, in millimetres.</summary>
    public double Height { get; }

    /// <summary>Whether it ends where it begins, so that one can go round it either way.</summary>
    public bool IsRing { get; }

    /// <summary>Its length in millimetres.</summary>
    public double Length => _at[^1];

    /// <summary>Number of its straight stretches.</summary>
    public int Segments => Points.Length - 1;

    /// <summary>The line of a tray; null where its height is not recorded or it has no length.</summary>
    public static TrayLine? From(Tray tray)
    {
        if (tray.Height is not { } height || !double.IsFinite(height.Value.Millimeters)) return null;
        var points = new List<PlanPoint>(tray.Path.Length);
        foreach (var point in tray.Path)
        {
            if (!double.IsFinite(point.X) || !double.IsFinite(point.Y)) return null;
            if (points.Count == 0 || points[^1].DistanceTo(point) > Rounding) points.Add(point);
        }

        var line = points.Count < 2 ? null : new TrayLine(tray, [.. points], height.Value.Millimeters);
        return line is not null && double.IsFinite(line.Length) ? line : null;
    }

    /// <summary>One of its straight stretches.</summary>
    /// <param name="segment">Which, from 0.</param>
    public TraySegment Segment(int segment) => new(Points[segment], Points[segment + 1], _at[segment]);

    /// <summary>The place of its line nearest to a point; of several as near, the first.</summary>
    public (double Along, double Distance) Nearest(PlanPoint point)
    {
        var (along, distance) = (0d, double.PositiveInfinity);
        for (var i = 0; i < Segments; i++)
        {
            var segment = Segment(i);
            var on = segment.Nearest(point);
            var away = segment.At(on).DistanceTo(point);
            if (away < distance) (along, distance) = (segment.Start + on, away);
        }

        return (along, distance);
    }

    /// <summary>The way along it between two places: the shorter one of a ring.</summary>
    /// <param name="from">One place.</param>
    /// <param name="to">The other.</param>
    public double Between(double from, double to)
    {
        var straight = Math.Abs(from - to);
        return IsRing ? Math.Min(straight, Length - straight) : straight;
    }

    /// <summary>The points that the way along it between two places passes, both included.</summary>
    /// <param name="from">Where it begins.</param>
    /// <param name="to">Where it ends.</param>
    public ImmutableArray<PlanPoint> Stretch(double from, double to)
    {
        if (!IsRing || Math.Abs(from - to) <= Length / 2) return [PointAt(from), .. Bends(from, to), PointAt(to)];
        return from < to
            ? [PointAt(from), .. Bends(from, 0), Points[0], .. Bends(Length, to), PointAt(to)]
            : [PointAt(from), .. Bends(from, Length), Points[0], .. Bends(0, to), PointAt(to)];
    }

    /// <summary>The point at a place.</summary>
    /// <param name="along">A place, from 0 to <see cref="Length"/>.</param>
    public PlanPoint PointAt(double along)
    {
        var found = Array.BinarySearch(_at, along);
        if (found >= 0) return Points[found];
        var segment = Math.Clamp(~found - 1, 0, Segments - 1);
        return Segment(segment).At(along - _at[segment]);
    }

    private IEnumerable<PlanPoint> Bends(double from, double to)
    {
        var between = Enumerable.Range(0, Points.Length)
            .Where(i => _at[i] > Math.Min(from, to) && _at[i] < Math.Max(from, to))
            .Select(i => Points[i]);
        return from <= to ? between : between.Reverse();
    }
}
