using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Journeys;

/// <summary>What situations have in common.</summary>
public static class Situations
{
    /// <summary>Whether a thing of this situation is in its new place.</summary>
    public static bool IsInPlace(this Situation situation) => situation is Situation.Stood or Situation.Fixed or Situation.Connected;
}

/// <summary>What has happened to a frame, cable or tray since the machine was found, and where it is now.</summary>
/// <param name="Events">What happened to it, in order of date, then as the record lists it.</param>
public sealed record Journey(ArchiveRecord Of, ImmutableArray<ArchiveEvent> Events)
{
    /// <summary>How it stands now.</summary>
    public Situation Situation { get; init; }

    /// <summary>Id of the hall where it was last seen; null where that is not known, as in transit.</summary>
    public string? Hall { get; init; }

    /// <summary>The place in that hall, or with that load, in words; null where none is recorded.</summary>
    public string? Place { get; init; }

    /// <summary>The event that says so; null where none does.</summary>
    public ArchiveEvent? Since { get; init; }

    /// <summary>Whether it was loaded and never seen at any place since.</summary>
    public bool NeverArrived => Situation == Situation.OnTheRoad;

    /// <summary>Its arrivals that no loading can have gone before.</summary>
    public ImmutableArray<ArchiveEvent> NeverLoaded { get; init; } = [];

    /// <summary>Whether harm to it was recorded.</summary>
    public bool IsDamaged => Events.Any(archiveEvent => archiveEvent.What?.Value == EventType.Damaged);

    /// <summary>Whether an id, the present one or a former one, is that of this thing.</summary>
    public bool IsOf(string id) => Of.Id == id || Of.Was.Any(was => was.Value == id);

    // Whether a thing was seen at some place: then it is not in transit, whatever was written before.
    internal static bool ShowsPlace(ArchiveEvent archiveEvent) =>
        archiveEvent.What?.Value is EventType.Arrived or EventType.Stood or EventType.Fixed or EventType.FoundMissing
            || (archiveEvent.What?.Value != EventType.Loaded && archiveEvent.ToHall is not null);
}

/// <summary>The journeys of all frames and cables that stand, and of trays that something happened to.</summary>
public sealed class JourneyIndex
{
    private JourneyIndex(ImmutableArray<Journey> all) => All = all;

    /// <summary>Frames, then cables, then trays; each by id.</summary>
    public ImmutableArray<Journey> All { get; }

    /// <summary>Works all journeys out. Linear in records and events, but for sorting.</summary>
    public static JourneyIndex From(ArchiveModel record)
    {
        var events = EventHistory.From(record);
        var hall = record.AsFoundHall?.Id;
        return new JourneyIndex(
        [
            .. record.Frames
                .Cast<ArchiveRecord>()
                .Concat(record.Cables)
                .Concat(record.Trays.Where(tray => events.ContainsKey(tray.Id)))
                .Where(each => !each.IsWithdrawn)
                .Select(each => Follow(record, new Journey(each, events.GetValueOrDefault(each.Id, [])) { Hall = hall })),
        ]);
    }

    private static Journey Follow(ArchiveModel record, Journey journey)
    {
        // How it stood before it was last loaded or missed.
        var before = Situation.Arrived;
        var timeline = new Timeline(journey.Events);
        var ends = EndConnections.Nothing(record);
        foreach (var archiveEvent in journey.Events)
        {
            ends.Note(journey, archiveEvent);
            var next = Next(journey, archiveEvent, before, ends);
            if (next.Situation is Situation.OnTheRoad or Situation.Missing && ReferenceEquals(next.Since, archiveEvent))
            {
                before = journey.Situation is Situation.OnTheRoad or Situation.Missing ? Situation.Arrived : journey.Situation;
            }

            journey = next;
        }

        return journey with { NeverLoaded = [.. journey.Events.Where(timeline.IsArrivalUnloaded)] };
    }

    private static Journey Next(Journey journey, ArchiveEvent archiveEvent, Situation before, EndConnections ends)
    {
        var stand = archiveEvent.What?.Value switch
        {
            // One end alone says nothing of where the cable is.
            EventType.Disconnected when !EndConnections.IsWhole(journey, archiveEvent)
                && journey.Situation is not (Situation.AsFound or Situation.Connected) => journey.Situation,
            EventType.Connected when !EndConnections.IsWhole(journey, archiveEvent)
                && !(journey.Of is Cable cable && ends.AreConnected(cable)) => journey.Situation,
            EventType.Disconnected => Situation.Disconnected,
            EventType.Removed => Situation.Removed,
            EventType.Coiled => Situation.Coiled,
            EventType.Severed => Situation.Severed,
            EventType.Loaded => Situation.OnTheRoad,
            EventType.Arrived => Situation.Arrived,
            EventType.Stood => Situation.Stood,
            EventType.Fixed => Situation.Fixed,
            EventType.Laid => Situation.Laid,
            EventType.Connected => Situation.Connected,
            EventType.FoundMissing => Situation.Missing,
            // Seen at a place, it is neither in transit nor missing; how it is there is not said again.
            _ when Journey.ShowsPlace(archiveEvent) && journey.Situation is Situation.OnTheRoad or Situation.Missing => before,
            _ => journey.Situation,
        };
        if (stand is Situation.OnTheRoad or Situation.Missing)
            return journey with { Situation = stand, Hall = null, Place = archiveEvent.ToPlace?.Value, Since = archiveEvent };
        if (archiveEvent.ToHall is null && archiveEvent.What?.Value != EventType.Arrived)
            return stand == journey.Situation ? journey : journey with { Situation = stand, Since = archiveEvent };
        return journey with
        {
            Situation = stand,
            Hall = archiveEvent.ToHall?.Value,
            Place = archiveEvent.ToPlace?.Value,
            Since = archiveEvent
        };
    }
}
