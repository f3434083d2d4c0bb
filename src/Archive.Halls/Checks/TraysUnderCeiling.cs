using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Layout;

namespace Archive.Halls.Checks;

/// <summary>AF0608: a tray whose rim would be above the ceiling.</summary>
internal static class TraysUnderCeiling
{
    internal static IEnumerable<Diagnostic> Check(HallLayout layout)
    {
        if (layout.Hall.Ceiling is not { } ceiling) yield break;
        foreach (var tray in layout.Trays)
        {
            if (tray.Height is not { } height) continue;
            var rim = height.Value.Millimeters + (tray.Size?.Value.Depth.Millimeters ?? 0);
            if (rim <= ceiling.Value.Millimeters + Footprint.Touch) continue;
            yield return DiagnosticDescriptors.TrayAboveCeiling.At(
                height.Span,
                $"tray {tray.Id} reaches {Millimetres.Say(rim)}, but the ceiling of hall {layout.Hall.Id} is at {Millimetres.Say(ceiling.Value.Millimeters)}",
                "correct the height of the tray's bottom, its depth, or the ceiling",
                new Related(ceiling.Span, "the ceiling is given here"));
        }
    }
}
