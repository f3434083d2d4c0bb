using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;

namespace Archive.Records.Checks;

/// <summary>Events tell what happened since the machine was recorded as found.</summary>
internal static class EventChecks
{
    public static IEnumerable<Diagnostic> HappenedSince(CheckContext context)
    {
        if (context.Draft.Statement?.AsFound is not { Value.Earliest: { } began } asFound) return [];
        return
            from happened in context.Draft.Records.OfType<ArchiveEvent>()
            where happened.On is { Value.Latest: { } latest } && latest < began
            let date = happened.On!.Value
            select DiagnosticDescriptors.EventBeforeAsFound.At(
                date.Span,
                $"event `{happened.Id}` is dated {date.Value.Text}, before the as-found state was recorded",
                "check the date; earlier events belong in prose",
                new Related(asFound.Span, "as-found state recorded then"));
    }

    /// <summary>What is packed goes into a box that is named, and nothing else does.</summary>
    public static IEnumerable<Diagnostic> PackedIntoBoxes(CheckContext context) =>
        from archiveEvent in context.Draft.Records.OfType<ArchiveEvent>()
        where archiveEvent is { IsWithdrawn: false, What: not null } && !context.Losses.Touch(archiveEvent.Span)
        let what = archiveEvent.What!.Value
        where (what.Value == EventType.Packed) != (archiveEvent.Into is not null)
        select archiveEvent.Into is { } box
            ? DiagnosticDescriptors.PackedWithoutBox.At(
                box.Span,
                $"event `{archiveEvent.Id}` has `into`, but what happened is `{what.Span.Text}`",
                "remove `into`, or write `what: packed`",
                new Related(what.Span, "what happened"))
            : DiagnosticDescriptors.PackedWithoutBox.At(
                what.Span, $"event `{archiveEvent.Id}` does not say which box it was packed into", "add `into: BOX-12`, the id of the box");

    /// <summary>What happened at an end can happen there, and the cable has such an end as far as both were seen.</summary>
    public static IEnumerable<Diagnostic> HappenedAtEnds(CheckContext context)
    {
        foreach (var archiveEvent in context.Draft.Records
            .OfType<ArchiveEvent>()
            .Where(archiveEvent => !archiveEvent.Ends.IsEmpty && !archiveEvent.IsWithdrawn))
        {
            if (archiveEvent.What is
                {
                    Value: EventType.Removed or EventType.Coiled or EventType.Loaded or EventType.Arrived or EventType.Stood
                or EventType.Fixed or EventType.Laid or EventType.Refitted or EventType.Packed or EventType.Unpacked
                } what)
            {
                yield return DiagnosticDescriptors.EventOfWholeThing.At(
                    archiveEvent.Ends[0].Cable.Span,
                    $"a cable is {Phrase.For(what.Value)} as a whole, not at one end",
                    $"write `{archiveEvent.Ends[0].Cable.Value}` without an end",
                    new Related(what.Span, "what happened"));
            }

            foreach (var end in archiveEvent.Ends)
            {
                if (context.Record.Find<Cable>(end.Cable.Value) is not { } cable) continue;
                if (context.Record.FrameAt(end.At.Value) is not { } frame)
                {
                    if (ReferenceChecks.Judge(context, archiveEvent, new Reference(
                        ReferenceRole.EventEndFrame,
                        new Stated<string>(end.At.Value.Frame, end.At.Span))) is { } unknown) yield return unknown;
                    continue;
                }

                if (cable.Ends.Count(seen => seen.At is not null) < 2) continue;
                if (cable.Ends.Any(seen => seen.At is { } at && IsThere(context.Record, frame, end.At.Value, at.Value))) continue;
                yield return DiagnosticDescriptors.EventAtUnknownEnd.At(
                    end.At.Span,
                    $"cable `{cable.Id}` has no end at `{end.At.Value}`",
                    $"write one of its ends: {string.Join(" or ", cable.Ends.Where(seen => seen.At is not null).Select(seen => $"`{cable.Id}/{seen.At!.Value.Value}`"))}",
                    new Related(cable.IdSpan, "the cable"));
            }
        }
    }

    private static bool IsThere(ArchiveModel record, Frame frame, Address named, Address seen) =>
        record.FrameAt(seen)?.Id == frame.Id
        && (named.Position is null || Address.Create(
            frame.Id, named.Position, named.Port) == Address.Create(frame.Id, seen.Position, named.Port is null ? null : seen.Port));
}
