using Archive.Records.Model;
using UnitsNet;

namespace Archive.Halls.Power;

/// <summary>A feeder: a cable of the power family, and what it carries.</summary>
public sealed record Feeder(Cable Cable, CableKind Kind)
{
    /// <summary>The frame that it comes from; null where that is not recorded or is unknown.</summary>
    public Frame? From { get; init; }

    /// <summary>The frame that it feeds; null where that is unknown.</summary>
    public Frame? Feeds { get; init; }

    /// <summary>
    /// Number of feeders to the same frame, this one included: each is taken to carry the whole, as it must when the others fail.
    /// </summary>
    public int Beside { get; init; } = 1;

    /// <summary>The potential at which its frame draws; null where that is not recorded, or there are several.</summary>
    public ElectricPotential? Volts { get; init; }

    /// <summary>The most that it has to carry; null likewise.</summary>
    public ElectricCurrent? Amps { get; init; }

    /// <summary>Length of its route: the route as found; where that is not known, its recorded length.</summary>
    public Length? Route { get; init; }

    /// <summary>Whether <see cref="Route"/> is the recorded length.</summary>
    public bool IsRouteItsLength { get; init; }

    /// <summary>What is missing or assumed, in a few plain words; empty where nothing is.</summary>
    public string Note { get; init; } = "";

    /// <summary>Resistance of one conductor, in Ω/m; null where its gauge is not recorded.</summary>
    public double? OhmsPerMetre => Kind.Gauge is { } gauge ? CopperResistance.ResistancePerMetre(gauge.Value.Section) : null;

    /// <summary>Voltage lost there and back; null where something that it needs is missing.</summary>
    public ElectricPotential? Drop =>
        Route is { } route && Kind.Gauge is { } gauge && Amps is { } amps ? CopperResistance.Drop(route, gauge.Value.Section, amps) : null;

    /// <summary>The drop as a share of the voltage.</summary>
    public Ratio? DropShare =>
        Drop is { } drop && Volts is { Volts: not 0 } volts ? Ratio.FromDecimalFractions(drop.Volts / Math.Abs(volts.Volts)) : null;
}
