using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Wiring;

/// <summary>What happened to each thing, in order; and what can have gone before what, for dates may be imprecise.</summary>
internal static class Happenings
{
    /// <summary>Events by the id of what they happened to: by first possible day, then as the record lists them.</summary>
    /// <param name="record">The record.</param>
    public static FrozenDictionary<string, ImmutableArray<ArchiveEvent>> Of(AsFound record) => record.Events
        .Where(happened => !happened.IsWithdrawn)
        .OrderBy(Earliest).ThenBy(happened => happened.Span.Path, StringComparer.Ordinal).ThenBy(happened => happened.Span.Start)
        .SelectMany(happened => happened.Of.Select(of => record.Find(of.Value)?.Id).OfType<string>().Distinct().Select(of => (of, happened)))
        .GroupBy(each => each.of, each => each.happened, StringComparer.Ordinal)
        .ToFrozenDictionary(of => of.Key, of => of.ToImmutableArray(), StringComparer.Ordinal);

    /// <summary>Whether an arrival has certainly no loading of its own: so many went before it, and each needed one.</summary>
    /// <param name="happened">The event.</param>
    /// <param name="all">All events of the same thing.</param>
    public static bool IsArrivalUnloaded(ArchiveEvent happened, ImmutableArray<ArchiveEvent> all) =>
        happened.What?.Value == EventWhat.Arrived
        && all.Count(other => other.What?.Value == EventWhat.Loaded && MayGoBefore(other, happened))
            <= all.Count(other => other.What?.Value == EventWhat.Arrived && GoesBefore(other, happened));

    /// <summary>The loading since which a thing is certainly on the road when something else happens to it; null where it may have been seen since.</summary>
    /// <param name="happened">What happens to it.</param>
    /// <param name="all">All events of the same thing, in order.</param>
    public static ArchiveEvent? OnTheRoadSince(ArchiveEvent happened, ImmutableArray<ArchiveEvent> all) => all.LastOrDefault(loaded =>
        loaded.What?.Value == EventWhat.Loaded && GoesBefore(loaded, happened)
        && !all.Any(seen => !ReferenceEquals(seen, happened) && Journey.ShowsPlace(seen) && MayGoBefore(seen, happened) && MayGoBefore(loaded, seen)));

    /// <summary>Whether one certainly happened on an earlier day than another.</summary>
    public static bool GoesBefore(ArchiveEvent one, ArchiveEvent other) => Latest(one) < Earliest(other);

    /// <summary>Whether one may have happened before another.</summary>
    public static bool MayGoBefore(ArchiveEvent one, ArchiveEvent other) => !ReferenceEquals(one, other) && Earliest(one) <= Latest(other);

    private static DateOnly Earliest(ArchiveEvent happened) => happened.On?.Value.Earliest ?? DateOnly.MinValue;

    private static DateOnly Latest(ArchiveEvent happened) => happened.On?.Value.Latest ?? DateOnly.MaxValue;
}
