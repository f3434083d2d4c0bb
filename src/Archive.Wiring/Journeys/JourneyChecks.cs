using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Wiring.Journeys;

/// <summary>What can follow what: only what was loaded arrives, and nothing is worked on while it is in transit.</summary>
/// <remarks>Reported is only what is certain: where dates leave it open which came first, nothing is said.</remarks>
public static class JourneyChecks
{
    /// <summary>Checks all events.</summary>
    /// <returns>What cannot be, in <see cref="Diagnostic.Order"/>; one a thing and event.</returns>
    public static ImmutableArray<Diagnostic> Check(ArchiveModel record)
    {
        var named = new Dictionary<ArchiveEvent, Dictionary<string, SourceSpan>>(ReferenceEqualityComparer.Instance);
        return DiagnosticList.Collect(EventHistory.From(record).SelectMany(thing =>
        {
            var timeline = new Timeline(thing.Value);
            return thing.Value.Select(archiveEvent => Judge(record, thing.Key, archiveEvent, timeline, named)).OfType<Diagnostic>()
                .Concat(EventOrder.Check(record, thing.Key, thing.Value));
        }));
    }

    private static Diagnostic? Judge(
        ArchiveModel record,
        string thing,
        ArchiveEvent archiveEvent,
        Timeline timeline,
        Dictionary<ArchiveEvent, Dictionary<string, SourceSpan>> named)
    {
        var noun = record.Find(thing)!.RecordKind.Noun();
        if (timeline.IsArrivalUnloaded(archiveEvent))
        {
            return DiagnosticDescriptors.ArrivalOfNothingLoaded.At(
                Named(archiveEvent),
                $"{noun} `{thing}` arrives in event `{archiveEvent.Id}`, but no event loaded it",
                "add the event that loaded it, or correct the id or the date");
        }

        if (!MovesOrWorks(archiveEvent) || timeline.OnTheRoadSince(archiveEvent) is not { } loaded) return null;
        return DiagnosticDescriptors.EventOnTheRoad.At(
            Named(archiveEvent),
            $"{noun} `{thing}` is {Word(archiveEvent)} in event `{archiveEvent.Id}` while it is in transit",
            "add the event in which it arrived, or correct the id or the date",
            new Related(Named(loaded), $"loaded here, by `{loaded.Id}`, without an arrival"));

        // An event may name very many things: where it names each is found once.
        SourceSpan Named(ArchiveEvent by)
        {
            if (!named.TryGetValue(by, out var places))
            {
                named[by] = places = new(StringComparer.Ordinal);
                foreach (var of in by.Of)
                {
                    if (record.Find(of.Value) is { } each) places.TryAdd(each.Id, of.Span);
                }
            }

            return places[thing];
        }
    }

    private static bool MovesOrWorks(ArchiveEvent archiveEvent) => archiveEvent.What?.Value
        is EventType.Loaded or EventType.Stood or EventType.Connected or EventType.Disconnected or EventType.Removed or EventType.Coiled
            or EventType.Severed or EventType.Refitted or EventType.Packed or EventType.Unpacked;

    private static string Word(ArchiveEvent archiveEvent) => archiveEvent.What!.Value.Value.ToString().ToLowerInvariant();
}
