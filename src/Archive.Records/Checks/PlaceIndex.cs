using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>The places that frames declare: which addresses exist. Leading zeros don't matter.</summary>
/// <remarks>
/// A frame that declares no positions has any; a position that declares no ports has any. Not thread-safe: frames are indexed on first
/// need.
/// </remarks>
public sealed class PlaceIndex(ArchiveModel record)
{
    // More ranges than anyone writes by hand are indexed.
    private const int FewRanges = 16;

    private readonly Dictionary<string, Dictionary<string, Position>> _frames = new(StringComparer.Ordinal);
    private readonly Dictionary<Position, PortSet> _ports = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<Position, PortSet> _slots = new(ReferenceEqualityComparer.Instance);

    /// <summary>Finds a place.</summary>
    /// <returns>The frame and position it names as far as they exist, and which part does not.</returns>
    public AddressTarget Find(Address address)
    {
        if (record.FrameAt(address) is not { } frame) return new(null, null, MissingAddressPart.Frame);
        if (address.Position is not { } named || frame.Positions.IsEmpty) return new(frame, null, MissingAddressPart.None);
        if (!PositionsOf(frame).TryGetValue(named, out var position)) return new(frame, null, MissingAddressPart.Position);
        if (address.Slot is { } slot)
        {
            var lacksSlot = !position.Slots.IsEmpty && !HasSlot(position, slot);
            return new(frame, position, lacksSlot ? MissingAddressPart.Slot : MissingAddressPart.None);
        }

        var lacksPort = address.Port is { } port && !position.Ports.IsEmpty && !Declares(position, port);
        return new(frame, position, lacksPort ? MissingAddressPart.Port : MissingAddressPart.None);
    }

    /// <summary>Whether a position declares a slot.</summary>
    public bool HasSlot(Position position, string slot)
    {
        if (position.Slots.Length <= FewRanges) return position.Slots.Any(range => range.Contains(slot));
        if (!_slots.TryGetValue(position, out var slots)) _slots[position] = slots = new PortSet(position.Slots);
        return slots.Contains(slot);
    }

    private Dictionary<string, Position> PositionsOf(Frame frame)
    {
        if (_frames.TryGetValue(frame.Id, out var positions)) return positions;
        positions = new(frame.Positions.Length, LeadingZeros.Comparer);
        foreach (var position in frame.Positions) positions.TryAdd(position.Id.Value, position);
        return _frames[frame.Id] = positions;
    }

    private bool Declares(Position position, string port)
    {
        if (position.Ports.Length <= FewRanges) return position.Ports.Any(range => range.Contains(port));
        if (!_ports.TryGetValue(position, out var ports)) _ports[position] = ports = new PortSet(position.Ports);
        return ports.Contains(port);
    }
}

/// <summary>What an address names.</summary>
/// <param name="Frame">The frame; null where there is none.</param>
/// <param name="Position">The position as the frame declares it; null where none is named, declared or found.</param>
/// <param name="Lack">The first part of the address that does not exist.</param>
public readonly record struct AddressTarget(Frame? Frame, Position? Position, MissingAddressPart Lack);

/// <summary>The first part of an address that does not exist.</summary>
public enum MissingAddressPart
{
    /// <summary>The place exists.</summary>
    None,

    /// <summary>There is no such frame.</summary>
    Frame,

    /// <summary>The frame declares positions, and not this one.</summary>
    Position,

    /// <summary>The position declares ports, and not this one.</summary>
    Port,

    /// <summary>The position declares slots, and not this one.</summary>
    Slot,
}

/// <summary>The ports of one position, for look-up in logarithmic time however many ranges declare them.</summary>
internal sealed class PortSet
{
    private readonly HashSet<string> _names = new(LeadingZeros.Comparer);
    private readonly Dictionary<string, List<(int First, int Last)>> _ranges = new(LeadingZeros.Comparer);

    public PortSet(ImmutableArray<PortRange> declared)
    {
        foreach (var range in declared.OrderBy(range => range.First))
        {
            if (range is not { First: { } first, Last: { } last }) _names.Add(range.Prefix);
            else if (!_ranges.TryGetValue(range.Prefix, out var ranges)) _ranges[range.Prefix] = [(first, last)];
            else if (ranges[^1].Last < first) ranges.Add((first, last));
            else ranges[^1] = (ranges[^1].First, Math.Max(ranges[^1].Last, last));
        }
    }

    /// <summary>Whether the position declares a port.</summary>
    public bool Contains(string port) => PortRange.TryParse(port, default, out var one, out _) && Holds(one);

    private bool Holds(PortRange one)
    {
        if (one.First is not { } number) return _names.Contains(one.Prefix);
        if (!_ranges.TryGetValue(one.Prefix, out var ranges)) return false;
        int low = 0, high = ranges.Count - 1;
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (ranges[middle].First <= number) low = middle;
            else high = middle - 1;
        }

        return ranges[low].First <= number && number <= ranges[low].Last;
    }
}
