using System.Collections.Immutable;
using Archive.Halls.Trays;

namespace Archive.Drawings.Trays;

/// <summary>A cable's circle in a section, in millimetres from the tray's left inside corner up and to the right.</summary>
/// <param name="X">To the right.</param>
/// <param name="Y">Up from the tray's bottom.</param>
/// <param name="Radius">Half its diameter.</param>
internal readonly record struct CableCircle(LyingCable Lying, double X, double Y, double Radius);

/// <summary>Heaps the cables of a tray: side by side, layer upon layer, each resting on what lies under it.</summary>
internal static class CableHeap
{
    private const double Rounding = 1e-6;

    /// <summary>
    /// Circles that don't overlap and don't float. Rows are filled in order and set in the middle; a layer goes on where the one under it
    /// ended, as poured grains do. Quadratic: for hundreds.
    /// </summary>
    /// <param name="cables">Cables with diameters, by layer.</param>
    /// <param name="width">The tray's inside width in millimetres.</param>
    internal static ImmutableArray<CableCircle> Compute(ImmutableArray<LyingCable> cables, double width)
    {
        var heap = ImmutableArray.CreateBuilder<CableCircle>(cables.Length);
        foreach (var row in Rows(cables, width))
        {
            var x = Math.Max(0, width - row.Sum(Diameter)) / 2;
            foreach (var lying in row)
            {
                var radius = Diameter(lying) / 2;
                heap.Add(new CableCircle(lying, x + radius, Rest(heap, x + radius, radius), radius));
                x += 2 * radius;
            }
        }

        return heap.DrainToImmutable();
    }

    private static IEnumerable<List<LyingCable>> Rows(ImmutableArray<LyingCable> cables, double width)
    {
        var row = new List<LyingCable>();
        var filled = 0.0;
        foreach (var lying in cables)
        {
            if (row.Count > 0 && filled + Diameter(lying) > width + Rounding)
            {
                yield return row;
                (row, filled) = ([], 0);
            }

            row.Add(lying);
            filled += Diameter(lying);
        }

        if (row.Count > 0) yield return row;
    }

    // The lowest height at which a circle at x clears all that lie there: on the bottom, or touching one of them from above.
    private static double Rest(ImmutableArray<CableCircle>.Builder heap, double x, double radius)
    {
        var y = radius;
        foreach (var under in heap)
        {
            var (across, reach) = (Math.Abs(x - under.X), radius + under.Radius);
            if (across < reach - Rounding) y = Math.Max(y, under.Y + Math.Sqrt((reach * reach) - (across * across)));
        }

        return y;
    }

    private static double Diameter(LyingCable lying) => lying.Diameter!.Value.Millimeters;
}
