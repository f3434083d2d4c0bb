using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;

namespace Archive.Halls.Checks;

/// <summary>AF0605: a cable that cannot pass from one tray of its <c>lies_in</c> to the next.</summary>
/// <remarks>Trays of different halls, and trays that do not exist, are other errors and are passed over.</remarks>
internal static class TrayOrder
{
    internal static IEnumerable<Diagnostic> Check(ArchiveModel asFound, TrayMeetings meetings)
    {
        foreach (var cable in asFound.Cables.Where(cable => !cable.IsWithdrawn))
        {
            for (var i = 1; i < cable.LiesIn.Length; i++)
            {
                if (asFound.Find<Tray>(cable.LiesIn[i - 1].Value) is not { } before
                    || asFound.Find<Tray>(cable.LiesIn[i].Value) is not { } tray) continue;
                if (meetings.Between(before, tray) is not { Joins: false } meeting) continue;
                yield return DiagnosticDescriptors.DisconnectedTrays.At(
                    cable.LiesIn[i].Span,
                    $"tray {tray.Id} does not join tray {before.Id} before it: their lines are {Millimetres.Say(meeting.Gap)} apart in plan",
                    $"add the tray between them, put the list in the order of the route, or correct a path; trays join within {Millimetres.Say(TrayMeeting.Reach)}",
                    Path(before),
                    Path(tray));
            }
        }
    }

    private static Related Path(Tray tray) => new(tray.PathSpan ?? tray.IdSpan, $"{tray.Id} is here");
}
