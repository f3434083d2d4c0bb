using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>Halls: one is the as-found one, a frame stands once in each, and cables as found lie in that one.</summary>
internal static class HallRecordChecks
{
    public static IEnumerable<Diagnostic> OneIsAsFound(CheckContext context)
    {
        var standing = context.Draft.Records.OfType<Hall>().Where(context.IsPresent).ToList();
        var marked = standing.Where(hall => hall.AsFound is { Value: true }).ToList();

        // A hall whose id is another's too does not stand, and may still be the one.
        var isMarked = context.Draft.Records.OfType<Hall>().Any(hall => hall is { IsWithdrawn: false, AsFound.Value: true });
        if (!isMarked && standing.Count > 0 && !context.Losses.Touch(RecordKind.Hall))
        {
            yield return DiagnosticDescriptors.NoAsFoundHall.At(
                standing[0].IdSpan, "no hall is marked as the one where the machine was found", "write `as_found: true` on that hall");
        }

        foreach (var hall in marked.Skip(1))
        {
            yield return DiagnosticDescriptors.TwoAsFoundHalls.At(
                hall.AsFound!.Value.Span,
                $"hall `{hall.Id}` is marked as found, and so is `{marked[0].Id}`",
                "leave `as_found: true` on the one hall where the machine was found",
                new Related(marked[0].AsFound!.Value.Span, "first marked here"));
        }
    }

    public static IEnumerable<Diagnostic> RowsDeclaredOnce(CheckContext context)
    {
        foreach (var hall in context.Draft.Records.OfType<Hall>())
        {
            var first = new Dictionary<string, Stated<string>>(StringComparer.Ordinal);
            foreach (var id in hall.Rows.Select(row => row.Id))
            {
                if (first.TryAdd(id.Value, id)) continue;
                yield return DiagnosticDescriptors.DuplicateRow.At(
                    id.Span,
                    $"row `{id.Value}` of hall `{hall.Id}` is declared twice",
                    "give this row a name that is unique in the hall",
                    new Related(first[id.Value].Span, "first declared here"));
            }
        }
    }

    public static IEnumerable<Diagnostic> FramesStandOnce(CheckContext context)
    {
        foreach (var hall in context.Draft.Records.OfType<Hall>())
        {
            var stands = new Dictionary<string, (FrameRow Row, SourceSpan Span)>(StringComparer.Ordinal);
            foreach (var (row, frame) in hall.Rows.SelectMany(row =>
                row.Places.Where(place => place.Frame is not null).Select(place => (row, place.Frame!.Value))))
            {
                var id = context.Resolve(frame.Value);
                if (stands.TryAdd(id, (row, frame.Span))) continue;
                var (first, span) = stands[id];
                yield return DiagnosticDescriptors.FrameStandsTwice.At(
                    frame.Span,
                    $"frame `{id}` stands in row `{row.Id.Value}` and already in row `{first.Id.Value}` of hall `{hall.Id}`",
                    "keep it in the right row, and write the frame that was meant here",
                    new Related(span, "first stands here"));
            }
        }
    }

    public static IEnumerable<Diagnostic> CablesLieInTheAsFoundHall(CheckContext context)
    {
        // Of two halls marked it is reported that they are two; which of them was meant is not guessed.
        var asFound = context.Record.Halls.Count(hall => hall.AsFound is { Value: true }) == 1 ? context.Record.AsFoundHall?.Id : null;
        var trays = new Dictionary<string, (Tray Tray, Hall HangsIn)?>(StringComparer.Ordinal);
        foreach (var cable in context.Draft.Records.OfType<Cable>().Where(cable => !cable.IsWithdrawn))
        {
            // Where no one hall is marked, the first tray's hall is the measure of the others.
            var measure = asFound;
            foreach (var name in cable.LiesIn)
            {
                if (!trays.TryGetValue(name.Value, out var known)) trays[name.Value] = known = Hung(context, name.Value);
                if (known is not var (tray, hangsIn)) continue;
                measure ??= hangsIn.Id;
                if (hangsIn.Id == measure) continue;
                yield return DiagnosticDescriptors.TrayOfAnotherHall.At(
                    name.Span,
                    $"tray `{tray.Id}` is in hall `{hangsIn.Id}`, but cable `{cable.Id}` was found in `{measure}`",
                    $"write a tray of hall `{measure}`: `lies_in` is the route of the cable as found",
                    new Related(tray.Hall!.Value.Span, "the tray's hall"));
            }
        }
    }

    private static (Tray Tray, Hall HangsIn)? Hung(CheckContext context, string name) =>
        context.Record.Find<Tray>(name) is { Hall: { } hall } tray && context.Record.Find<Hall>(hall.Value) is { } hangsIn
            ? (tray, hangsIn)
            : null;
}
