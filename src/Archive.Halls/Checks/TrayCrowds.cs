using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;

namespace Archive.Halls.Checks;

/// <summary>AF0220: a hall in which too many trays come near each other for all the places where they meet to be found.</summary>
internal static class TrayCrowds
{
    internal static IEnumerable<Diagnostic> Check(HallLayout layout)
    {
        if (TrayJoints.Find([.. layout.Trays.Select(TrayLine.From).OfType<TrayLine>()]).AreAll) yield break;
        yield return DiagnosticDescriptors.PlanTooLarge.At(
            layout.Hall.IdSpan, $"too many trays of hall {layout.Hall.Id} run close together to find every place where they meet",
            "record each tray once, and leave out points between which its path is straight");
    }
}
