using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;

namespace Archive.Halls.Views;

/// <summary>The order in which bodies hide each other for one who looks from the south-east and above, along (1, 1, 1).</summary>
/// <remarks>
/// Two convex bodies that do not reach into each other are parted by a plane of one of their faces (separating axis theorem; upright
/// prisms: a level plane or one through a side of a base). What lies beyond that plane, seen from the viewer, cannot hide the other.
/// Bodies in an order that keeps to all pairs: Kahn's topological sort, the farthest first where it leaves a choice.
/// </remarks>
internal static class PaintOrder
{
    private const double Rounding = 1e-6;

    /// <summary>The bodies from the farthest to the nearest. Quadratic: for some hundreds.</summary>
    /// <param name="meet">Whether two of them, by number, may lie over each other on the sheet.</param>
    internal static ImmutableArray<int> Sort(ImmutableArray<Solid> solids, Func<int, int, bool> meet)
    {
        var waits = new int[solids.Length];
        var before = Enumerable.Range(0, solids.Length).Select(_ => new List<int>()).ToArray();
        for (var a = 0; a < solids.Length; a++)
        {
            for (var b = a + 1; b < solids.Length; b++)
            {
                if (!meet(a, b)) continue;
                var (hides, isHidden) = (CanHide(solids[a], solids[b]), CanHide(solids[b], solids[a]));
                if (hides == isHidden) continue;
                var (first, then) = hides ? (b, a) : (a, b);
                before[first].Add(then);
                waits[then]++;
            }
        }

        var open = new PriorityQueue<int, (double, int)>();
        for (var i = 0; i < solids.Length; i++) if (waits[i] == 0) open.Enqueue(i, (Nearness(solids[i]), i));
        var order = ImmutableArray.CreateBuilder<int>(solids.Length);
        var isDone = new bool[solids.Length];
        while (order.Count < solids.Length)
        {
            // Bodies that hide each other in a circle: the farthest of them goes first.
            if (!open.TryDequeue(out var next, out _))
                next = Enumerable.Range(0, solids.Length).Where(i => !isDone[i]).MinBy(i => (Nearness(solids[i]), i));
            if (isDone[next]) continue;
            isDone[next] = true;
            order.Add(next);
            foreach (var then in before[next])
            {
                if (--waits[then] == 0) open.Enqueue(then, (Nearness(solids[then]), then));
            }
        }

        return order.MoveToImmutable();
    }

    /// <summary>Whether nothing shows that one body cannot hide the other.</summary>
    internal static bool CanHide(Solid one, Solid other)
    {
        if (one.Top <= other.Bottom + Rounding) return false;
        foreach (var (normal, at) in Sides(other))
        {
            var toViewer = normal.X + normal.Y;
            if (toViewer <= Rounding && one.Base.All(point => Along(normal, point) >= at - Rounding)) return false;
        }

        foreach (var (normal, at) in Sides(one))
        {
            var toViewer = normal.X + normal.Y;
            if (toViewer >= -Rounding && other.Base.All(point => Along(normal, point) >= at - Rounding)) return false;
        }

        return true;
    }

    /// <summary>The sides of a body's base: the normal that points away from it, and how far along that the side lies.</summary>
    internal static IEnumerable<(PlanPoint Normal, double At)> Sides(Solid solid)
    {
        var (points, turn) = (solid.Base, Math.Sign(Area(solid.Base)));
        for (var i = 0; i < points.Length; i++)
        {
            var (from, to) = (points[i], points[(i + 1) % points.Length]);
            var length = from.DistanceTo(to);
            if (length <= Rounding) continue;
            var normal = new PlanPoint(turn * (to.Y - from.Y) / length, -turn * (to.X - from.X) / length);
            yield return (normal, Along(normal, from));
        }
    }

    private static double Area(ImmutableArray<PlanPoint> points) => Enumerable.Range(0, points.Length).Sum(i =>
        (points[i].X * points[(i + 1) % points.Length].Y) - (points[(i + 1) % points.Length].X * points[i].Y));

    private static double Along(PlanPoint normal, PlanPoint point) => (normal.X * point.X) + (normal.Y * point.Y);

    private static double Nearness(Solid solid) => solid.Base.Average(point => point.X + point.Y) + ((solid.Bottom + solid.Top) / 2);
}
