using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Journeys;

/// <summary>What happened to each thing, in order.</summary>
internal static class EventHistory
{
    /// <summary>All events: by first possible day, then as the record lists them.</summary>
    public static IEnumerable<ArchiveEvent> InOrder(ArchiveModel record) => record.Events
        .Where(archiveEvent => !archiveEvent.IsWithdrawn)
        .OrderBy(Earliest)
        .ThenBy(archiveEvent => archiveEvent.Span.Path, StringComparer.Ordinal)
        .ThenBy(archiveEvent => archiveEvent.Span.Start);

    /// <summary>Events by the id of what they happened to, each list in that order.</summary>
    public static FrozenDictionary<string, ImmutableArray<ArchiveEvent>> From(ArchiveModel record) => InOrder(record)
        .SelectMany(archiveEvent => SubjectsOf(record, archiveEvent).Select(of => (of, archiveEvent)))
        .GroupBy(each => each.of, each => each.archiveEvent, StringComparer.Ordinal)
        .ToFrozenDictionary(of => of.Key, of => of.ToImmutableArray(), StringComparer.Ordinal);

    /// <summary>Ids, as they are now, of what an event happened to.</summary>
    internal static IEnumerable<string> SubjectsOf(ArchiveModel record, ArchiveEvent archiveEvent) =>
        archiveEvent.Subjects.Select(of => record.Find(of.Value)?.Id).OfType<string>().Distinct();

    /// <summary>The first day on which it can have happened.</summary>
    internal static DateOnly Earliest(ArchiveEvent archiveEvent) => archiveEvent.On?.Value.Earliest ?? DateOnly.MinValue;

    /// <summary>The last day on which it can have happened.</summary>
    internal static DateOnly Latest(ArchiveEvent archiveEvent) => archiveEvent.On?.Value.Latest ?? DateOnly.MaxValue;
}
