using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Wiring.Journeys;

/// <summary>AF1509: an event of a thing that certainly comes before the one it needs, though that one is recorded.</summary>
/// <remarks>Whether the needed event is missing altogether is not asked: records have gaps. Linear in the events of a thing.</remarks>
internal static class EventOrder
{
    // What comes after, what must come before it, and what makes the rule void: once a thing was put back, it can be taken out again.
    private static readonly (EventType Later, EventType Needs, EventType? Voids)[] Rules =
    [
        (EventType.Fixed, EventType.Stood, null),
        (EventType.Earthed, EventType.Stood, null),
        (EventType.Energised, EventType.Stood, null),
        (EventType.Refitted, EventType.Removed, null),
        (EventType.Unpacked, EventType.Packed, null),
        (EventType.Removed, EventType.Disconnected, EventType.Connected),
        (EventType.Coiled, EventType.Disconnected, EventType.Connected),
    ];

    public static IEnumerable<Diagnostic> Check(ArchiveModel record, string thing, ImmutableArray<ArchiveEvent> events)
    {
        if (events.Length < 2) yield break;
        foreach (var (later, needs, voids) in Rules)
        {
            if (events.Any(each => voids is not null && each.What?.Value == voids)) continue;
            if (events.Where(each => each.What?.Value == needs).MinBy(EventHistory.Earliest) is not { } needed) continue;
            var from = EventHistory.Earliest(needed);
            foreach (var early in events.Where(each => each.What?.Value == later && EventHistory.Latest(each) < from))
            {
                yield return DiagnosticDescriptors.EventOutOfOrder.At(
                    early.On!.Value.Span,
                    $"{record.Find(thing)!.RecordKind.Noun()} `{thing}` is {Phrase.For(later)} in event `{early.Id}`, before it is {Phrase.For(needs)} in `{needed.Id}`",
                    $"check both dates; {AcceptedWarnings.Help(DiagnosticDescriptors.EventOutOfOrder)}",
                    new Related(needed.On!.Value.Span, $"only then it is {Phrase.For(needs)}"));
            }
        }
    }
}
