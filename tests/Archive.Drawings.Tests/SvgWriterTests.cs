using System.Globalization;
using System.Text;
using Archive.Diagnostics.Rendering;
using Archive.Drawings.Svg;
using Archive.Markup.Text;
using CsCheck;
using Xunit;

namespace Archive.Drawings.Tests;

public class SvgWriterTests
{
    [Fact]
    public void No_text_becomes_markup() => Gen.String.Sample(text =>
    {
        var svg = new SvgWriter(new(10, 10), "plan", text, text, hasLinks: true);
        using (svg.Link(text, text, text)) svg.Text(new PlacedText(text, new(0, 0), 10));
        var drawn = new Drawn(svg.Finish());

        Assert.Equal(Plain(text), drawn.Name);
        Assert.Equal(Plain(text), drawn.All("text").Single().Value);
        Assert.Equal(Plain(text), drawn.Links.Single());
        Assert.All(
            drawn.All("svg").Single().Descendants(), one => Assert.Contains(one.Name.LocalName, (string[])["title", "desc", "a", "text"]));
    });

    [Theory]
    [InlineData("</text><script>alert(1)</script>")]
    [InlineData("\" onload=\"alert(1)")]
    [InlineData("]]>&lt;&#0;<!--")]
    [InlineData("a\u0000b\u0008c\uD800d\uFFFFe")]
    public void Hostile_names_stay_names(string text)
    {
        var svg = new SvgWriter(new(10, 10), "plan", text, text, hasLinks: false);
        svg.Text(new PlacedText(text, new(0, 0), 10), text);
        var html = svg.Finish().Html;

        Assert.Equal(Plain(text), new Drawn(new HtmlFragment(html)).All("text").Single().Value);
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Numbers_are_hundredths_of_a_unit() => Gen.Double[-1e7, 1e7].Sample(value =>
        Assert.Equal(value, double.Parse(new StringBuilder().Coordinate(value).ToString(), CultureInfo.InvariantCulture), 0.00501));

    [Theory]
    [InlineData(0, "0")]
    [InlineData(-0.001, "0")]
    [InlineData(1.5, "1.5")]
    [InlineData(-1.05, "-1.05")]
    [InlineData(12.007, "12.01")]
    [InlineData(double.NaN, "0")]
    [InlineData(double.PositiveInfinity, "0")]
    public void Numbers_are_written_short(double value, string text) =>
        Assert.Equal(text, new StringBuilder().Coordinate(value).ToString());

    // What is to be read: one line, in the visible form.
    private static string Plain(string text) => VisibleText.Text(text).Replace('\t', ' ').Replace('\n', ' ').Replace('\r', ' ');
}
