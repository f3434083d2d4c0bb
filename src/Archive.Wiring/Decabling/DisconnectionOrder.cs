using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>What is disconnected before what, as <see cref="OrderRules.Disconnecting"/> has it; what lies on what plays no part.</summary>
/// <remarks>Linear in cables and their ends: each frame's cables are gone through once.</remarks>
internal sealed class DisconnectionOrder
{
    private readonly EarthTree _earths;
    private readonly Dictionary<string, (List<(CableReading Reading, CableRole Role)> Cables, int Next)> _at = new(StringComparer.Ordinal);
    private readonly HashSet<string> _off = new(StringComparer.Ordinal);

    /// <summary>Nothing disconnected yet.</summary>
    /// <param name="all">The cables, in the order in which they are disconnected where no rule says otherwise.</param>
    public DisconnectionOrder(ArchiveModel record, EarthTree earths, IEnumerable<CableReading> all)
    {
        _earths = earths;
        var roles = all.Select(reading => (Reading: reading, Role: CableRoles.Of(record, reading.Cable))).ToList();
        foreach (var cable in roles)
        {
            foreach (var frame in FramesOf(cable.Reading))
            {
                if (!_at.TryGetValue(frame, out var here)) _at[frame] = here = ([], 0);
                here.Cables.Add(cable);
            }
        }

        First = [.. roles.Where(cable => OrderRules.FeedersFirst.Roles.Contains(cable.Role))
            .OrderBy(cable => OrderRules.Disconnecting.Rank(cable.Role))
            .ThenByDescending(cable => cable.Role)
            .Select(cable => cable.Reading)];
        _off.UnionWith(First.Select(reading => reading.Cable.Id));
    }

    /// <summary>What is disconnected before anything else, in order: outside lines, feeders, and what may be a feeder.</summary>
    public ImmutableArray<CableReading> First { get; }

    /// <summary>Disconnects a cable, and before it what must come before it.</summary>
    /// <returns>What is disconnected, in order; nothing if it is off already.</returns>
    public List<CableReading> Disconnect(CableReading cable)
    {
        var order = new List<CableReading>();
        var open = new Stack<CableReading>([cable]);
        while (open.TryPeek(out var next))
        {
            if (_off.Contains(next.Cable.Id)) open.Pop();
            else if (Before(next) is { } other) open.Push(other);
            else if (_off.Add(open.Pop().Cable.Id)) order.Add(next);
        }

        return order;
    }

    private static IEnumerable<string> FramesOf(CableReading reading) =>
        reading.Ends.Select(end => end.At.Frame).Distinct(StringComparer.Ordinal);

    // What is still connected to a frame that the cable earths, and is none of its earths.
    private CableReading? Before(CableReading cable)
    {
        foreach (var frame in _earths.FramesOf(cable.Cable.Id))
        {
            if (!_at.TryGetValue(frame, out var here)) continue;
            while (here.Next < here.Cables.Count)
            {
                var (reading, role) = here.Cables[here.Next];
                if (!_off.Contains(reading.Cable.Id) && _earths.RoleAt(frame, reading.Cable.Id, role) != CableRole.Earth) return reading;
                here.Next++;
                _at[frame] = here;
            }
        }

        return null;
    }
}
