using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records;

namespace Archive.Wiring;

/// <summary>What can follow what: only what was loaded arrives, and nothing is worked on while it is on the road.</summary>
/// <remarks>Told is only what is certain: where dates leave it open which came first, nothing is said.</remarks>
public static class JourneyChecks
{
    /// <summary>Checks all events.</summary>
    /// <param name="record">The record.</param>
    /// <returns>What cannot be, in <see cref="Diagnostic.Order"/>; one a thing and event.</returns>
    public static ImmutableArray<Diagnostic> Check(AsFound record)
    {
        var named = new Dictionary<ArchiveEvent, Dictionary<string, SourceSpan>>(ReferenceEqualityComparer.Instance);
        return DiagnosticList.Collect(Happenings.Of(record).SelectMany(thing =>
        {
            var timeline = new Timeline(thing.Value);
            return thing.Value.Select(happened => Judge(record, thing.Key, happened, timeline, named)).OfType<Diagnostic>();
        }));
    }

    private static Diagnostic? Judge(AsFound record, string thing, ArchiveEvent happened, Timeline timeline, Dictionary<ArchiveEvent, Dictionary<string, SourceSpan>> named)
    {
        var noun = record.Find(thing)!.RecordKind.Noun();
        if (timeline.IsArrivalUnloaded(happened))
        {
            return Faults.ArrivalOfNothingLoaded.At(
                Named(happened), $"{noun} `{thing}` arrives in event `{happened.Id}`, but no event loaded it", "add the event that loaded it, or correct the id or the date");
        }

        if (!MovesOrWorks(happened) || timeline.OnTheRoadSince(happened) is not { } loaded) return null;
        return Faults.EventOnTheRoad.At(
            Named(happened),
            $"{noun} `{thing}` is {Word(happened)} in event `{happened.Id}` while it is in transit",
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

    private static bool MovesOrWorks(ArchiveEvent happened) => happened.What?.Value
        is EventWhat.Loaded or EventWhat.Stood or EventWhat.Connected or EventWhat.Disconnected or EventWhat.Removed or EventWhat.Coiled or EventWhat.Severed;

    private static string Word(ArchiveEvent happened) => happened.What!.Value.Value.ToString().ToLowerInvariant();
}
