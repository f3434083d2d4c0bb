using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Journeys;

/// <summary>The time that a thing was in a box.</summary>
/// <param name="Box">Id of the box.</param>
/// <param name="Packed">The event that put it in.</param>
/// <param name="Out">The event that shows that it is out again; null while it is in.</param>
public sealed record BoxStay(ArchiveRecord Thing, string Box, ArchiveEvent Packed, ArchiveEvent? Out)
{
    /// <summary>
    /// Boxes inside each other that are followed. Common practice, no source: a bag in a box in a crate on a pallet is four.
    /// </summary>
    internal const int MostNested = 8;

    /// <summary>The stays of a thing, in order.</summary>
    /// <param name="events">What happened to it, in order.</param>
    internal static IEnumerable<BoxStay> Of(ArchiveModel record, ArchiveRecord thing, ImmutableArray<ArchiveEvent> events)
    {
        BoxStay? open = null;
        foreach (var archiveEvent in events)
        {
            var box = BoxAfter(record, open?.Box, archiveEvent);
            if (box == open?.Box) continue;
            if (open is not null) yield return open with { Out = archiveEvent };
            open = box is null ? null : new BoxStay(thing, box, archiveEvent, null);
        }

        if (open is not null) yield return open;
    }

    /// <summary>Id of the box that a thing is in after an event; null if it is in none.</summary>
    /// <param name="before">The box that it was in before.</param>
    internal static string? BoxAfter(ArchiveModel record, string? before, ArchiveEvent archiveEvent) =>
        archiveEvent is { What.Value: EventType.Packed, Into: { } into } ? record.Find<Box>(into.Value)?.Id ?? before
        : Leaves(archiveEvent) ? null
        : before;

    /// <summary>Whether an event shows that a thing is in no box: it was unpacked, is back in its place, or was not found.</summary>
    internal static bool Leaves(ArchiveEvent archiveEvent) => archiveEvent.What?.Value
        is EventType.Unpacked or EventType.Refitted or EventType.Stood or EventType.Fixed or EventType.Laid or EventType.Connected
            or EventType.FoundMissing;
}
