using UnitsNet;

namespace Archive.Halls.Power;

/// <summary>Copper conductors.</summary>
public static class CopperResistance
{
    /// <summary>
    /// Resistivity of annealed copper at 20 °C, in Ω·m (International Annealed Copper Standard, IEC 60028: 1/58 Ω·mm2/m, in the wire
    /// tables' five figures).
    /// </summary>
    public const double Resistivity = 1.7241e-8;

    /// <summary>
    /// Resistance of a conductor of solid copper at 20 °C, per metre of it, in Ω/m. Stranded conductors have about 2 % more (common
    /// practice, no source).
    /// </summary>
    public static double ResistancePerMetre(Area section) => Resistivity / section.SquareMeters;

    /// <summary>Voltage lost there and back: 2 x length x resistance per metre x current.</summary>
    /// <param name="length">Length of the way, one way.</param>
    /// <param name="section">Section of one conductor.</param>
    public static ElectricPotential Drop(Length length, Area section, ElectricCurrent current) =>
        ElectricPotential.FromVolts(2 * length.Meters * ResistancePerMetre(section) * Math.Abs(current.Amperes));
}
