using System.Collections.Immutable;
using Archive.Records.Model;
using NetTopologySuite.Algorithm;

namespace Archive.Records.Geometry;

/// <summary>Finds where a line of a plan meets itself: two stretches that cross, touch, or lie on one another.</summary>
/// <remarks>
/// The sweep of M. I. Shamos and D. Hoey, "Geometric intersection problems" (1976): n log n, and it stops at the first meeting. Sides are
/// judged by the exact predicate of NetTopologySuite; its own validators compare every two stretches whose boxes overlap, which are all of
/// them in a comb of slanting teeth.
/// </remarks>
internal sealed class Crossings : IComparer<int>
{
    private const int None = -1;

    private readonly ImmutableArray<PlanPoint> _points;
    private readonly List<int> _corners = [];
    private readonly int _count;
    private readonly bool _isClosed;

    // The stretches that the sweep is in, from south to north, and each one's neighbours among them.
    private readonly SortedSet<int> _open;
    private readonly int[] _below, _above;
    private (int One, int Other)? _met;
    private int _nearestBelow, _nearestAbove;

    private Crossings(ImmutableArray<PlanPoint> points, bool isClosed)
    {
        _points = points;
        for (var i = 0; i < points.Length; i++)
        {
            if (_corners.Count == 0 || points[_corners[^1]] != points[i]) _corners.Add(i);
        }

        // A path that ends where it begins is closed, too.
        _isClosed = isClosed || (_corners.Count > 3 && points[_corners[0]] == points[_corners[^1]]);
        if (_isClosed && _corners.Count > 1 && points[_corners[0]] == points[_corners[^1]]) _corners.RemoveAt(_corners.Count - 1);
        _count = _isClosed ? _corners.Count : _corners.Count - 1;
        _open = new SortedSet<int>(this);
        _below = new int[Math.Max(_count, 0)];
        _above = new int[Math.Max(_count, 0)];
    }

    /// <summary>How many stretches were compared, each with one other.</summary>
    public long Compared { get; private set; }

    /// <summary>Looks for a meeting.</summary>
    /// <param name="points">The corners in order.</param>
    /// <param name="isClosed">Whether the last joins the first.</param>
    /// <returns>The two stretches by the numbers of the points that they begin at, the lesser first; null where none meet but at the
    /// corners that they share.</returns>
    public static (int One, int Other)? First(ImmutableArray<PlanPoint> points, bool isClosed) => Search(points, isClosed).Meeting;

    /// <summary>The same, and what it cost.</summary>
    internal static ((int One, int Other)? Meeting, long Compared) Search(ImmutableArray<PlanPoint> points, bool isClosed)
    {
        var sweep = new Crossings(points, isClosed);
        sweep.Run();
        return (sweep._met is var (one, other)
            ? (Math.Min(sweep._corners[one], sweep._corners[other]), Math.Max(sweep._corners[one], sweep._corners[other]))
            : null, sweep.Compared);
    }

    /// <summary>Which of two open stretches lies above: where the later one begins, it lies on one side of the other.</summary>
    int IComparer<int>.Compare(int x, int y)
    {
        if (x == y) return 0;
        Compared++;
        var isLater = IsBefore(West(y), West(x)) || (West(x) == West(y) && x > y);
        var (earlier, later) = isLater ? (y, x) : (x, y);
        var side = Side(earlier, West(later));
        if (side == 0)
        {
            if (!AreJoined(x, y)) _met ??= (x, y);
            side = Side(earlier, East(later));
            if (side == 0) side = 1;
        }

        var order = isLater ? side : -side;

        // On the way down, what is put into a search tree is compared with its neighbour on either side, and with none that is nearer.
        if (order > 0) _nearestBelow = y;
        else _nearestAbove = y;
        return order;
    }

    private void Run()
    {
        if (_count < 2) return;
        foreach (var (_, stretch, isBeginning) in Events())
        {
            if (isBeginning) Begin(stretch);
            else End(stretch);
            if (_met is not null) return;
        }
    }

    // From west to east, and from north to south; what begins at a point does so before what ends there, so that they are seen to touch.
    private IEnumerable<(PlanPoint At, int Stretch, bool IsBeginning)> Events() => Enumerable.Range(0, _count)
        .SelectMany(stretch =>
            new[] { (At: West(stretch), Stretch: stretch, IsBeginning: true), (At: East(stretch), Stretch: stretch, IsBeginning: false) })
        .OrderBy(happening => happening.At.X)
        .ThenBy(happening => happening.At.Y)
        .ThenByDescending(happening => happening.IsBeginning)
        .ThenBy(happening => happening.Stretch);

    private void Begin(int stretch)
    {
        _nearestBelow = _nearestAbove = None;
        _open.Add(stretch);
        (_below[stretch], _above[stretch]) = (_nearestBelow, _nearestAbove);
        Join(_nearestBelow, stretch);
        Join(stretch, _nearestAbove);
    }

    private void End(int stretch)
    {
        _open.Remove(stretch);
        Join(_below[stretch], _above[stretch]);
    }

    private void Join(int below, int above)
    {
        if (above != None) _below[above] = below;
        if (below != None) _above[below] = above;
        if (below != None && above != None && Meet(below, above)) _met ??= (below, above);
    }

    private bool Meet(int one, int other)
    {
        Compared++;
        if (AreJoined(one, other)) return DoublesBack(one, other) || DoublesBack(other, one);
        var (a, b, c, d) = (West(one), East(one), West(other), East(other));
        return c.X <= b.X && a.X <= d.X && Math.Min(a.Y, b.Y) <= Math.Max(c.Y, d.Y) && Math.Min(c.Y, d.Y) <= Math.Max(a.Y, b.Y)
            && Side(one, c) * Side(one, d) <= 0 && Side(other, a) * Side(other, b) <= 0;
    }

    // Whether the second of two stretches in a row goes back over the first.
    private bool DoublesBack(int first, int second)
    {
        if (To(first) != From(second) || Side(first, To(second)) != 0) return false;
        var (a, corner, b) = (From(first), To(first), To(second));
        return ((a.X - corner.X) * (b.X - corner.X)) + ((a.Y - corner.Y) * (b.Y - corner.Y)) > 0;
    }

    private bool AreJoined(int one, int other) => Math.Abs(one - other) == 1 || (_isClosed && Math.Abs(one - other) == _count - 1);

    private int Side(int stretch, PlanPoint point)
    {
        var (west, east) = (West(stretch), East(stretch));
        return CGAlgorithmsDD.OrientationIndex(west.X, west.Y, east.X, east.Y, point.X, point.Y);
    }

    private PlanPoint From(int stretch) => _points[_corners[stretch]];

    private PlanPoint To(int stretch) => _points[_corners[(stretch + 1) % _corners.Count]];

    private PlanPoint West(int stretch) => IsBefore(To(stretch), From(stretch)) ? To(stretch) : From(stretch);

    private PlanPoint East(int stretch) => IsBefore(To(stretch), From(stretch)) ? From(stretch) : To(stretch);

    private static bool IsBefore(PlanPoint one, PlanPoint other) => one.X < other.X || (one.X == other.X && one.Y < other.Y);
}
