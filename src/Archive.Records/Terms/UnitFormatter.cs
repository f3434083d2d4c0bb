using System.Globalization;
using UnitsNet;

namespace Archive.Records.Terms;

/// <summary>
/// Quantities as pages show them, in the archive's choice of units: <c>310 kg</c>, <c>683 lb</c>, <c>310 kg (683 lb)</c>.
/// </summary>
/// <param name="Units">The choice.</param>
/// <remarks>
/// Digits are those that a tape, a scale or a meter gives: a millimetre below ten metres, a part in a hundred or better elsewhere.
/// What was calculated from several such is no better than the worst of them: it has one step for all its kind, and shows it, noughts and
/// all, so that columns align and sums can be checked by eye. What it writes, the record's own readers take. The same in every culture.
/// </remarks>
public readonly record struct UnitFormatter(DisplayUnits Units)
{
    private const string Minus = "−";

    // One pound in 1000 ft, in kilograms a metre.
    private const double PoundPerThousandFeet = 0.45359237 / 304.8;

    /// <summary>A length: <c>6.1 mm</c>, <c>2.134 m</c>, <c>18.3 m</c>; <c>0.24 in</c>, <c>7 ft 2 in</c>, <c>60 ft</c>.</summary>
    public string Format(Length length) => Choose(length, Metric, InchPound);

    /// <summary>A length that was calculated, such as a way through trays: <c>9.19 m</c>, <c>0.50 m</c>; <c>9 ft 2 in</c>.</summary>
    public string FormatComputed(Length length) =>
        Choose(length, Centimetres, static l => InchPound(Length.FromInches(Math.Round(l.Inches, MidpointRounding.AwayFromZero))));

    /// <summary>A mass: <c>55 g</c>, <c>310 kg</c>; <c>2 oz</c>, <c>683 lb</c>.</summary>
    public string Format(Mass mass) => Choose(mass,
        static m => Math.Abs(m.Kilograms) < 1 ? Number(m.Grams) + " g" : Number(m.Kilograms) + " kg",
        static m => Math.Abs(m.Pounds) < 1 ? Number(m.Ounces) + " oz" : Number(m.Pounds) + " lb");

    /// <summary>A mass that was calculated from lengths and masses a metre: <c>0.6 kg</c>, <c>34 kg</c>; <c>1.2 lb</c>.</summary>
    public string FormatComputed(Mass mass) => Choose(mass, static m => Tenth(m.Kilograms) + " kg", static m => Tenth(m.Pounds) + " lb");

    /// <summary>A mass of a length of cable: <c>55 g/m</c>, <c>19.1 kg/m</c>; <c>37 lb/1000 ft</c>.</summary>
    /// <param name="mass">A mass per length.</param>
    public string Format(LinearDensity mass) => Choose(mass,
        static m => Math.Abs(m.KilogramsPerMeter) < 1 ? Number(m.GramsPerMeter) + " g/m" : Number(m.KilogramsPerMeter) + " kg/m",
        static m => Number(m.KilogramsPerMeter / PoundPerThousandFeet) + " lb/1000 ft");

    /// <summary>A load on a surface: <c>4.8 kPa</c>; <c>100 psf</c>.</summary>
    public string Format(Pressure pressure) => Choose(pressure,
        static p => Number(p.Kilopascals) + " kPa",
        static p => Number(p.PoundsForcePerSquareFoot) + " psf");

    /// <summary>A load that was calculated from a weight and an area: <c>5.01 kPa</c>, <c>1.00 kPa</c>; <c>105 psf</c>.</summary>
    public string FormatComputed(Pressure pressure) => Choose(pressure,
        static p => Fixed(p.Kilopascals, 2) + " kPa",
        static p => Fixed(p.PoundsForcePerSquareFoot, 0) + " psf");

    /// <summary>A section of a conductor: <c>0.205 mm²</c>; <c>0.404 kcmil</c>.</summary>
    public string Format(Area section) => Choose(section,
        static s => Significant(s.SquareMillimeters) + " mm²",
        static s => Significant(s.SquareInches * 4000 / Math.PI) + " kcmil");

    /// <summary>A voltage, with its sign: <c>−48 V</c>.</summary>
    /// <param name="potential">A voltage.</param>
    public string Format(ElectricPotential potential) => Choose(potential, static p => Number(p.Volts, 2) + " V");

    /// <summary>A voltage that was calculated, such as what a feeder loses: <c>0.30 V</c>.</summary>
    /// <param name="potential">A voltage.</param>
    public static string FormatComputed(ElectricPotential potential) => Fixed((double)potential.Volts, 2) + " V";

    /// <summary>A current: <c>14 A</c>.</summary>
    public string Format(ElectricCurrent current) => Choose(current,
        static c => Math.Abs(c.Amperes) < 1 ? Number(c.Milliamperes) + " mA" : Number(c.Amperes, 2) + " A");

    /// <summary>
    /// Heat, in both units in which rooms are cooled, whatever the choice: <c>336 W (1150 BTU/h)</c>, <c>8.01 kW (27,300 BTU/h)</c>.
    /// </summary>
    /// <param name="heat">A power, not negative.</param>
    public static string Heat(Power heat)
    {
        var (watts, btu) = ((double)heat.Watts, (double)heat.BritishThermalUnitsPerHour);
        return $"{(watts < 999.5 ? Number(watts) + " W" : Fixed(watts / 1000, watts < 9995 ? 2 : watts < 99950 ? 1 : 0) + " kW")} ({RoundedToThree(btu)} BTU/h)";
    }

    /// <summary>An area of floor: <c>5.4 m²</c>; <c>58 ft²</c>.</summary>
    public string OfFloor(Area area) => Choose(area,
        static a => Number(a.SquareMeters, 1) + " m²",
        static a => Number(a.SquareFeet, 0) + " ft²");

    /// <summary>A share: <c>50 %</c>.</summary>
    public string Format(Ratio share) => Choose(share, static s => Number(s.Percent, 1) + " %");

    /// <summary>A share that was calculated: <c>1.0 %</c>.</summary>
    public static string FormatComputed(Ratio share) => Fixed(share.Percent, 1) + " %";

    /// <summary>A span of time: <c>30 s</c>, <c>6.5 min</c>, <c>2 h 5 min</c>.</summary>
    /// <param name="time">A span of time.</param>
    public string Format(Duration time) => Choose(time, Clock);

    /// <summary>A frame's size: <c>660 × 610 × 2134 mm</c>; <c>26 × 24 × 84 in</c>.</summary>
    /// <param name="size">Width, depth and height.</param>
    public string Format(FrameSize size) => Format([size.Width, size.Depth, size.Height]);

    /// <summary>A tray's section: <c>450 × 100 mm</c>; <c>17.7 × 3.9 in</c>.</summary>
    /// <param name="size">Width and depth.</param>
    public string Format(TraySize size) => Format([size.Width, size.Depth]);

    private string Format(Length[] sides) => Choose(sides,
        static all => string.Join(" × ", all.Select(side => Number(side.Millimeters, 1))) + " mm",
        static all => string.Join(" × ", all.Select(side => Number(side.Inches, 1))) + " in");

    private static string Metric(Length length) => Math.Abs(length.Meters) switch
    {
        < 0.9995 => Number(length.Millimeters, Math.Abs(length.Millimeters) < 100 ? 1 : 0) + " mm",
        < 10 => Number(length.Meters, IsWholeMillimetres(length) ? 3 : 2) + " m",
        _ => Number(length.Meters, 2) + " m",
    };

    // A length read off in feet or inches has no millimetres.
    private static bool IsWholeMillimetres(Length length) => Math.Abs(length.Millimeters - Math.Round(length.Millimeters)) < 1e-6;

    private static string Centimetres(Length length) =>
        Math.Abs(length.Meters) is > 0 and < 0.005 ? "less than 0.01 m" : Fixed(length.Meters, 2) + " m";

    private static string InchPound(Length length)
    {
        if (Math.Abs(length.Inches) < 11.95) return Number(length.Inches, 2) + " in";
        if (Math.Abs(length.Feet) >= 20) return Number(length.Feet, 1) + " ft";
        var tenths = (long)Math.Round(length.Inches * 10, MidpointRounding.AwayFromZero);
        return Pair(tenths / 120, "ft", tenths % 120 / 10.0, "in");
    }

    private static string Clock(Duration time)
    {
        if (Math.Abs(time.Minutes) < 0.9995) return Number(time.Seconds, 1) + " s";
        if (Math.Abs(time.Minutes) < 59.95) return Number(time.Minutes, 1) + " min";
        var minutes = (long)Math.Round(time.Minutes, MidpointRounding.AwayFromZero);
        return Pair(minutes / 60, "h", minutes % 60, "min");
    }

    private static string Pair(long large, string unit, double small, string smallUnit) =>
        small == 0 ? $"{Number(large, 0)} {unit}" : $"{Number(large, 0)} {unit} {Number(Math.Abs(small), 1)} {smallUnit}";

    // Two figures behind the point below ten, one below a hundred, none above.
    private static string Number(double value) => Number(value, Math.Abs(value) switch { < 10 => 2, < 100 => 1, _ => 0 });

    private static string Number(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        var digits = Math.Abs(rounded).ToString("0.###", CultureInfo.InvariantCulture);
        return rounded < 0 ? Minus + digits : digits;
    }

    // As many figures behind the point whatever they are.
    private static string Fixed(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        var digits = Math.Abs(rounded).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return rounded < 0 ? Minus + digits : digits;
    }

    // One figure behind the point below ten, none above.
    private static string Tenth(double value) => Fixed(value, Math.Abs(value) < 9.95 ? 1 : 0);

    // Three figures that count, never as a power of ten.
    private static string Significant(double value)
    {
        var decimals = value > 0 ? Math.Clamp(2 - (int)Math.Floor(Math.Log10(value)), 0, 9) : 0;
        return Math.Round(value, decimals, MidpointRounding.AwayFromZero).ToString("0.#########", CultureInfo.InvariantCulture);
    }

    // The same, for figures above a hundred: what is behind the third is nought.
    private static string RoundedToThree(double value)
    {
        var step = value >= 1000 ? Math.Pow(10, Math.Floor(Math.Log10(value)) - 2) : 1;
        return (Math.Round(value / step, MidpointRounding.AwayFromZero) * step).ToString(
            value >= 9995 ? "#,0" : "0", CultureInfo.InvariantCulture);
    }

    // A quantity that both systems measure alike is said once.
    private string Choose<T>(T value, Func<T, string> metric, Func<T, string>? inchPound = null) => Units switch
    {
        DisplayUnits.InchPound when inchPound is not null => inchPound(value),
        DisplayUnits.Both when inchPound is not null => $"{metric(value)} ({inchPound(value)})",
        _ => metric(value),
    };
}
