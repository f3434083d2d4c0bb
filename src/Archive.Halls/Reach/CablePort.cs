using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Halls.Reach;

/// <summary>
/// A cable and where its ends are known to be: seen, or read from its label by the project that puts the others together.
/// </summary>
/// <param name="Ends">The places, the first end first; two usually.</param>
public readonly record struct WiredCable(Cable Cable, ImmutableArray<Address> Ends)
{
    /// <summary>A cable and the places where its ends were seen.</summary>
    public static WiredCable AsSeen(Cable cable) => new(cable, [.. cable.Ends.Select(end => end.At?.Value).OfType<Address>()]);

    /// <summary>Whether the places are those where its ends were seen, and no others.</summary>
    public bool IsAsSeen
    {
        get
        {
            var known = 0;
            foreach (var end in Cable.Ends)
            {
                if (end.At is not { } at) continue;
                if (known == Ends.Length || Ends[known++] != at.Value) return false;
            }

            return known == Ends.Length;
        }
    }
}

/// <summary>Where a cable enters a frame.</summary>
/// <param name="At">The place as the record names it.</param>
/// <param name="Height">Height above the floor: the middle of its position; null where that is not recorded.</param>
public readonly record struct CablePort(Address At, Frame Frame, Length? Height)
{
    /// <summary>
    /// The run inside the frame: from the port's height up to the frame's top. A port of unknown height is taken to be at the frame's top,
    /// so that it has none. Null where the frame's height is not recorded.
    /// </summary>
    public Length? RunToTop =>
        Frame.Size is { Value.Height: var top } ? Height is { } height ? UnitMath.Abs(top - height) : Length.Zero : null;
}

/// <summary>Finds the ports that addresses name. Safe to ask from several threads.</summary>
internal sealed class PortFinder(ArchiveModel record)
{
    private readonly ConcurrentDictionary<string, Dictionary<string, Length>> _heights = new(StringComparer.Ordinal);

    /// <summary>The port at an address; null where its frame does not exist or is withdrawn.</summary>
    public CablePort? Find(Address address)
    {
        if (record.FrameAt(address) is not { IsWithdrawn: false } frame) return null;
        Length? height = address.Position is { } position
            && _heights.GetOrAdd(frame.Id, HeightsOf, frame).TryGetValue(position, out var middle) ? middle : null;
        return new CablePort(address, frame, height);
    }

    private static Dictionary<string, Length> HeightsOf(string id, Frame frame)
    {
        var heights = new Dictionary<string, Length>(LeadingZeros.Comparer);
        foreach (var position in frame.Positions)
        {
            if (position is { FromFloor: { } floor, Height: { } height })
                heights.TryAdd(position.Id.Value, floor.Value + (height.Value / 2));
        }

        return heights;
    }
}
