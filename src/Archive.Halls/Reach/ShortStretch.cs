using System.Collections.Immutable;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Halls.Reach;

/// <summary>A stretch of a tray, and the cables that would run through it and are too short: the same ones all along it.</summary>
/// <param name="Line">Its points; at least two.</param>
/// <param name="From">Where it begins, from the first point of the tray's line.</param>
/// <param name="To">Where it ends, likewise.</param>
/// <param name="Cables">How many cables are too short.</param>
/// <param name="Shortage">By how much, all of them together.</param>
public sealed record ShortStretch(Tray Tray, ImmutableArray<PlanPoint> Line, Length From, Length To, int Cables, Length Shortage)
{
    // What is shorter than this is the rounding of two places that are one.
    private const double Least = 1;

    /// <summary>All stretches with at least one such cable, tray by tray from the beginning of its line. n log n in legs.</summary>
    /// <param name="legs">The legs of the ways of short cables, each with what its cable is short by, in millimetres.</param>
    internal static ImmutableArray<ShortStretch> Compute(IEnumerable<(TrayLeg Leg, double Short)> legs) =>
    [
        .. legs.Where(each => Math.Abs(each.Leg.From - each.Leg.To) >= Least)
            .GroupBy(each => each.Leg.Tray)
            .OrderBy(tray => tray.Key.Id, StringComparer.Ordinal)
            .SelectMany(tray => Of(tray.Key, tray)),
    ];

    // From each end of a leg to the next: what begins adds, what ends takes away.
    private static IEnumerable<ShortStretch> Of(Tray tray, IEnumerable<(TrayLeg Leg, double Short)> legs)
    {
        var line = TrayLine.From(tray)!;
        var changes = legs.SelectMany(each => Spans(line, each.Leg).SelectMany(span => new[]
            {
                (At: Math.Min(span.From, span.To), Count: 1, each.Short),
                (At: Math.Max(span.From, span.To), Count: -1, Short: -each.Short),
            }))
            .OrderBy(change => change.At)
            .ToList();
        var (count, shortage, from) = (0, 0.0, 0.0);
        for (var i = 0; i < changes.Count;)
        {
            var to = changes[i].At;
            if (count > 0 && to - from >= Least)
                yield return new(tray, line.Stretch(from, to), Length.FromMillimeters(from), Length.FromMillimeters(to), count,
                    Length.FromMillimeters(shortage));
            for (; i < changes.Count && changes[i].At < to + Least; i++)
            {
                count += changes[i].Count;
                shortage += changes[i].Short;
            }

            from = to;
        }
    }

    // Round a ring, the way may pass its beginning.
    private static IEnumerable<(double From, double To)> Spans(TrayLine line, TrayLeg leg)
    {
        var (from, to) = (Math.Min(leg.From, leg.To), Math.Max(leg.From, leg.To));
        return line.IsRing && to - from > line.Length / 2 ? [(0, from), (to, line.Length)] : [(from, to)];
    }
}
