using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Journeys;

/// <summary>
/// All events of one thing, made ready to tell what can have gone before what, for dates may be imprecise: one certainly goes before
/// another where its last possible day is earlier than the other's first, and may go before it where its first possible day is no later
/// than the other's last.
/// </summary>
/// <remarks>Made in n log n; each question costs log n.</remarks>
internal sealed class Timeline
{
    // First days of loadings, and last days of arrivals, in order.
    private readonly DateOnly[] _loadedFrom, _arrivedUntil;

    // Loadings by their last day, and of each and those before it the one that the record lists last.
    private readonly DateOnly[] _loadedUntil;
    private readonly (ArchiveEvent Loaded, int Place)[] _latestLoaded;

    // Sightings by their first day, and of each and those before it the two that have the latest last days.
    private readonly DateOnly[] _seenFrom;
    private readonly (ArchiveEvent One, ArchiveEvent? Other)[] _latestSeen;

    /// <summary>Makes it ready.</summary>
    /// <param name="all">The events, by first possible day, then as the record lists them.</param>
    public Timeline(ImmutableArray<ArchiveEvent> all)
    {
        var loaded = all.Where(archiveEvent => archiveEvent.What?.Value == EventType.Loaded).ToList();
        _loadedFrom = [.. loaded.Select(EventHistory.Earliest)];
        _arrivedUntil = [.. all.Where(archiveEvent => archiveEvent.What?.Value == EventType.Arrived).Select(EventHistory.Latest).Order()];

        var byEnd = loaded.Index().OrderBy(each => EventHistory.Latest(each.Item)).ToList();
        _loadedUntil = [.. byEnd.Select(each => EventHistory.Latest(each.Item))];
        _latestLoaded = new (ArchiveEvent, int)[byEnd.Count];
        for (var i = 0; i < byEnd.Count; i++)
        {
            var (place, item) = byEnd[i];
            _latestLoaded[i] = i > 0 && _latestLoaded[i - 1].Place > place ? _latestLoaded[i - 1] : (item, place);
        }

        var seen = all.Where(Journey.ShowsPlace).ToList();
        _seenFrom = [.. seen.Select(EventHistory.Earliest)];
        _latestSeen = new (ArchiveEvent, ArchiveEvent?)[seen.Count];
        for (var i = 0; i < seen.Count; i++) _latestSeen[i] = i == 0 ? (seen[0], null) : Later(_latestSeen[i - 1], seen[i]);
    }

    /// <summary>Whether an arrival has certainly no loading of its own: so many went before it, and each needed one.</summary>
    public bool IsArrivalUnloaded(ArchiveEvent archiveEvent) => archiveEvent.What?.Value == EventType.Arrived
        && CountBefore(_loadedFrom, EventHistory.Latest(archiveEvent), isWithin: true) <= CountBefore(
            _arrivedUntil, EventHistory.Earliest(archiveEvent), isWithin: false);

    /// <summary>
    /// The loading since which a thing is certainly in transit when something else happens to it; null where it may have been seen since.
    /// </summary>
    public ArchiveEvent? OnTheRoadSince(ArchiveEvent archiveEvent)
    {
        var before = CountBefore(_loadedUntil, EventHistory.Earliest(archiveEvent), isWithin: false);
        if (before == 0) return null;
        var loaded = _latestLoaded[before - 1].Loaded;
        var sightings = CountBefore(_seenFrom, EventHistory.Latest(archiveEvent), isWithin: true);
        if (sightings == 0) return loaded;

        // Whatever was loaded earlier may have been seen since, too.
        var (one, other) = _latestSeen[sightings - 1];
        var seen = ReferenceEquals(one, archiveEvent) ? other : one;
        return seen is not null && EventHistory.Latest(seen) >= EventHistory.Earliest(loaded) ? null : loaded;
    }

    private static (ArchiveEvent One, ArchiveEvent? Other) Later((ArchiveEvent One, ArchiveEvent? Other) latest, ArchiveEvent seen)
    {
        if (EventHistory.Latest(seen) > EventHistory.Latest(latest.One)) return (seen, latest.One);
        return latest.Other is null || EventHistory.Latest(seen) > EventHistory.Latest(latest.Other) ? (latest.One, seen) : latest;
    }

    // How many of some days in order are earlier than one, or with it no later.
    private static int CountBefore(DateOnly[] days, DateOnly day, bool isWithin)
    {
        int low = 0, high = days.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (days[middle] < day || (isWithin && days[middle] == day)) low = middle + 1;
            else high = middle;
        }

        return low;
    }
}
