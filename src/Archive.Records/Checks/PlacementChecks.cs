using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>AF1505 and AF1508: frames stand in the hall where they were found, and trays hold cables.</summary>
/// <remarks>
/// Linear in the record. While less than half is recorded the survey is still going on: then what is missing is on the list of what is
/// still to be recorded, and no warning.
/// </remarks>
internal static class PlacementChecks
{
    public static IEnumerable<Diagnostic> FramesStandInARow(CheckContext context)
    {
        if (context.Record.AsFoundHall is not { IsWithdrawn: false } hall || context.Losses.Touch(hall.Span)) return [];
        var standing = hall.Rows
            .SelectMany(row => row.Places)
            .Select(place => place.Frame?.Value)
            .OfType<string>()
            .Select(context.Resolve)
            .ToHashSet(StringComparer.Ordinal);

        // A name in a row that leads nowhere is reported there, and may be meant for a frame that seems to be missing.
        if (standing.Any(id => context.Record.Find<Frame>(id) is null)) return [];
        var lost = context.Draft.Records.OfType<Frame>()
            .Where(frame => context.IsPresent(frame) && !standing.Contains(frame.Id))
            .ToList();
        return lost.Count > standing.Count ? [] : lost.Select(frame => DiagnosticDescriptors.FrameInNoRow.At(
            frame.IdSpan,
            $"frame `{frame.Id}` is in no row of `{hall.Id}`, the hall where the machine was found",
            $"add it to a row of that hall; {AcceptedWarnings.Help(DiagnosticDescriptors.FrameInNoRow)}",
            new Related(hall.IdSpan, "the hall")));
    }

    public static IEnumerable<Diagnostic> TraysHoldCables(CheckContext context)
    {
        if (context.Record.AsFoundHall is not { IsWithdrawn: false } hall || context.Losses.Touch(RecordKind.Cable)) return [];
        var used = new HashSet<string>(StringComparer.Ordinal);
        var (laid, all) = (0, 0);
        foreach (var (cable, _) in context.SeenCables)
        {
            all++;
            if (!cable.LiesIn.IsEmpty) laid++;
            foreach (var tray in cable.LiesIn) used.Add(context.Resolve(tray.Value));
        }

        // A name that leads nowhere is reported there, and may be meant for a tray that seems to be empty.
        if (2 * laid <= all || used.Any(id => context.Record.Find<Tray>(id) is null)) return [];
        return context.Draft.Records.OfType<Tray>()
            .Where(tray => context.IsPresent(tray)
                && !used.Contains(tray.Id)
                && tray.Hall is { } at && context.Resolve(at.Value) == hall.Id)
            .Select(tray => DiagnosticDescriptors.TrayWithoutCable.At(
                tray.IdSpan,
                $"no cable lies in tray `{tray.Id}`",
                $"check `lies_in` of the cables there; {AcceptedWarnings.Help(DiagnosticDescriptors.TrayWithoutCable)}"));
    }
}
