using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;

namespace Archive.Halls.Checks;

/// <summary>Compares halls, rows and trays with each other and against the space they stand in.</summary>
public static class HallSpaceChecks
{
    /// <summary>All errors of halls and trays that come from geometry. n log n in frames; linear in cables.</summary>
    /// <returns>Errors AF0603, AF0605 to AF0608, AF0611, AF0612 and AF0220, in <see cref="Diagnostic.Order"/>.</returns>
    public static ImmutableArray<Diagnostic> Check(ArchiveModel asFound) =>
        Check(asFound, HallLayouts.Create(asFound), TrayMeetings.Find(asFound), _ => false);

    /// <summary>The same, where halls have been set out and meetings calculated already.</summary>
    /// <param name="layouts">Its halls, set out.</param>
    /// <param name="meetings">Where its trays meet.</param>
    /// <param name="isHurt">Whether something within a record's span could not be read, which was reported: what only follows from that is
    /// not reported again.</param>
    public static ImmutableArray<Diagnostic> Check(
        ArchiveModel asFound, HallLayouts layouts, TrayMeetings meetings, Func<SourceSpan, bool> isHurt)
    {
        var faults = SizesOfFrames.Check(layouts, isHurt)
            .Concat(layouts.Layouts.SelectMany(Overlaps.Check))
            .Concat(layouts.Layouts.SelectMany(FramesWithinHall.Check))
            .Concat(layouts.Layouts.SelectMany(TraysUnderCeiling.Check))
            .Concat(layouts.Layouts.SelectMany(TrayCrowds.Check))
            .Concat(TrayOrder.Check(asFound, meetings))
            .Concat(TraysAtFrames.Check(asFound, layouts));
        return DiagnosticList.Collect(faults);
    }
}
