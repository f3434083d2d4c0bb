using System.Collections.Immutable;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Wiring.Sets;

/// <summary>What a set of frames weighs, takes up and draws, as far as the record says.</summary>
/// <param name="Weight">Mass as it will be moved.</param>
/// <param name="FloorArea">Width by depth; aisles not counted.</param>
/// <param name="Currents">Current at each nominal potential, by potential.</param>
/// <param name="Heat">Potential by current, whatever the sign: all that is drawn becomes heat.</param>
/// <param name="WithoutDraws">Frames of which the record says nothing of what they draw, or not all of it; by id.</param>
public sealed record SetTotals(
    Total<Mass> Weight, Total<Area> FloorArea, ImmutableArray<CurrentAt> Currents, Power Heat, ImmutableArray<Frame> WithoutDraws)
{
    /// <summary>Adds frames up.</summary>
    public static SetTotals From(ImmutableArray<Frame> frames)
    {
        var draws = frames.SelectMany(frame => frame.Draws).Where(draw => draw is { Volts: not null, Amps: not null }).ToList();
        return new SetTotals(
            new(
                Mass.FromKilograms(frames.Sum(frame => frame.Weight?.Value.Kilograms ?? 0)),
                [.. frames.Where(frame => frame.Weight is null)]),
            new(Area.FromSquareMeters(frames.Sum(Footprint)), [.. frames.Where(frame => frame.Size is null)]),
            [
                .. draws.GroupBy(draw => draw.Volts!.Value.Value.Volts).OrderBy(at => at.Key)
                    .Select(at => new CurrentAt(
                        ElectricPotential.FromVolts(at.Key), ElectricCurrent.FromAmperes(at.Sum(draw => draw.Amps!.Value.Value.Amperes)))),
            ],
            Power.FromWatts(draws.Sum(draw => Math.Abs(draw.Volts!.Value.Value.Volts) * draw.Amps!.Value.Value.Amperes)),
            [.. frames.Where(frame => frame.Draws.IsEmpty || frame.Draws.Any(draw => draw.Volts is null || draw.Amps is null))]);
    }

    private static double Footprint(Frame frame) => frame.Size is { } size ? size.Value.Width.Meters * size.Value.Depth.Meters : 0;
}

/// <summary>Current drawn at a nominal potential.</summary>
/// <param name="Potential">The potential, signed.</param>
public readonly record struct CurrentAt(ElectricPotential Potential, ElectricCurrent Current)
{
    /// <summary>The heat that results from it: volts by amperes.</summary>
    public Power Heat => Power.FromWatts(Math.Abs(Potential.Volts) * Current.Amperes);
}
