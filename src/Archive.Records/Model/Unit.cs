using System.Collections.Immutable;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>What plugs or screws into a position of a frame: a card, module, panel or plug-in.</summary>
public sealed record Unit : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Unit;

    /// <summary>Type or part number, exactly as printed on it.</summary>
    public Stated<string>? Marking { get; init; }

    /// <summary>Serial number, exactly as printed on it.</summary>
    public Stated<string>? Serial { get; init; }

    /// <summary>Revision or issue, exactly as printed on it.</summary>
    public Stated<string>? Revision { get; init; }

    /// <summary>Where it was found; null for one that was in no frame.</summary>
    public Stated<UnitPlace>? At { get; init; }

    /// <summary>Outer size.</summary>
    public Stated<FrameSize>? Size { get; init; }

    public Stated<Mass>? Weight { get; init; }

    /// <summary>How it must be handled.</summary>
    public ImmutableArray<Stated<Handling>> Handling { get; init; } = [];

    /// <summary>What can hurt someone at it.</summary>
    public ImmutableArray<Stated<Hazard>> Hazards { get; init; } = [];

    /// <summary>Version of the firmware in it.</summary>
    public Stated<string>? Firmware { get; init; }

    /// <summary>Straps, switches and links, set as they were found; in the order of the record.</summary>
    public ImmutableArray<Strap> Straps { get; init; } = [];

    public Stated<bool>? Spare { get; init; }
}

/// <summary>A strap, switch or link of a unit.</summary>
/// <param name="Name">What is printed beside it, such as <c>S1</c>.</param>
/// <param name="Setting">How it is set, such as <c>0110</c>.</param>
public readonly record struct Strap(string Name, Stated<string> Setting);

/// <summary>How a unit must be handled.</summary>
public enum Handling
{
    /// <summary>Static electricity destroys it.</summary>
    StaticSensitive,

    /// <summary>A knock breaks it.</summary>
    Fragile,

    /// <summary>It must be out before its frame is tipped or lifted.</summary>
    OutBeforeMoving,
}
