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
    public static ImmutableArray<Diagnostic> Check(AsFound record) =>
        DiagnosticList.Collect(Happenings.Of(record).SelectMany(thing => thing.Value.Select(happened => Judge(record, thing.Key, happened, thing.Value))).OfType<Diagnostic>());

    private static Diagnostic? Judge(AsFound record, string thing, ArchiveEvent happened, ImmutableArray<ArchiveEvent> all)
    {
        var named = happened.Of.First(of => record.Find(of.Value)?.Id == thing);
        var noun = record.Find(thing)!.RecordKind.Noun();
        if (Happenings.IsArrivalUnloaded(happened, all))
        {
            return Faults.ArrivalOfNothingLoaded.At(
                named.Span, $"{noun} `{thing}` arrives by event `{happened.Id}`, and no event has loaded it", "add the event that loaded it, or correct the id or the date");
        }

        if (!MovesOrWorks(happened) || Happenings.OnTheRoadSince(happened, all) is not { } loaded) return null;
        return Faults.EventOnTheRoad.At(
            named.Span,
            $"{noun} `{thing}` is {Word(happened)} by event `{happened.Id}` while it is on the road",
            "add the event by which it arrived, or correct the id or the date",
            new Related(loaded.Of.First(of => record.Find(of.Value)?.Id == thing).Span, $"loaded here, by `{loaded.Id}`, and not seen to arrive"));
    }

    private static bool MovesOrWorks(ArchiveEvent happened) => happened.What?.Value
        is EventWhat.Loaded or EventWhat.Stood or EventWhat.Connected or EventWhat.Disconnected or EventWhat.Removed or EventWhat.Coiled or EventWhat.Severed;

    private static string Word(ArchiveEvent happened) => happened.What!.Value.Value.ToString().ToLowerInvariant();
}
