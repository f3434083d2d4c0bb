using Archive.Photos.Images;
using Archive.Photos.Processing;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>A dark bar in a light picture, turned by an angle, is cut out lying along the rows, with light around it.</summary>
public sealed class LineCutoutTests : Studio
{
    private const int Length = 300;
    private const int Thick = 24;

    [Theory]
    [InlineData(0)]
    [InlineData(12)]
    [InlineData(-30)]
    [InlineData(45)]
    [InlineData(90)]
    [InlineData(180)]
    [InlineData(-135)]
    public void A_line_at_any_angle_lies_along_the_rows(double degrees)
    {
        var name = Bar(degrees, out var box);
        using var cut = Image.NewFromBuffer(LineCutout.Jpeg(PathOf(name), box, degrees)!);
        using var grey = cut.Colourspace(Enums.Interpretation.Bw);
        Assert.InRange(cut.Width, Length, Length + (6 * Thick));
        Assert.InRange(cut.Height, Thick, 6 * Thick);
        var middle = cut.Width / 2;
        Assert.All(
            (int[])[middle - (Length / 3), middle, middle + (Length / 3)], x => Assert.InRange(grey.Getpoint(x, cut.Height / 2)[0], 0, 60));
        Assert.InRange(grey.Getpoint(middle, 1)[0], 200, 255);
        Assert.InRange(grey.Getpoint(middle, cut.Height - 2)[0], 200, 255);
    }

    /// <summary>The left end of what is written is at the left: the end of the bar with a notch.</summary>
    [Fact]
    public void Print_that_is_upside_down_is_turned_round()
    {
        using var ground = Picture.Flat(400, 200, 255, 255, 255);
        using var bar = Picture.Flat(200, 20, 0, 0, 0);
        using var end = Picture.Flat(40, 20, 255, 0, 0);
        using var withBar = ground.Insert(bar, 100, 90);
        using var picture = withBar.Insert(end, 260, 90);
        Save(picture, "turned.png");
        using var cut = Image.NewFromBuffer(LineCutout.Jpeg(PathOf("turned.png"), new FractionBox(0.25, 0.45, 0.5, 0.1), 180)!);
        Assert.InRange(cut.Getpoint((cut.Width / 2) - 80, cut.Height / 2)[0], 180, 255);
        Assert.InRange(cut.Getpoint((cut.Width / 2) + 80, cut.Height / 2)[0], 0, 60);
    }

    [Theory]
    [InlineData(-0.4, -0.4, 0.5, 0.5)]
    [InlineData(0.99, 0.99, 0.5, 0.5)]
    [InlineData(0, 0, 1, 1)]
    [InlineData(0.5, 0.5, 0.0001, 0.0001)]
    public void A_box_over_the_edge_or_of_no_size_is_cut_off_there(double left, double top, double width, double height)
    {
        var name = Bar(12, out _);
        foreach (var degrees in (double[])[0, 30, 45])
            Assert.NotEmpty(LineCutout.Jpeg(PathOf(name), new FractionBox(left, top, width, height), degrees)!);
    }

    [Fact]
    public void What_is_no_picture_has_no_cutout()
    {
        Write("empty.jpg", []);
        Write("words.jpg", "not a picture, but long enough to be looked at"u8);
        foreach (var name in (string[])["empty.jpg", "words.jpg", "missing.jpg"])
            Assert.Null(LineCutout.Jpeg(PathOf(name), new FractionBox(0.1, 0.1, 0.5, 0.5), 0));
    }

    private string Bar(double degrees, out FractionBox box)
    {
        using var bar = Picture.Flat(Length, Thick, 0, 0, 0);
        using var turned = bar.Similarity(angle: degrees, background: [255, 255, 255]);
        using var ground = Picture.Flat(800, 600, 255, 255, 255);
        using var picture = ground.Insert(turned, 200, 120);
        box = new FractionBox(200 / 800.0, 120 / 600.0, turned.Width / 800.0, turned.Height / 600.0);
        return Save(picture, "bar.png");
    }
}
