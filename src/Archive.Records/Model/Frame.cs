using System.Collections.Immutable;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>A rack, bay or cabinet: what stands on the floor.</summary>
public sealed record Frame : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Frame;

    /// <summary>The functional group it belongs to.</summary>
    public Stated<string>? Module { get; init; }

    /// <summary>Outer size.</summary>
    public Stated<FrameSize>? Size { get; init; }

    /// <summary>Mass as it will be moved.</summary>
    public Stated<Mass>? Weight { get; init; }

    /// <summary>Whether its weight is that with its units in; with them, if nothing is said.</summary>
    public Stated<WeighedState>? Weighed { get; init; }

    /// <summary>What it draws, one entry a voltage.</summary>
    public ImmutableArray<PowerDraw> Draws { get; init; } = [];

    /// <summary>Number of doors and covers taken off before the move.</summary>
    public Stated<int>? Doors { get; init; }

    /// <summary>Whether it may be laid down to be moved; null where that is not known: it is then kept upright.</summary>
    public Stated<bool>? MayLieDown { get; init; }

    /// <summary>What must run for this frame to run; all of them.</summary>
    public ImmutableArray<Need> Needs { get; init; } = [];

    /// <summary>Shelves, panels and blocks in it, as the record lists them.</summary>
    public ImmutableArray<Position> Positions { get; init; } = [];

    /// <summary>When and by whom it was recorded.</summary>
    public Observation? Found { get; init; }

    /// <summary>What can hurt someone at it.</summary>
    public ImmutableArray<Stated<Hazard>> Hazards { get; init; } = [];

    /// <summary>Who it belongs to where it is not part of the machine: it stays, may be live, and is not touched.</summary>
    public Stated<string>? Owner { get; init; }
}

/// <summary>How a frame was when it was weighed.</summary>
public enum WeighedState
{
    /// <summary>With its plug-in units in.</summary>
    WithUnits,

    /// <summary>With its plug-in units out.</summary>
    WithoutUnits,
}

/// <summary>Current drawn at a voltage.</summary>
/// <param name="Volts">Nominal potential, signed.</param>
public readonly record struct PowerDraw(Stated<ElectricPotential>? Volts, Stated<ElectricCurrent>? Amps);

/// <summary>When and by whom something was recorded.</summary>
/// <param name="By">A key of <c>people</c>.</param>
public sealed record Observation(Stated<EdtfDate>? On, Stated<string>? By);
