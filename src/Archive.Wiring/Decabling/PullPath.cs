using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.Wiring.Decabling;

/// <summary>From where to where a cable is pulled back.</summary>
/// <param name="From">The ends that are disconnected and pulled; none where the other end is not known.</param>
/// <param name="To">The end that it is pulled back to: that which stays connected, for a coil; null where no end is known.</param>
/// <param name="Trays">Ids of the trays that it leaves, in order from the disconnected end.</param>
public sealed record PullPath(ImmutableArray<KnownEnd> From, KnownEnd? To, ImmutableArray<string> Trays)
{
    /// <summary>Of a step in which nothing is pulled.</summary>
    public static PullPath None { get; } = new([], null, []);

    /// <summary>Decides which way a cable is pulled.</summary>
    /// <param name="reading">The cable and its known ends.</param>
    /// <param name="leaves">How soon a frame is free to go: the sooner, the less.</param>
    /// <returns>
    /// A coil is pulled back to the frame that it stays connected to. Any other cable is pulled away from the frame that leaves first, so
    /// that nothing hangs from that; where both go together, back to the first end that the record names.
    /// </returns>
    public static PullPath Create(ArchiveModel record, CableReading reading, Func<string, int> leaves)
    {
        var trays = reading.Cable.LiesIn.Select(tray => record.Find<Tray>(tray.Value)?.Id ?? tray.Value).ToImmutableArray();
        if (reading.Ends.IsEmpty) return new PullPath([], null, trays);
        var to = CoilEnd(record, reading)
            ?? Enumerable.Range(0, reading.Ends.Length).MaxBy(end => (leaves(reading.Ends[end].At.Frame), -end));
        return new PullPath(reading.Ends.RemoveAt(to), reading.Ends[to], IsFirst(reading, to) ? [.. trays.Reverse()] : trays);
    }

    /// <summary>
    /// Which known end a coil stays connected to; null where there is none, or it is no coil. One on the front of a unit comes off if
    /// another can stay.
    /// </summary>
    internal static int? CoilEnd(ArchiveModel record, CableReading reading)
    {
        if (reading.Cable is not { Fate.Value: Fate.Coil, CoilTo: { } to } || record.Find<Frame>(to.Value) is not { } frame) return null;
        return Enumerable.Range(0, reading.Ends.Length)
            .Where(end => reading.Ends[end].At.Frame == frame.Id)
            .OrderBy(end => reading.Ends[end].At.Slot is not null)
            .Select(end => (int?)end)
            .FirstOrDefault();
    }

    // Trays are listed from the first end of the record; an end known from print alone is first where the record names none.
    private static bool IsFirst(CableReading reading, int end) =>
        reading.Cable.Ends.IsEmpty
            ? end == 0
            : reading.Ends[end].Seen is { } seen
            ? ReferenceEquals(seen, reading.Cable.Ends[0])
            : reading.Cable.Ends[0].At is null;
}
