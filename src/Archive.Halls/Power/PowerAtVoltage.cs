using System.Collections.Immutable;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Halls.Power;

/// <summary>What is drawn at one voltage.</summary>
/// <param name="Volts">The nominal potential, signed.</param>
/// <param name="Amps">The current of all together.</param>
/// <param name="Frames">How many frames draw it.</param>
public readonly record struct PowerAtVoltage(ElectricPotential Volts, ElectricCurrent Amps, int Frames)
{
    /// <summary>The heat that it becomes: volts x amps.</summary>
    public UnitsNet.Power Heat => UnitsNet.Power.FromWatts(Math.Abs(Volts.Volts * Amps.Amperes));

    /// <summary>
    /// What frames draw together, voltage by voltage, the lowest first. Draws without a voltage or a current are passed over.
    /// </summary>
    public static ImmutableArray<PowerAtVoltage> By(IEnumerable<Frame> frames) =>
    [
        .. frames
            .SelectMany(frame => frame.Draws
                .Where(draw => draw is { Volts: not null, Amps: not null })
                .Select(draw => (frame.Id, Volts: draw.Volts!.Value.Value, Amps: draw.Amps!.Value.Value)))
            .GroupBy(draw => draw.Volts.Volts)
            .OrderBy(group => group.Key)
            .Select(group => new PowerAtVoltage(
                ElectricPotential.FromVolts(group.Key),
                ElectricCurrent.FromAmperes(group.Sum(draw => draw.Amps.Amperes)),
                group.Select(draw => draw.Id).Distinct(StringComparer.Ordinal).Count())),
    ];

    /// <summary>The heat that a frame makes: volts x amps of all it draws; null where it draws nothing that is recorded.</summary>
    public static UnitsNet.Power? HeatOf(Frame frame) =>
        By([frame]) is { Length: > 0 } drawn ? UnitsNet.Power.FromWatts(drawn.Sum(at => at.Heat.Watts)) : null;
}
