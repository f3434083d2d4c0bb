using Archive.Records.Terms;
using Xunit;

namespace Archive.Records.Tests.Terms;

public sealed class WireGaugeTests
{
    // Diameters and sections of solid wire after ASTM B258; the circular mils of 12, 16, 20 and 24 agree with a printed
    // cable maker's table (6529.9, 2582.9, 1021.5, 404.01), those of 4/0 are the standard's fixed point.
    [Theory]
    [InlineData("4/0 AWG", 460.00, 211600, 107.22)]
    [InlineData("0000 AWG", 460.00, 211600, 107.22)]
    [InlineData("3/0 AWG", 409.64, 167806, 85.03)]
    [InlineData("2/0 AWG", 364.80, 133077, 67.43)]
    [InlineData("1/0 AWG", 324.86, 105535, 53.48)]
    [InlineData("0 AWG", 324.86, 105535, 53.48)]
    [InlineData("1 AWG", 289.30, 83693, 42.41)]
    [InlineData("2 AWG", 257.63, 66371, 33.63)]
    [InlineData("6 AWG", 162.02, 26251, 13.30)]
    [InlineData("10 AWG", 101.90, 10383, 5.261)]
    [InlineData("12 AWG", 80.81, 6529.9, 3.309)]
    [InlineData("AWG 16", 50.82, 2582.9, 1.309)]
    [InlineData("20AWG", 31.96, 1021.5, 0.518)]
    [InlineData("#24 awg", 20.10, 404.01, 0.205)]
    [InlineData("30 AWG", 10.03, 100.5, 0.0509)]
    [InlineData("36 AWG", 5.00, 25, 0.01267)]
    public void A_gauge_has_the_section_of_its_table(string text, double mils, double circularMils, double squareMillimetres)
    {
        Assert.True(WireGauge.TryParse(text, out var gauge, out _));
        Assert.Equal(text, gauge.Text);
        Assert.Equal(1, gauge.Section.SquareMillimeters / squareMillimetres, 0.003);
        Assert.Equal(1, gauge.Section.SquareInches * 4 / Math.PI * 1e6 / circularMils, 0.003);
        Assert.Equal(mils, Math.Sqrt(gauge.Section.SquareInches * 4 / Math.PI) * 1000, 0.006);
    }

    [Theory]
    [InlineData("16 mm2", 16)]
    [InlineData("16 mm²", 16)]
    [InlineData("1.5 mm^2", 1.5)]
    [InlineData("250 kcmil", 126.677)]
    [InlineData("250 MCM", 126.677)]
    [InlineData("211600 cmil", 107.219)]
    public void A_section_is_taken_as_it_is(string text, double squareMillimetres)
    {
        Assert.True(WireGauge.TryParse(text, out var gauge, out _));
        Assert.Equal(squareMillimetres, gauge.Section.SquareMillimeters, 0.001);
    }

    [Theory]
    [InlineData("41 AWG", "AF0209", "41")]
    [InlineData("5/0 AWG", "AF0209", "5/0")]
    [InlineData("00000 AWG", "AF0209", "00000")]
    [InlineData("24", "AF0204", "24")]
    [InlineData("16 mm", "AF0206", "mm")]
    [InlineData("16 AWGG", "AF0205", "AWGG")]
    [InlineData("0 mm2", "AF0209", "0 mm2")]
    [InlineData("thick", "AF0209", "thick")]
    public void A_fault_stands_under_the_wrong_part(string text, string code, string part)
    {
        Assert.False(WireGauge.TryParse(text, out _, out var error));
        Assert.Equal((code, part), (error!.Kind.Code, text.Substring(error.Start, error.Length)));
    }
}
