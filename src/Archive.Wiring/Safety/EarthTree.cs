using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.Wiring.Safety;

/// <summary>
/// Which frame each earth conductor earths: earths form a tree that begins where one leaves the record for the building's earth.
/// </summary>
/// <remarks>
/// An earth with one known end begins a tree at its frame. From there on each earth leads away from the building: it earths the frame
/// farther down, and the nearer one keeps it. One between two frames equally far earths both; so does every earth of frames from which none
/// leads out, for then the record does not say which way is up. One that ends on the front of a unit earths no frame there. Linear in
/// earths and their ends.
/// </remarks>
public sealed class EarthTree
{
    private readonly FrozenDictionary<string, ImmutableArray<string>> _framesOf;
    private readonly FrozenDictionary<string, ImmutableArray<string>> _earthsOf;

    private readonly FrozenDictionary<string, int> _depths;

    private EarthTree(Dictionary<string, ImmutableArray<string>> framesOf, Dictionary<string, int> depths)
    {
        _depths = depths.ToFrozenDictionary(StringComparer.Ordinal);
        _framesOf = framesOf.ToFrozenDictionary(StringComparer.Ordinal);
        _earthsOf = framesOf
            .SelectMany(earth => earth.Value.Select(frame => (Frame: frame, Earth: earth.Key)))
            .GroupBy(pair => pair.Frame, pair => pair.Earth, StringComparer.Ordinal)
            .ToFrozenDictionary(
                group => group.Key, group => group.Order(StringComparer.Ordinal).ToImmutableArray(), StringComparer.Ordinal);
    }

    /// <summary>Ids of the frames that a cable earths; empty for one that is no earth.</summary>
    public ImmutableArray<string> FramesOf(string cable) => _framesOf.GetValueOrDefault(cable, []);

    /// <summary>Ids of the earths of a frame, by id; empty where the record knows none.</summary>
    public ImmutableArray<string> EarthsOf(string frame) => _earthsOf.GetValueOrDefault(frame, []);

    /// <summary>
    /// How many earths lie between those of a cable's frames and the building's earth; 0 where it is no earth, or that is not known.
    /// </summary>
    public int DepthOf(string cable) => FramesOf(cable) is [var frame, ..] ? _depths.GetValueOrDefault(frame) : 0;

    /// <summary>What a cable is to a frame where it ends: an earth that earths another frame is one of the other cables here.</summary>
    /// <param name="frame">Id of the frame.</param>
    /// <param name="cable">Id of the cable.</param>
    public CableRole RoleAt(string frame, string cable, CableRole role) =>
        role == CableRole.Earth && !FramesOf(cable).Contains(frame) ? CableRole.Signal : role;

    /// <summary>Finds the tree.</summary>
    /// <param name="readings">The cables and their known ends.</param>
    public static EarthTree From(ArchiveModel record, LabelReadings readings)
    {
        var earths = readings.Cables.Where(reading => CableRoles.Of(record, reading.Cable) == CableRole.Earth)
            .Select(reading => (reading.Cable.Id, Frames: reading.Ends
                .Where(end => end.At.Slot is null)
                .Select(end => end.At.Frame)
                .Distinct(StringComparer.Ordinal)
                .ToImmutableArray())).Where(earth => !earth.Frames.IsEmpty).ToList();
        var depths = Depths(earths);
        return new EarthTree(
            earths.ToDictionary(earth => earth.Id, earth => Earthed(earth.Frames, depths), StringComparer.Ordinal), depths);
    }

    private static ImmutableArray<string> Earthed(ImmutableArray<string> frames, Dictionary<string, int> depths)
    {
        if (!depths.ContainsKey(frames[0])) return frames;
        var least = frames.Min(frame => depths[frame]);
        var farther = frames.RemoveAll(frame => depths[frame] == least);
        return farther.IsEmpty ? frames : farther;
    }

    private static Dictionary<string, int> Depths(List<(string Id, ImmutableArray<string> Frames)> earths)
    {
        var at = earths.SelectMany(earth => earth.Frames.Select(frame => (frame, earth.Frames)))
            .ToLookup(pair => pair.frame, pair => pair.Frames, StringComparer.Ordinal);
        var depths = earths.Where(earth => earth.Frames.Length == 1)
            .Select(earth => earth.Frames[0])
            .Distinct(StringComparer.Ordinal)
            .ToDictionary(frame => frame, _ => 0, StringComparer.Ordinal);
        var waiting = new Queue<string>(depths.Keys);
        while (waiting.TryDequeue(out var frame))
        {
            foreach (var other in at[frame].SelectMany(frames => frames))
            {
                if (depths.TryAdd(other, depths[frame] + 1)) waiting.Enqueue(other);
            }
        }

        return depths;
    }
}
