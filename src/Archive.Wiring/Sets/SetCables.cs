using System.Collections.Immutable;
using Archive.Wiring.Labels;

namespace Archive.Wiring.Sets;

/// <summary>The cables of a working set.</summary>
/// <param name="Inside">All known ends in the set, two at least.</param>
/// <param name="Edge">Ends in the set and ends outside.</param>
/// <param name="Loose">A single known end, in the set.</param>
internal readonly record struct SetCables(
    ImmutableArray<CableReading> Inside, ImmutableArray<EdgeCable> Edge, ImmutableArray<CableReading> Loose)
{
    /// <summary>Sorts all cables. Linear in ends.</summary>
    /// <param name="readings">What is known of them.</param>
    /// <param name="frames">Ids of the set's frames.</param>
    public static SetCables From(LabelReadings readings, HashSet<string> frames)
    {
        var (inside, edge, loose) = (
            ImmutableArray.CreateBuilder<CableReading>(),
            ImmutableArray.CreateBuilder<EdgeCable>(),
            ImmutableArray.CreateBuilder<CableReading>());
        foreach (var reading in readings.Cables)
        {
            ImmutableArray<KnownEnd> staying = [.. reading.Ends.Where(end => frames.Contains(end.At.Frame))];
            if (staying.IsEmpty) continue;
            if (staying.Length < reading.Ends.Length)
                edge.Add(new EdgeCable(reading, staying, [.. reading.Ends.Where(end => !frames.Contains(end.At.Frame))]));
            else if (staying.Length > 1) inside.Add(reading);
            else loose.Add(reading);
        }

        return new SetCables(inside.ToImmutable(), edge.ToImmutable(), loose.ToImmutable());
    }
}
