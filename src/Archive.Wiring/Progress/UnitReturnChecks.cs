using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Wiring.Journeys;

namespace Archive.Wiring.Progress;

/// <summary>AF1804: a unit came out of a frame that runs again, and nothing is known of it since.</summary>
/// <remarks>Linear in units and events. What may have happened after power was put on the frame is not reported.</remarks>
public static class UnitReturnChecks
{
    /// <summary>Checks all units.</summary>
    /// <param name="work">What has been done; not asked for where there are no units.</param>
    /// <returns>What was forgotten, in <see cref="Diagnostic.Order"/>.</returns>
    public static ImmutableArray<Diagnostic> Check(ArchiveModel record, Func<WorkProgress> work)
    {
        if (record.Units.IsEmpty) return [];
        var progress = work();
        return DiagnosticList.Collect(record.Units
            .Where(unit => unit is { IsWithdrawn: false, At: not null, Spare: not { Value: true } })
            .Select(unit => Judge(record, progress, unit))
            .OfType<Diagnostic>());
    }

    private static Diagnostic? Judge(ArchiveModel record, WorkProgress progress, Unit unit)
    {
        if (progress.JourneyOf(unit.Id) is not { Situation: not (Situation.Refitted or Situation.Missing) } journey
            || record.FrameAt(unit.At!.Value.Value.At) is not { IsWithdrawn: false } frame
            || progress.UnitOutBy(unit.Id) is null
            || progress.LastOf(frame.Id, EventType.Energised) is not { } energised) return null;
        if (journey.Events.Any(later => EventHistory.Latest(later) >= EventHistory.Earliest(energised))) return null;
        return DiagnosticDescriptors.UnitNeverRefitted.At(
            unit.IdSpan,
            $"unit `{unit.Id}` came out of frame `{frame.Id}`, which was energised in event `{energised.Id}`; no event puts it back",
            "add the event `refitted`, or, if it stays out, an event since then that says where it is (`inspected`)",
            new Related(energised.What!.Value.Span, "power was put on the frame here"));
    }
}
