using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Records.Model;
using Archive.Records.Work;

namespace Archive.Records.Checks;

/// <summary>The record compared with itself: every rule that needs more than one value to be judged.</summary>
public static class RecordChecks
{
    // The checks, in the order of their codes. Each is linear over the record and does not depend on the others.
    private static readonly ImmutableArray<Func<CheckContext, IEnumerable<Diagnostic>>> All =
    [
        IdChecks.UsedOnce,
        IdChecks.NeverUsedAgain,
        IdChecks.IdsValidInAddresses,
        IdChecks.FrameIdsDistinct,
        PositionChecks.PositionsDeclaredOnce,
        PositionChecks.PortsDeclaredOnce,
        ReferenceChecks.LeadSomewhere,
        AddressChecks.EndsStandOnFrames,
        AddressChecks.PhotosShowPlaces,
        AddressChecks.UnitsSitInFrames,
        MentionChecks.LinksLeadSomewhere,
        PeopleChecks.AreListed,
        ListChecks.NameEachOnce,
        NeedChecks.ModulesHaveFrames,
        NeedChecks.CanBeMet,
        CableChecks.PortsHoldOneCable,
        CableChecks.EndsDiffer,
        CableChecks.CoilsStayFast,
        HallRecordChecks.OneIsAsFound,
        HallRecordChecks.FramesStandOnce,
        HallRecordChecks.CablesLieInTheAsFoundHall,
        HallRecordChecks.RowsDeclaredOnce,
        PhotoChecks.FilesAreNamedOnce,
        PositionChecks.SlotsDeclaredOnce,
        UnitChecks.SlotsExist,
        UnitChecks.SlotsHoldOneUnit,
        UnitChecks.FrontsAreOfKnownUnits,
        DocumentChecks.FilesAreSupported,
        DocumentChecks.FilesAreNamedOnce,
        EventChecks.HappenedSince,
        EventChecks.HappenedAtEnds,
        EventChecks.PackedIntoBoxes,
        DateChecks.AreFoundInTime,
        PlacementChecks.FramesStandInARow,
        QuantityChecks.AreBelievable,
        PlacementChecks.TraysHoldCables,
    ];

    /// <summary>Compares the record with itself.</summary>
    /// <param name="parsed">All that was read, duplicates included.</param>
    /// <param name="record">The look-ups over it.</param>
    /// <param name="today">The day on which this is asked; null if dates in the future are not to be looked for.</param>
    /// <returns>What is wrong, in <see cref="Diagnostic.Order"/>; without what reading reported already, and without what follows from
    /// that.</returns>
    public static ImmutableArray<Diagnostic> Check(ParseResult parsed, ArchiveModel record, DateOnly? today = null)
    {
        // Side by side, each on ground of its own: indices are built on first need, and what one check uses up is not missing to another.
        var common = new SharedCheckContext(parsed, record);
        var checks = today is { } day ? All.Add(context => DateChecks.AreNotInTheFuture(context, day)) : All;
        var told = SideBySide.Select(checks, check => DiagnosticList.Collect(check(new CheckContext(parsed, record, common))));
        return DiagnosticList.Collect(told.SelectMany(each => each));
    }
}
