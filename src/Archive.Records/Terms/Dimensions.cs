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
        .. Units(LengthUnit.Meter, "m", "metre", "metres", "meter", "meters"),
        .. Units(LengthUnit.Millimeter, "mm", "millimetre", "millimetres", "millimeter", "millimeters"),
        .. Units(LengthUnit.Centimeter, "cm", "centimetre", "centimetres", "centimeter", "centimeters"),
        .. Units(LengthUnit.Decimeter, "dm"),
        .. Units(LengthUnit.Kilometer, "km", "kilometre", "kilometres", "kilometer", "kilometers"),
        .. Units(LengthUnit.Micrometer, "µm", "um"),
        .. Units(LengthUnit.Inch, "in", "\"", "''", "inch", "inches"),
        .. Units(LengthUnit.Foot, "ft", "'", "foot", "feet"),
        .. Units(LengthUnit.Yard, "yd", "yard", "yards"),
        .. Units(LengthUnit.Mile, "mi", "mile", "miles"),
        .. Units(LengthUnit.Mil, "mil", "mils", "thou"),
    ])
    { Most = 1e6m };

    /// <summary>Masses, in kilograms inside.</summary>
    public static Dimension<Mass> Mass { get; } = new("mass", "`kg` or `lb`", si => UnitsNet.Mass.FromKilograms(si),
    [
        .. Units(MassUnit.Kilogram, "kg", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
        .. Units(MassUnit.Gram, "g", "gram", "grams", "gramme", "grammes"),
        .. Units(MassUnit.Milligram, "mg"),
        .. Units(MassUnit.Tonne, "t", "tonne", "tonnes"),
        .. Units(MassUnit.Pound, "lb", "lbs", "pound", "pounds"),
        .. Units(MassUnit.Ounce, "oz", "ounce", "ounces"),
        .. Multiple(14 * Si(MassUnit.Pound), "st", "stone", "stones"),
        .. Units(MassUnit.ShortTon, "short ton", "short tons"),
        .. Units(MassUnit.LongTon, "long ton", "long tons"),
    ])
    { Most = 1e7m };

    /// <summary>Masses of a length of cable, in kilograms a metre inside.</summary>
    public static Dimension<LinearDensity> LinearDensity { get; } = new(
        "mass per length", "`g/m`, `kg/m` or `lb/ft`", si => UnitsNet.LinearDensity.FromKilogramsPerMeter(si),
        [
            .. Units(LinearDensityUnit.KilogramPerMeter, "kg/m"),
            .. Units(LinearDensityUnit.GramPerMeter, "g/m", "kg/km"),
            .. Units(LinearDensityUnit.GramPerCentimeter, "g/cm"),
            .. Multiple(PoundPerFoot, "lb/ft", "lbs/ft"),
            .. Multiple(12 * PoundPerFoot, "lb/in", "lbs/in"),
            .. Multiple(PoundPerFoot / 1000, "lb/kft", "lbs/kft", "lb/1000 ft", "lb/1000ft", "lbs/1000 ft", "lb/1000'", "lb/Mft"),
            .. Multiple(PoundPerFoot / 16, "oz/ft"),
            .. Multiple(PoundPerFoot * 12 / 16, "oz/in"),
        ])
    { Most = 1e4m };

    /// <summary>Loads on a surface, in pascals inside. A floor's <c>kg/m²</c> and <c>lb/ft²</c> are those of force.</summary>
    public static Dimension<Pressure> Pressure { get; } = new(
        "pressure", "`kPa`, `kg/m2` or `psf`", si => UnitsNet.Pressure.FromPascals(si),
        [
            .. Units(PressureUnit.Pascal, "Pa", "N/m2"),
            .. Units(PressureUnit.Kilopascal, "kPa"),
            .. Units(PressureUnit.Megapascal, "MPa", "N/mm2"),
            .. Units(PressureUnit.KilonewtonPerSquareMeter, "kN/m2"),
            .. Units(PressureUnit.Bar, "bar"),
            .. Units(PressureUnit.Millibar, "mbar"),
            .. Units(PressureUnit.KilogramForcePerSquareMeter, "kg/m2", "kgf/m2", "kg/sq m"),
            .. Units(PressureUnit.PoundForcePerSquareFoot, "psf", "lb/ft2", "lbs/ft2", "lbf/ft2", "lb/sq ft", "lbs/sq ft", "lb/sqft"),
            .. Units(PressureUnit.PoundForcePerSquareInch, "psi", "lb/in2", "lbf/in2", "lb/sq in"),
            .. Units(PressureUnit.KilopoundForcePerSquareFoot, "ksf"),
        ])
    { Most = 1e9m };

    /// <summary>Electric potentials, in volts inside; signed.</summary>
    public static Dimension<ElectricPotential> Potential { get; } = new("voltage", "`V`", si => UnitsNet.ElectricPotential.FromVolts(si),
    [
        .. Units(ElectricPotentialUnit.Volt, "V", "volt", "volts"),
        .. Units(ElectricPotentialUnit.Millivolt, "mV"),
        .. Units(ElectricPotentialUnit.Kilovolt, "kV"),
    ])
    { Most = 1e6m, IsSigned = true };

    /// <summary>Electric currents, in amperes inside.</summary>
    public static Dimension<ElectricCurrent> Current { get; } = new(
        "current", "`A` or `mA`", si => UnitsNet.ElectricCurrent.FromAmperes(si),
        [
            .. Units(ElectricCurrentUnit.Ampere, "A", "amp", "amps", "ampere", "amperes"),
            .. Units(ElectricCurrentUnit.Milliampere, "mA"),
            .. Units(ElectricCurrentUnit.Microampere, "µA", "uA"),
            .. Units(ElectricCurrentUnit.Kiloampere, "kA"),
        ])
    { Most = 1e6m };

    /// <summary>Shares, as a fraction of one inside.</summary>
    public static Dimension<Ratio> Share { get; } = new("share", "`%`", si => Ratio.FromDecimalFractions(si),
    [
        .. Units(RatioUnit.Percent, "%", "percent"),
        .. Units(RatioUnit.PartPerThousand, "‰"),
    ])
    { Most = 100m };

    /// <summary>Spans of time, in seconds inside.</summary>
    public static Dimension<Duration> Time { get; } = new("time", "`min`, `s` or `h`", si => Duration.FromSeconds(si),
    [
        .. Units(DurationUnit.Second, "s", "sec", "second", "seconds"),
        .. Units(DurationUnit.Minute, "min", "mins", "minute", "minutes"),
        .. Units(DurationUnit.Hour, "h", "hr", "hrs", "hour", "hours"),
        .. Units(DurationUnit.Day, "d", "day", "days"),
    ])
    { Most = 1e9m };

    /// <summary>Sections of conductors, in square metres inside.</summary>
    public static Dimension<Area> Section { get; } = new("section", "`mm2` or `kcmil`", si => Area.FromSquareMeters(si),
    [
        .. Units(AreaUnit.SquareMillimeter, "mm2", "sq mm", "sqmm"),
        .. Units(AreaUnit.SquareCentimeter, "cm2"),
        .. Units(AreaUnit.SquareInch, "in2", "sq in"),
        .. Multiple(CircularMil * Si(AreaUnit.SquareInch), "cmil"),
        .. Multiple(1000 * CircularMil * Si(AreaUnit.SquareInch), "kcmil", "MCM"),
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

    private static IEnumerable<KeyValuePair<string, decimal>> Units(Enum unit, params string[] spellings) => Multiple(Si(unit), spellings);

    private static IEnumerable<KeyValuePair<string, decimal>> Multiple(decimal si, params string[] spellings) =>
        spellings.Select(spelling => KeyValuePair.Create(spelling, si));

    private static decimal Si(Enum unit) => (decimal)UnitConverter.Convert(1, unit, Quantity.From(1, unit).QuantityInfo.BaseUnitInfo.Value);
}
