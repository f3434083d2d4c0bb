using Archive.Records.Terms;
using UnitsNet;
using Xunit;

namespace Archive.Records.Tests.Terms;

public sealed class QuantityTextTests
{
    [Theory]
    [InlineData("6.1 mm", "6.1 mm", "0.24 in")]
    [InlineData("450 mm", "450 mm", "1 ft 5.7 in")]
    [InlineData("2134 mm", "2.134 m", "7 ft")]
    [InlineData("7 ft 2 in", "2.18 m", "7 ft 2 in")]
    [InlineData("18.3 m", "18.3 m", "60 ft")]
    [InlineData("999.9 mm", "1 m", "3 ft 3.4 in")]
    [InlineData("11.99 in", "305 mm", "1 ft")]
    [InlineData("0 m", "0 mm", "0 in")]
    public void Lengths(string text, string metric, string inchPound) =>
        Holds(units => units.Format(Dimensions.Length.Read(text).Value!.Value), metric, inchPound);

    [Theory]
    [InlineData("310 kg", "310 kg", "683 lb")]
    [InlineData("12.25 kg", "12.3 kg", "27 lb")]
    [InlineData("55 g", "55 g", "1.94 oz")]
    public void Masses(string text, string metric, string inchPound) =>
        Holds(units => units.Format(Dimensions.Mass.Read(text).Value!.Value), metric, inchPound);

    [Theory]
    [InlineData("55 g/m", "55 g/m", "37 lb/1000 ft")]
    [InlineData("400 g/m", "400 g/m", "269 lb/1000 ft")]
    public void Masses_per_length(string text, string metric, string inchPound) =>
        Holds(units => units.Format(Dimensions.LinearDensity.Read(text).Value!.Value), metric, inchPound);

    [Theory]
    [InlineData("4.8 kPa", "4.8 kPa", "100 psf")]
    [InlineData("250 psf", "12 kPa", "250 psf")]
    public void Pressures(string text, string metric, string inchPound) =>
        Holds(units => units.Format(Dimensions.Pressure.Read(text).Value!.Value), metric, inchPound);

    [Theory]
    [InlineData("24 AWG", "0.205 mm²", "0.404 kcmil")]
    [InlineData("4/0 AWG", "107 mm²", "212 kcmil")]
    public void Sections(string text, string metric, string inchPound)
    {
        Assert.True(WireGauge.TryParse(text, out var gauge, out _));
        Holds(units => units.Format(gauge.Section), metric, inchPound);
    }

    [Fact]
    public void What_both_systems_share_is_said_once()
    {
        var both = new UnitFormatter(DisplayUnits.Both);
        Assert.Equal("−48 V", both.Format(ElectricPotential.FromVolts(-48)));
        Assert.Equal("14 A", both.Format(ElectricCurrent.FromAmperes(14)));
        Assert.Equal("250 mA", both.Format(ElectricCurrent.FromAmperes(0.25)));
        Assert.Equal("50 %", both.Format(Ratio.FromPercent(50)));
        Assert.Equal("6.5 min", both.Format(Duration.FromMinutes(6.5)));
        Assert.Equal("30 s", both.Format(Duration.FromSeconds(30)));
        Assert.Equal("1 h", both.Format(Duration.FromMinutes(60)));
        Assert.Equal("2 h 5 min", both.Format(Duration.FromMinutes(125)));
    }

    // A rectifier's manual prints 27,350 BTU/h for 8,010 W; exactly it is 27,331.
    [Theory]
    [InlineData(0, "0 W (0 BTU/h)")]
    [InlineData(336, "336 W (1150 BTU/h)")]
    [InlineData(8010, "8.01 kW (27,300 BTU/h)")]
    [InlineData(17956, "18.0 kW (61,300 BTU/h)")]
    public void Heat_is_said_in_both_units(double watts, string text) => Assert.Equal(text, UnitFormatter.Heat(Power.FromWatts(watts)));

    // What was calculated has one step for all its kind: noughts stand, so that columns align and a reader can check the sum.
    [Theory]
    [InlineData(9.187, "9.19 m", "30.2 ft")]
    [InlineData(10.187, "10.19 m", "33.4 ft")]
    [InlineData(13, "13.00 m", "42.7 ft")]
    [InlineData(0.474, "0.47 m", "1 ft 7 in")]
    [InlineData(0, "0.00 m", "0 in")]
    [InlineData(0.002, "less than 0.01 m", "0 in")]
    [InlineData(-2.657, "−2.66 m", "−8 ft 9 in")]
    public void Reckoned_lengths(double metres, string metric, string inchPound) =>
        Holds(units => units.FormatComputed(Length.FromMeters(metres)), metric, inchPound);

    [Theory]
    [InlineData(0.0735, "0.1 kg", "0.2 lb")]
    [InlineData(8.06, "8.1 kg", "18 lb")]
    [InlineData(34.1, "34 kg", "75 lb")]
    public void Reckoned_masses(double kilograms, string metric, string inchPound) =>
        Holds(units => units.FormatComputed(Mass.FromKilograms(kilograms)), metric, inchPound);

    [Fact]
    public void Reckoned_loads_voltages_and_shares()
    {
        Holds(units => units.FormatComputed(Pressure.FromKilopascals(1)), "1.00 kPa", "21 psf");
        Assert.Equal("0.30 V", UnitFormatter.FormatComputed(ElectricPotential.FromVolts(0.3)));
        Assert.Equal("1.0 %", UnitFormatter.FormatComputed(Ratio.FromPercent(1)));
    }

    [Fact]
    public void Floor_areas() => Holds(units => units.OfFloor(Area.FromSquareMeters(5.4)), "5.4 m²", "58 ft²");

    [Fact]
    public void Sizes_have_one_unit_behind()
    {
        Holds(units => units.Format(SizeParser.ReadFrame("660 x 610 x 2134 mm").Value!.Value), "660 × 610 × 2134 mm", "26 × 24 × 84 in");
        Holds(units => units.Format(SizeParser.ReadTray("450 x 100 mm").Value!.Value), "450 × 100 mm", "17.7 × 3.9 in");
    }

    private static void Holds(Func<UnitFormatter, string> text, string metric, string inchPound)
    {
        Assert.Equal(metric, text(new UnitFormatter(DisplayUnits.Metric)));
        Assert.Equal(inchPound, text(new UnitFormatter(DisplayUnits.InchPound)));
        Assert.Equal($"{metric} ({inchPound})", text(new UnitFormatter(DisplayUnits.Both)));
    }
}
