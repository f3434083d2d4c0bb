using Archive.Records.Terms;
using Xunit;

namespace Archive.Records.Tests.Terms;

public sealed class SizeTests
{
    [Theory]
    [InlineData("660 x 610 x 2134 mm")]
    [InlineData("660x610x2134mm")]
    [InlineData("660 × 610 × 2134 mm")]
    [InlineData("66 cm x 610 mm x 2.134 m")]
    public void A_frame_has_three_sides(string text)
    {
        var size = SizeParser.ReadFrame(text).Value!.Value;
        Assert.Equal(
            (660.0, 610.0, 2134.0),
            (Math.Round(size.Width.Millimeters, 9), Math.Round(size.Depth.Millimeters, 9), Math.Round(size.Height.Millimeters, 9)));
    }

    [Fact]
    public void Each_side_may_have_its_unit()
    {
        var size = SizeParser.ReadFrame("660 mm x 2 ft x 7 ft 2 in").Value!.Value;
        Assert.Equal(
            (660, 609.6, 2184.4),
            (Math.Round(size.Width.Millimeters, 9), Math.Round(size.Depth.Millimeters, 9), Math.Round(size.Height.Millimeters, 9)));
    }

    [Fact]
    public void A_tray_has_two_sides()
    {
        var size = SizeParser.ReadTray("450 x 100 mm").Value!.Value;
        Assert.Equal((450.0, 100.0), (Math.Round(size.Width.Millimeters, 9), Math.Round(size.Depth.Millimeters, 9)));
    }

    [Theory]
    [InlineData("660 x 610 mm", "AF0216", "660 x 610 mm")]
    [InlineData("660 x 610 x 2134", "AF0204", "660 x 610 x 2134")]
    [InlineData("660 x 610 x 2134 kg", "AF0206", "kg")]
    [InlineData("660 x 610 x 2134 mn", "AF0205", "mn")]
    [InlineData("660 x wide x 2134 mm", "AF0209", "wide")]
    [InlineData("660 x  x 2134 mm", "AF0216", "660 x  x 2134 mm")]
    [InlineData("660 x 0 x 2134 mm", "AF0216", "0")]
    [InlineData("660 mm x 610 x 2134 mm", "AF0204", "610")]
    [InlineData("2 x 2 x 7 ft 2 in", "AF0204", "2")]
    [InlineData("", "AF0216", "")]
    public void A_fault_stands_under_the_wrong_part(string text, string code, string part)
    {
        var error = SizeParser.ReadFrame(text).Fault!;
        Assert.Equal((code, part), (error.Kind.Code, text.Substring(error.Start, error.Length)));
    }
}
