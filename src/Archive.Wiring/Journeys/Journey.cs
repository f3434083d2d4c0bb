using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Journeys;

/// <summary>What situations have in common.</summary>
public static class Situations
{
    /// <summary>Whether a thing of this situation is in its new place.</summary>
    public static bool IsInPlace(this Situation situation) => situation is Situation.Stood or Situation.Fixed or Situation.Connected;
}

/// <summary>What has happened to a frame, cable, tray, unit, piece or box since the machine was found, and where it is now.</summary>
/// <param name="Events">What happened to it, in order of date, then as the record lists it.</param>
public sealed record Journey(ArchiveRecord Of, ImmutableArray<ArchiveEvent> Events)
{
    /// <summary>How it stands now.</summary>
    public Situation Situation { get; init; }

    /// <summary>Id of the hall where it was last seen; null where that is not known, as in transit.</summary>
    public string? Hall { get; init; }

    /// <summary>The place in that hall, or with that load, in words; null where none is recorded.</summary>
    public string? Place { get; init; }

    /// <summary>The event that says so, of the thing or of the box that it is in; null where none does.</summary>
    public ArchiveEvent? Since { get; init; }

    /// <summary>Id of the box that it is in; null for none.</summary>
    public string? Box { get; init; }

    /// <summary>
    /// Whether its box arrived and was opened, and no event says that it came out: the box answers for it no longer.
    /// </summary>
    public bool IsToBeFound { get; init; }

    /// <summary>The turn of the event that put it into its box.</summary>
    internal int PackedAt { get; init; } = -1;

    /// <summary>
    /// The turn of the event by which it, or the box that it was in, arrived; -1 if it has not since it was packed or loaded.
    /// </summary>
    internal int ArrivedAt { get; init; } = -1;

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
