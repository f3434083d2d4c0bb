using System.Collections.Frozen;
using UnitsNet;
using UnitsNet.Units;

namespace Archive.Records.Terms;

/// <summary>The dimensions of the record's quantities. Conversion factors are those of UnitsNet; the spellings are chosen here.</summary>
/// <remarks>Only spellings that mean one thing are taken, so that <c>5 m</c> is never five minutes.</remarks>
public static class Dimensions
{
    /// <summary>Lengths, in metres inside.</summary>
    public static Dimension<Length> Length { get; } = new("length", "`mm`, `m`, `ft` or `in`", si => UnitsNet.Length.FromMeters(si),
    [
        .. Units(Si(LengthUnit.Meter), "m", "metre", "metres", "meter", "meters"),
        .. Units(Si(LengthUnit.Millimeter), "mm", "millimetre", "millimetres", "millimeter", "millimeters"),
        .. Units(Si(LengthUnit.Centimeter), "cm", "centimetre", "centimetres", "centimeter", "centimeters"),
        .. Units(Si(LengthUnit.Decimeter), "dm"),
        .. Units(Si(LengthUnit.Kilometer), "km", "kilometre", "kilometres", "kilometer", "kilometers"),
        .. Units(Si(LengthUnit.Micrometer), "µm", "um"),
        .. Units(Si(LengthUnit.Inch), "in", "\"", "''", "inch", "inches"),
        .. Units(Si(LengthUnit.Foot), "ft", "'", "foot", "feet"),
        .. Units(Si(LengthUnit.Yard), "yd", "yard", "yards"),
        .. Units(Si(LengthUnit.Mile), "mi", "mile", "miles"),
        .. Units(Si(LengthUnit.Mil), "mil", "mils", "thou"),
    ])
    { Most = 1e6m };

    /// <summary>Masses, in kilograms inside.</summary>
    public static Dimension<Mass> Mass { get; } = new("mass", "`kg` or `lb`", si => UnitsNet.Mass.FromKilograms(si),
    [
        .. Units(Si(MassUnit.Kilogram), "kg", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
        .. Units(Si(MassUnit.Gram), "g", "gram", "grams", "gramme", "grammes"),
        .. Units(Si(MassUnit.Milligram), "mg"),
        .. Units(Si(MassUnit.Tonne), "t", "tonne", "tonnes"),
        .. Units(Si(MassUnit.Pound), "lb", "lbs", "pound", "pounds"),
        .. Units(Si(MassUnit.Ounce), "oz", "ounce", "ounces"),
        .. Units(14 * Si(MassUnit.Pound), "st", "stone", "stones"),
        .. Units(Si(MassUnit.ShortTon), "short ton", "short tons"),
        .. Units(Si(MassUnit.LongTon), "long ton", "long tons"),
    ])
    { Most = 1e7m };

    /// <summary>Masses of a length of cable, in kilograms a metre inside.</summary>
    public static Dimension<LinearDensity> LinearDensity { get; } = new(
        "mass per length", "`g/m`, `kg/m` or `lb/ft`", si => UnitsNet.LinearDensity.FromKilogramsPerMeter(si),
        [
            .. Units(Si(LinearDensityUnit.KilogramPerMeter), "kg/m"),
            .. Units(Si(LinearDensityUnit.GramPerMeter), "g/m", "kg/km"),
            .. Units(Si(LinearDensityUnit.GramPerCentimeter), "g/cm"),
            .. Units(PoundPerFoot, "lb/ft", "lbs/ft"),
            .. Units(12 * PoundPerFoot, "lb/in", "lbs/in"),
            .. Units(PoundPerFoot / 1000, "lb/kft", "lbs/kft", "lb/1000 ft", "lb/1000ft", "lbs/1000 ft", "lb/1000'", "lb/Mft"),
            .. Units(PoundPerFoot / 16, "oz/ft"),
            .. Units(PoundPerFoot * 12 / 16, "oz/in"),
        ])
    { Most = 1e4m };

    /// <summary>Loads on a surface, in pascals inside. A floor's <c>kg/m²</c> and <c>lb/ft²</c> are those of force.</summary>
    public static Dimension<Pressure> Pressure { get; } = new(
        "pressure", "`kPa`, `kg/m2` or `psf`", si => UnitsNet.Pressure.FromPascals(si),
        [
            .. Units(Si(PressureUnit.Pascal), "Pa", "N/m2"),
            .. Units(Si(PressureUnit.Kilopascal), "kPa"),
            .. Units(Si(PressureUnit.Megapascal), "MPa", "N/mm2"),
            .. Units(Si(PressureUnit.KilonewtonPerSquareMeter), "kN/m2"),
            .. Units(Si(PressureUnit.Bar), "bar"),
            .. Units(Si(PressureUnit.Millibar), "mbar"),
            .. Units(Si(PressureUnit.KilogramForcePerSquareMeter), "kg/m2", "kgf/m2", "kg/sq m"),
            .. Units(Si(PressureUnit.PoundForcePerSquareFoot), "psf", "lb/ft2", "lbs/ft2", "lbf/ft2", "lb/sq ft", "lbs/sq ft", "lb/sqft"),
            .. Units(Si(PressureUnit.PoundForcePerSquareInch), "psi", "lb/in2", "lbf/in2", "lb/sq in"),
            .. Units(Si(PressureUnit.KilopoundForcePerSquareFoot), "ksf"),
        ])
    { Most = 1e9m };

    /// <summary>Electric potentials, in volts inside; signed.</summary>
    public static Dimension<ElectricPotential> Potential { get; } = new("voltage", "`V`", si => UnitsNet.ElectricPotential.FromVolts(si),
    [
        .. Units(Si(ElectricPotentialUnit.Volt), "V", "volt", "volts"),
        .. Units(Si(ElectricPotentialUnit.Millivolt), "mV"),
        .. Units(Si(ElectricPotentialUnit.Kilovolt), "kV"),
    ])
    { Most = 1e6m, IsSigned = true };

    /// <summary>Electric currents, in amperes inside.</summary>
    public static Dimension<ElectricCurrent> Current { get; } = new(
        "current", "`A` or `mA`", si => UnitsNet.ElectricCurrent.FromAmperes(si),
        [
            .. Units(Si(ElectricCurrentUnit.Ampere), "A", "amp", "amps", "ampere", "amperes"),
            .. Units(Si(ElectricCurrentUnit.Milliampere), "mA"),
            .. Units(Si(ElectricCurrentUnit.Microampere), "µA", "uA"),
            .. Units(Si(ElectricCurrentUnit.Kiloampere), "kA"),
        ])
    { Most = 1e6m };

    /// <summary>Shares, as a fraction of one inside.</summary>
    public static Dimension<Ratio> Share { get; } = new("share", "`%`", si => Ratio.FromDecimalFractions(si),
    [
        .. Units(Si(RatioUnit.Percent), "%", "percent"),
        .. Units(Si(RatioUnit.PartPerThousand), "‰"),
    ])
    { Most = 100m };

    /// <summary>Spans of time, in seconds inside.</summary>
    public static Dimension<Duration> Time { get; } = new("time", "`min`, `s` or `h`", si => Duration.FromSeconds(si),
    [
        .. Units(Si(DurationUnit.Second), "s", "sec", "second", "seconds"),
        .. Units(Si(DurationUnit.Minute), "min", "mins", "minute", "minutes"),
        .. Units(Si(DurationUnit.Hour), "h", "hr", "hrs", "hour", "hours"),
        .. Units(Si(DurationUnit.Day), "d", "day", "days"),
    ])
    { Most = 1e9m };

    /// <summary>Sections of conductors, in square metres inside.</summary>
    public static Dimension<Area> Section { get; } = new("section", "`mm2` or `kcmil`", si => Area.FromSquareMeters(si),
    [
        .. Units(Si(AreaUnit.SquareMillimeter), "mm2", "sq mm", "sqmm"),
        .. Units(Si(AreaUnit.SquareCentimeter), "cm2"),
        .. Units(Si(AreaUnit.SquareInch), "in2", "sq in"),
        .. Units(CircularMil * Si(AreaUnit.SquareInch), "cmil"),
        .. Units(1000 * CircularMil * Si(AreaUnit.SquareInch), "kcmil", "MCM"),
    ])
    { Most = 1m };

    // The library's own stone and pounds per foot are rounded to eight figures; these follow from its exact pound and foot.
    private static decimal PoundPerFoot => Si(MassUnit.Pound) / Si(LengthUnit.Foot);

    // A circle of a thousandth of an inch across: pi/4 millionths of a square inch.
    private const decimal CircularMil = 0.7853981633974483096m * 1e-6m;

    private static readonly Dictionary<string, string[]> OtherNouns = new(StringComparer.Ordinal)
    {
        ["power"] = ["W", "kW", "MW", "mW", "VA", "kVA", "hp", "dBm", "watt", "watts", "BTU/h"],
        ["frequency"] = ["Hz", "kHz", "MHz", "GHz", "c/s", "kc/s", "Mc/s"],
        ["temperature"] = ["°C", "°F", "K", "degC", "degF"],
        ["resistance"] = ["Ω", "kΩ", "MΩ", "mΩ", "ohm", "ohms"],
        ["capacitance"] = ["F", "µF", "uF", "nF", "pF"],
        ["inductance"] = ["H", "mH", "µH", "uH"],
        ["force"] = ["N", "kN", "lbf", "kgf"],
        ["area"] = ["m2", "ft2", "yd2", "sq ft", "sq m"],
        ["volume"] = ["L", "l", "ml", "mL", "m3", "ft3", "gal"],
        ["charge"] = ["Ah", "C", "mAh"],
        ["angle"] = ["°", "deg", "rad"],
        ["speed"] = ["m/s", "km/h", "mph"],
    };

    private static readonly Lazy<FrozenDictionary<string, string>> Nouns = new(() =>
        new Dimension[] { Length, Mass, LinearDensity, Pressure, Potential, Current, Share, Time, Section }
            .SelectMany(dimension => dimension.Units.Keys.Select(unit => (unit, dimension.Noun)))
            .Concat(OtherNouns.SelectMany(other => other.Value.Select(unit => (unit, other.Key))))
            .DistinctBy(known => known.Item1)
            .ToFrozenDictionary(known => known.Item1, known => known.Item2, StringComparer.Ordinal));

    // What a unit measures, to say that another dimension is needed.
    internal static string? NounOf(string unit) => Nouns.Value.GetValueOrDefault(unit);

    private static IEnumerable<KeyValuePair<string, decimal>> Units(decimal si, params string[] spellings) =>
        spellings.Select(spelling => KeyValuePair.Create(spelling, si));

    // Each by its type: looking a unit up among all that the library knows would load them all, at every start.
    private static decimal Si(LengthUnit unit) => (decimal)UnitsNet.Length.From(1, unit).Meters;

    private static decimal Si(MassUnit unit) => (decimal)UnitsNet.Mass.From(1, unit).Kilograms;

    private static decimal Si(LinearDensityUnit unit) => (decimal)UnitsNet.LinearDensity.From(1, unit).KilogramsPerMeter;

    private static decimal Si(PressureUnit unit) => (decimal)UnitsNet.Pressure.From(1, unit).Pascals;

    private static decimal Si(ElectricPotentialUnit unit) => (decimal)ElectricPotential.From(1, unit).Volts;

    private static decimal Si(ElectricCurrentUnit unit) => (decimal)ElectricCurrent.From(1, unit).Amperes;

    private static decimal Si(RatioUnit unit) => (decimal)Ratio.From(1, unit).DecimalFractions;

    private static decimal Si(DurationUnit unit) => (decimal)Duration.From(1, unit).Seconds;

    private static decimal Si(AreaUnit unit) => (decimal)Area.From(1, unit).SquareMeters;
}
