using System.Globalization;
using Archive.Records.Terms;
using Xunit;

namespace Archive.Records.Tests.Terms;

public sealed class QuantityTests
{
    // International yard and pound agreement, 1959; the rest follows from it and from g = 9.80665 m/s².
    [Theory]
    [InlineData("18.3 m", 18.3)]
    [InlineData("660 mm", 0.66)]
    [InlineData("2134mm", 2.134)]
    [InlineData("1 in", 0.0254)]
    [InlineData("7 ft 2 in", 2.1844)]
    [InlineData("7ft2in", 2.1844)]
    [InlineData("7' 2\"", 2.1844)]
    [InlineData("7′2″", 2.1844)]
    [InlineData("2 1/2 in", 0.0635)]
    [InlineData("3/4 in", 0.01905)]
    [InlineData("60 feet", 18.288)]
    [InlineData("+1.5 m", 1.5)]
    [InlineData("0 m", 0)]
    public void Lengths(string text, double metres) => Assert.Equal(metres, Read(Dimensions.Length, text).Meters, 1e-12);

    [Theory]
    [InlineData("310 kg", 310)]
    [InlineData("1 lb", 0.45359237)]
    [InlineData("1 oz", 0.028349523125)]
    [InlineData("1 st", 6.35029318)]
    [InlineData("683 lbs", 309.80358871)]
    [InlineData("1.2 t", 1200)]
    [InlineData("1 short ton", 907.18474)]
    [InlineData("10 lb 8 oz", 4.762719885)]
    public void Masses(string text, double kilograms) => Assert.Equal(kilograms, Read(Dimensions.Mass, text).Kilograms, 1e-9);

    [Theory]
    [InlineData("55 g/m", 0.055)]
    [InlineData("55 kg/km", 0.055)]
    [InlineData("1 lb/ft", 1.488163943569554)]
    [InlineData("1 lb/in", 17.857967322834646)]
    [InlineData("1 oz/ft", 0.0930102464730971)]
    [InlineData("37 lb/1000 ft", 0.0550620659)]
    [InlineData("37 lb/kft", 0.0550620659)]
    [InlineData("37 lb per 1000 ft", 0.0550620659)]
    public void Masses_per_length(string text, double expected) =>
        Assert.Equal(expected, Read(Dimensions.LinearDensity, text).KilogramsPerMeter, 1e-9);

    // ASCE 7-22 Table 4.3-1 states these loads in both units, rounded: 80 psf = 3.83, 100 = 4.79, 250 = 11.97 kPa.
    [Theory]
    [InlineData("4.8 kPa", 4.8, 1e-9)]
    [InlineData("1 psf", 0.0478803, 1e-7)]
    [InlineData("80 psf", 3.83, 0.005)]
    [InlineData("100 lb/ft²", 4.79, 0.005)]
    [InlineData("250 lb/ft2", 11.97, 0.005)]
    [InlineData("1 kg/m²", 0.00980665, 1e-9)]
    [InlineData("560 kgf/m2", 5.49, 0.005)]
    [InlineData("5 kN/m^2", 5, 1e-9)]
    [InlineData("1 psi", 6.894757293168, 1e-9)]
    [InlineData("1 ksf", 47.88025898033584, 1e-6)]
    [InlineData("20.885434233120 psf", 1, 1e-9)]
    public void Pressures(string text, double kilopascals, double within) =>
        Assert.Equal(kilopascals, Read(Dimensions.Pressure, text).Kilopascals, within);

    [Fact]
    public void Electrical_shares_and_times()
    {
        Assert.Equal(-48, Read(Dimensions.Potential, "-48 V").Volts, 1e-12);
        Assert.Equal(-48, Read(Dimensions.Potential, "−48 V").Volts, 1e-12);
        Assert.Equal(14, Read(Dimensions.Current, "14 A").Amperes, 1e-12);
        Assert.Equal(0.5, Read(Dimensions.Share, "50 %").DecimalFractions, 1e-12);
        Assert.Equal(0.5, Read(Dimensions.Share, "50%").DecimalFractions, 1e-12);
        Assert.Equal(360, Read(Dimensions.Time, "6 min").Seconds, 1e-12);
        Assert.Equal(5400, Read(Dimensions.Time, "1 h 30 min").Seconds, 1e-12);
    }

    [Theory]
    [InlineData("18.3", "AF0204", "18.3", "`18.3` has no unit", "add the unit of the length: `mm`, `m`, `ft` or `in`")]
    [InlineData("7 ft 2", "AF0204", "2", "`2` has no unit", "add the unit of the length: `mm`, `m`, `ft` or `in`")]
    [InlineData("18.3 kg", "AF0206", "kg", "`kg` is a unit of mass, but a length is needed", "write it in `mm`, `m`, `ft` or `in`")]
    [InlineData("18 kW", "AF0206", "kW", "`kW` is a unit of power, but a length is needed", "write it in `mm`, `m`, `ft` or `in`")]
    [InlineData("18.3 metrs", "AF0205", "metrs", "unknown unit `metrs`", "did you mean `meters`?")]
    [InlineData("18 MM", "AF0205", "MM", "unknown unit `MM`", "did you mean `mm`?")]
    [InlineData("18 furlongs", "AF0205", "furlongs", "unknown unit `furlongs`", "write the length in `mm`, `m`, `ft` or `in`")]
    [InlineData(
        "18,3 m", "AF0209", "18,3", "`18,3` contains a comma", "write `.` as the decimal point, and no separator between thousands")]
    [InlineData(
        "1,200 mm", "AF0209", "1,200", "`1,200` contains a comma", "write `.` as the decimal point, and no separator between thousands")]
    [InlineData("1 200 mm", "AF0209", "1 200", "`1 200` is not one number", "write the digits of a number together, without spaces")]
    [InlineData("1.2.3 m", "AF0209", "1.2.3", "`1.2.3` does not begin with a number", "write a number and a unit, such as `18.3 m`")]
    [InlineData("long", "AF0209", "long", "`long` does not begin with a number", "write a number and a unit, such as `18.3 m`")]
    [InlineData("", "AF0209", "", "a quantity is missing its number", "write a number and a unit, such as `18.3 m`")]
    [InlineData("-2 m", "AF0209", "-2 m", "a length below zero", "remove the minus sign")]
    [InlineData("99999999 km", "AF0209", "99999999 km", "an impossibly large length", "check the number and its unit")]
    [InlineData("1234567890123456789012 m", "AF0209", "1234567890123456789012", "a number with too many digits", "check the number")]
    [InlineData(
        "2 in 7 ft",
        "AF0209",
        "7 ft",
        "`7 ft` does not follow a larger unit",
        "write one number and one unit, or the larger unit first, as in `7 ft 2 in`")]
    [InlineData("1/0 in", "AF0209", "1/0", "a fraction without a denominator", "write a number such as `2 1/2`")]
    public void A_fault_stands_under_the_wrong_part(string text, string code, string part, string message, string help)
    {
        var error = Dimensions.Length.Read(text).Fault!;
        Assert.Equal((code, part, message, help), (error.Kind.Code, text.Substring(error.Start, error.Length), error.Message, error.Help));
    }

    [Theory]
    [InlineData("2 tons")]
    [InlineData("2 cwt")]
    public void A_unit_that_means_several_is_asked_about(string text)
    {
        var error = Dimensions.Mass.Read(text).Fault!;
        Assert.Equal("AF0205", error.Kind.Code);
        Assert.Contains("can mean several units", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Minutes_are_never_metres()
    {
        Assert.Equal("`m` is a unit of length, but a time is needed", Dimensions.Time.Read("5 m").Fault!.Message);
        Assert.Equal("`min` is a unit of time, but a length is needed", Dimensions.Length.Read("5 min").Fault!.Message);
    }

    [Fact]
    public void The_culture_does_not_matter()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            var commas = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            commas.NumberFormat.NumberDecimalSeparator = ",";
            commas.NumberFormat.NegativeSign = "~";
            CultureInfo.CurrentCulture = commas;
            Assert.Equal(18.3, Read(Dimensions.Length, "18.3 m").Meters);
            Assert.Equal(-48, Read(Dimensions.Potential, "-48 V").Volts);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static T Read<T>(Dimension<T> dimension, string text)
        where T : struct
    {
        var reading = dimension.Read(text);
        Assert.True(reading.Value is not null, reading.Fault?.Message);
        return reading.Value!.Value;
    }
}
