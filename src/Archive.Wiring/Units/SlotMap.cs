using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;

namespace Archive.Wiring.Units;

/// <summary>A slot of a frame as found, or several in a row that were empty.</summary>
/// <param name="Position">The position as written; null for units of which only the frame is known.</param>
/// <param name="Slot">The slot, or a range of empty ones such as <c>5..8</c>; null where it is not known.</param>
/// <param name="Unit">What was in it; null if it was empty.</param>
public sealed record SlotLine(string? Position, string? Slot, Unit? Unit)
{
    /// <summary>How many slots it is of: one, or as many as the range has.</summary>
    public int Count { get; init; } = 1;
}

/// <summary>Which unit was in which slot of a frame.</summary>
internal static class SlotMap
{
    /// <summary>
    /// Positions as the frame lists them, then others that units name, then units of which only the frame is known; in each, slots in the
    /// order in which they are declared. A range is never expanded: empty slots that follow each other are one line.
    /// </summary>
    public static ImmutableArray<SlotLine> Create(Frame frame, IEnumerable<Unit> units)
    {
        var at = units.ToLookup(unit => unit.At!.Value.Value.At.Position ?? "", LeadingZeros.Comparer);
        var declared = new HashSet<string>(LeadingZeros.Comparer);
        var lines = ImmutableArray.CreateBuilder<SlotLine>();
        foreach (var position in frame.Positions)
        {
            if (declared.Add(position.Id.Value)) lines.AddRange(Of(position, at[position.Id.Value]));
        }

        foreach (var other in at.Where(group => group.Key.Length > 0 && !declared.Contains(group.Key))
            .OrderBy(group => new NaturalSortKey(group.Key)))
        {
            lines.AddRange(Sorted(other).Select(unit => new SlotLine(other.Key, unit.At!.Value.Value.Slot, unit)));
        }

        lines.AddRange(Sorted(at[""]).Select(unit => new SlotLine(null, null, unit)));
        return lines.ToImmutable();
    }

    private static IEnumerable<SlotLine> Of(Position position, IEnumerable<Unit> units)
    {
        var name = position.Id.Value;
        var left = Sorted(units).ToList();
        foreach (var range in position.Slots)
        {
            var here = left.Where(unit => unit.At!.Value.Value.Slot is { } slot && range.Contains(slot)).ToList();
            if (here.Count > 0) left = [.. left.Except(here)];
            if (range is not { First: { } next, Last: { } last })
            {
                if (here.Count == 0) yield return new SlotLine(name, range.Prefix, null);
                foreach (var unit in here) yield return new SlotLine(name, range.Prefix, unit);
                continue;
            }

            foreach (var (number, unit) in here
                .Select(unit => (Number: NumberOf(unit.At!.Value.Value.Slot!), Unit: unit))
                .OrderBy(each => each.Number))
            {
                if (number > next) yield return Empty(range, next, number - 1);
                yield return new SlotLine(name, (range with { First = number, Last = number }).FirstName, unit);
                next = number + 1;
            }

            if (next <= last) yield return Empty(range, next, last);
        }

        foreach (var unit in left) yield return new SlotLine(name, unit.At!.Value.Value.Slot, unit);

        SlotLine Empty(PortRange range, int from, int to)
        {
            var free = range with { First = from, Last = to };
            return new SlotLine(name, from == to ? free.FirstName : $"{free.FirstName}..{free.LastName}", null)
            {
                Count = to - from + 1,
            };
        }
    }

    private static IEnumerable<Unit> Sorted(IEnumerable<Unit> units) =>
        units.OrderBy(unit => new NaturalSortKey(unit.At!.Value.Value.Slot ?? "")).ThenBy(unit => unit.Id, StringComparer.Ordinal);

    // The number at the end of a slot that a range contains.
    private static int NumberOf(string slot) => PortRange.TryParse(slot, default, out var one, out _) ? one.First ?? 0 : 0;
}
