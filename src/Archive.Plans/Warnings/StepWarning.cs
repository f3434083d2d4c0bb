using System.Collections.Immutable;
using Archive.Plans.Wording;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Plans.Warnings;

/// <summary>What a warning at a step is about; the worst first.</summary>
public enum WarningKind
{
    Battery,

    /// <summary>The cable is an outside line.</summary>
    OutsideLine,

    /// <summary>The cable is a feeder.</summary>
    Feeder,

    /// <summary>The cable is an earth.</summary>
    Earth,

    /// <summary>The cable is an optical fibre.</summary>
    Fibre,

    /// <summary>Its kind is not recorded, so it may be a feeder.</summary>
    KindUnknown,

    /// <summary>The frame that it feeds has other feeders.</summary>
    FedTwice,

    /// <summary>The record states a hazard where it is done.</summary>
    Hazard,

    /// <summary>A frame where it ends belongs to someone else.</summary>
    NotOurs,

    /// <summary>A frame must be earthed before this step, and its earth is no step of the list.</summary>
    EarthBefore,

    /// <summary>A frame that can tip.</summary>
    Heavy,

    /// <summary>A frame that must not be laid down, or of which nobody knows.</summary>
    KeepUpright,

    /// <summary>Units that must be out of a frame before it is tipped or lifted.</summary>
    UnitsFirst,

    /// <summary>Units that static electricity or a knock destroys.</summary>
    UnitHandling,

    /// <summary>The checks before power.</summary>
    BeforePower,

    /// <summary>It is tagged by hand first.</summary>
    TagFirst,

    /// <summary>It is too short for the hall.</summary>
    TooShort,

    /// <summary>No trays of the hall lead from one end to the other.</summary>
    NoWay,

    /// <summary>Its label or tag says something else than was seen.</summary>
    LabelDisagrees,

    /// <summary>Its label can be read, but what it says cannot be right.</summary>
    LabelWrong,

    /// <summary>An end was read from print and not seen.</summary>
    FromPrint,

    /// <summary>Harm to it was recorded.</summary>
    Damaged,

    /// <summary>An end of it is not known.</summary>
    EndUnknown,

    /// <summary>Its length is not known, so that it is not proved to reach.</summary>
    LengthUnknown,

    /// <summary>It was cut.</summary>
    Cut,

    /// <summary>It was left behind.</summary>
    LeftBehind,

    /// <summary>It is part of a tangle.</summary>
    Tangled,

    /// <summary>It lay over cables that are no step before it.</summary>
    LayBefore,

    /// <summary>Facts are missing that nobody can record once this step is done.</summary>
    LastChance,
}

/// <summary>A warning at a step: one value, of which page, print, JSON, CSV and terminal are views.</summary>
/// <param name="Kind">What it is about.</param>
/// <param name="Lead">What it is about, in the words that it begins with.</param>
/// <param name="Parts">What it says behind its lead and a colon, to the full stop.</param>
public sealed record StepWarning(WarningKind Kind, string Lead, ImmutableArray<TextPart> Parts)
{
    /// <summary>The whole of it, as text.</summary>
    public string Text => $"{Lead}: {string.Concat(Parts.Select(part => part.Text))}";

    /// <summary>The end that it is about, as seen; null for none.</summary>
    public Address? At { get; init; }

    /// <summary>Where print says that this end is; null for none.</summary>
    public Address? Says { get; init; }

    /// <summary>Id of the hall that it holds for; null for none.</summary>
    public string? Hall { get; init; }

    /// <summary>How much is missing; null where nothing is measured.</summary>
    public Length? ShortBy { get; init; }

    /// <summary>Id of the frame that it is about; null for none.</summary>
    public string? Frame { get; init; }

    /// <summary>Ids of the other cables that it names.</summary>
    public ImmutableArray<string> Cables { get; init; } = [];
}
