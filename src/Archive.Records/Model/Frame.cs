using System.Collections.Immutable;
using Archive.Diagnostics;
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

/// <summary>Current drawn at a voltage.</summary>
/// <param name="Volts">Nominal potential, signed.</param>
public readonly record struct PowerDraw(Stated<ElectricPotential>? Volts, Stated<ElectricCurrent>? Amps);

/// <summary>When and by whom something was recorded.</summary>
/// <param name="By">A key of <c>people</c>.</param>
public sealed record Observation(Stated<EdtfDate>? On, Stated<string>? By);

/// <summary>A shelf, panel or block of a frame.</summary>
public sealed record Position
{
    /// <summary>Its name on the frame, such as <c>S7</c>.</summary>
    public required Stated<string> Id { get; init; }

    public Stated<string>? Holds { get; init; }

    /// <summary>Height of its lower edge above the floor.</summary>
    public Stated<Length>? FromFloor { get; init; }

    public Stated<Length>? Height { get; init; }

    /// <summary>Its ports; empty where none is declared and any is taken.</summary>
    public ImmutableArray<PortRange> Ports { get; init; } = [];

    /// <summary>Remark, in Markdown.</summary>
    public Stated<string>? Note { get; init; }
}

/// <summary>What a frame or display needs.</summary>
public abstract record Need(SourceSpan Span);

/// <summary>One frame.</summary>
public sealed record FrameNeed(Stated<string> Frame) : Need(Frame.Span);

/// <summary>Any so many of several: <c>{any: 2, of: …}</c>.</summary>
/// <param name="Any">How many, at least 1.</param>
/// <param name="Module">All frames of a module, where <c>of</c> names one.</param>
/// <param name="Of">The alternatives, where <c>of</c> lists them; needs may nest.</param>
public sealed record AnyNeed(SourceSpan Span, Stated<int> Any, Stated<string>? Module, ImmutableArray<Need> Of) : Need(Span);
