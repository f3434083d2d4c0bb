using System.Collections.Immutable;

namespace Archive.Intake.FloorGrids;

/// <summary>Regions of squares, and the lines around them.</summary>
internal static class GridFields
{
    /// <summary>
    /// What walls enclose: squares that cannot be reached from outside without crossing a line. Frames are passed through.
    /// </summary>
    /// <returns>Regions that hold more than frames, each whole; the largest first.</returns>
    internal static ImmutableArray<HashSet<(int Row, int Column)>> Enclosed(FloorGrid grid, IEnumerable<GridFrame> frames)
    {
        var ofFrames = frames.SelectMany(frame => GridFrames.Squares(frame.Block)).ToHashSet();
        var used = grid.Used;
        var outside = Reach((used.Top - 1, used.Left - 1), Around, (from, to) => !grid.HasLine(from, to));
        var left = GridFrames.Squares(used).Where(square => !outside.Contains(square)).ToHashSet();
        var regions = new List<HashSet<(int Row, int Column)>>();
        foreach (var square in GridFrames.Squares(used))
        {
            if (!left.Contains(square) || ofFrames.Contains(square)) continue;
            var region = Reach(
                square,
                to => left.Contains(to),
                (from, to) => ofFrames.Contains(from) || ofFrames.Contains(to) || !grid.HasLine(from, to));
            left.ExceptWith(region);
            regions.Add(region);
        }

        return [.. regions.OrderByDescending(region => region.Count)];

        bool Around((int Row, int Column) to) =>
            to.Row >= used.Top - 1 && to.Row <= used.Bottom + 1 && to.Column >= used.Left - 1 && to.Column <= used.Right + 1;
    }

    /// <summary>Parts of a set of squares that hang together.</summary>
    internal static ImmutableArray<HashSet<(int Row, int Column)>> Parts(IReadOnlySet<(int Row, int Column)> squares)
    {
        var parts = ImmutableArray.CreateBuilder<HashSet<(int Row, int Column)>>();
        var seen = new HashSet<(int, int)>();
        foreach (var square in squares.Order())
        {
            if (seen.Contains(square)) continue;
            var part = Reach(square, squares.Contains, (_, _) => true);
            seen.UnionWith(part);
            parts.Add(part);
        }

        return parts.ToImmutable();
    }

    /// <summary>The corners of a region, clockwise from its first; holes are passed over. In squares from the sheet's corner.</summary>
    internal static ImmutableArray<(int X, int Y)> Corners(IReadOnlySet<(int Row, int Column)> region)
    {
        // Walked with the region to the right, from the west end of its first square's north side.
        var start = region.Min();
        var corners = ImmutableArray.CreateBuilder<(int, int)>();
        var (x, y, heading) = (start.Column - 1, start.Row - 1, 0); // 0 east, 1 south, 2 west, 3 north
        var begin = (x, y, heading);
        do
        {
            var (dx, dy) = heading switch { 0 => (1, 0), 1 => (0, 1), 2 => (-1, 0), _ => (0, -1) };
            (x, y) = (x + dx, y + dy);
            var (ahead, right) = heading switch
            {
                0 => ((Row: y, Column: x + 1), (Row: y + 1, Column: x + 1)),
                1 => ((y + 1, x + 1), (y + 1, x)),
                2 => ((y + 1, x), (y, x)),
                _ => ((y, x), (y, x + 1)),
            };
            var turn = !region.Contains(right) ? 1 : !region.Contains(ahead) ? 0 : 3;
            if (turn != 0) corners.Add((x, y));
            heading = (heading + turn) % 4;
        }
        while ((x, y, heading) != begin);

        return [corners[^1], .. corners.Take(corners.Count - 1)];
    }

    private static HashSet<(int Row, int Column)> Reach(
        (int Row, int Column) start, Func<(int, int), bool> isWithin, Func<(int, int), (int, int), bool> isOpen)
    {
        var seen = new HashSet<(int Row, int Column)> { start };
        var next = new Queue<(int Row, int Column)>([start]);
        while (next.TryDequeue(out var square))
        {
            foreach (var (down, across) in FloorGrid.Steps)
            {
                var to = (square.Row + down, square.Column + across);
                if (!seen.Contains(to) && isWithin(to) && isOpen(square, to))
                {
                    seen.Add(to);
                    next.Enqueue(to);
                }
            }
        }

        return seen;
    }
}
