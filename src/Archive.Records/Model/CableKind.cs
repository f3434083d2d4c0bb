using System.Collections.Immutable;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>A kind of cable, written once.</summary>
public sealed record CableKind : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.CableKind;

    /// <summary>What sort of cable it is.</summary>
    public Stated<CableFamily>? Family { get; init; }

    /// <summary>Outer diameter.</summary>
    public Stated<Length>? Diameter { get; init; }

    /// <summary>Mass a length.</summary>
    public Stated<LinearDensity>? Mass { get; init; }

    /// <summary>Least bending radius, in outer diameters.</summary>
    public Stated<double>? Bend { get; init; }

    /// <summary>Number of pairs.</summary>
    public Stated<int>? Pairs { get; init; }

    /// <summary>Conductor size.</summary>
    public Stated<WireGauge>? Gauge { get; init; }

    /// <summary>What can hurt someone at a cable of this kind.</summary>
    public ImmutableArray<Stated<Hazard>> Hazards { get; init; } = [];
}
