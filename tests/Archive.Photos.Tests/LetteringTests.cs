using Archive.Photos.Images;
using Archive.Photos.Processing;
using Xunit;

namespace Archive.Photos.Tests;

public sealed class LetteringTests : Studio
{
    private const string Line = "Marrow Point Radio Trust, CC BY 4.0";

    /// <summary>WCAG 2.2, 1.4.3: text has a contrast of at least 4.5 to its ground, whatever the picture; measured in the print, as JPEG
    /// left it.</summary>
    [Theory, InlineData(255), InlineData(128), InlineData(0)]
    public void The_line_is_readable_on_any_ground(int shade)
    {
        using var image = Picture.Flat(2600, 1800, shade, shade, shade);
        var photo = Develop(Save(image, "a.png"), new PhotoRecipe { Watermark = Line });

        Assert.Equal(3, photo.Derivatives.Length);
        Assert.All(photo.Derivatives, derivative =>
        {
            var pixels = Picture.Read(derivative);
            var letters = Math.Max(13, derivative.Width / 90);
            var ground = Luminance(pixels[derivative.Width - 2, derivative.Height - 2].R);
            var brightest = Corner(pixels, 10 * letters, letters).Max();
            Assert.True(
                (Luminance(brightest) + 0.05) / (ground + 0.05) > 4.5,
                $"{brightest} on {pixels[derivative.Width - 2, derivative.Height - 2]} at {derivative.Width} px");
        });
    }

    /// <summary>At 480 px the letters are 13 px: capitals of this font are 0.714 of that.</summary>
    [Fact]
    public void The_letters_are_tall_enough()
    {
        using var image = Picture.Flat(480, 320, 0, 0, 0);
        var pixels = Picture.Read(Develop(Save(image, "a.png"), new PhotoRecipe { Watermark = "HHHH" }).Derivatives[0]);
        var inked = Enumerable.Range(0, 320).Where(y => Enumerable.Range(240, 240).Any(x => pixels[x, y].R > 150)).ToArray();

        Assert.InRange(inked[^1] - inked[0] + 1, 9, 11);
    }

    [Fact]
    public void The_line_is_modest_and_in_the_corner()
    {
        using var image = Picture.Scene(3000, 2000);
        var name = Save(image, "a.png");
        var (bare, marked) = (Develop(name), Develop(name, new PhotoRecipe { Watermark = Line }));

        foreach (var (without, with) in bare.Derivatives.Zip(marked.Derivatives))
        {
            var (a, b) = (Picture.Read(without), Picture.Read(with));
            var changed = from y in Enumerable.Range(0, a.Height)
                          from x in Enumerable.Range(0, a.Width)
                          where Math.Abs(a[x, y].R - b[x, y].R) > 20
                          select (x, y);
            var (left, top) = (changed.Min(at => at.x), changed.Min(at => at.y));
            Assert.True(left > a.Width * 0.4 && top > a.Height * 0.9, $"{left}, {top} of {a.Width} x {a.Height}");
            Assert.True(changed.Max(at => at.x) > a.Width - 4 && changed.Max(at => at.y) > a.Height - 4);
        }
    }

    /// <summary>The line goes to the first corner that is free; where none is, to the one where least is covered.</summary>
    [Theory]
    [InlineData("", "right bottom"), InlineData("right bottom", "left bottom"), InlineData("right bottom, left bottom", "right top")]
    [InlineData("right bottom, left bottom, right top", "left top"), InlineData("right bottom, left bottom, right top, whole", "left top")]
    public void The_line_leaves_regions_clear(string regions, string corner)
    {
        var boxes = regions.Split(", ", StringSplitOptions.RemoveEmptyEntries).Select(region => region switch
        {
            "right bottom" => new FractionBox(0.9, 0.9, 0.05, 0.08),
            "left bottom" => new FractionBox(0.02, 0.95, 0.05, 0.04),
            "right top" => new FractionBox(0.8, 0.01, 0.05, 0.02),
            _ => new FractionBox(0, 0, 1, 1),
        });
        using var image = Picture.Flat(1400, 900, 200, 200, 200);
        var photo = Develop(Save(image, "a.png"), new PhotoRecipe { Watermark = Line, Regions = [.. boxes] });

        Assert.All(photo.Derivatives, derivative =>
        {
            var pixels = Picture.Read(derivative);
            var (x, y) = (
                corner.StartsWith("left", StringComparison.Ordinal) ? 3 : pixels.Width - 4,
                corner.EndsWith("top", StringComparison.Ordinal) ? 3 : pixels.Height - 4);
            var dark = new[]
            {
                (3, 3),
                (pixels.Width - 4, 3),
                (3, pixels.Height - 4),
                (pixels.Width - 4, pixels.Height - 4)
            }.Where(at => pixels[at.Item1, at.Item2].R < 150);
            Assert.Equal((x, y), Assert.Single(dark));
        });
    }

    [Theory, InlineData("<b>Bold</b> & <span foreground='black'>gone</span>"), InlineData("&lt;"), InlineData("<"), InlineData("\"'>")]
    public void A_line_is_never_markup(string line)
    {
        using var print = Picture.Flat(900, 300, 128, 128, 128);
        using var pixels = PixelBuffer.From(print);
        CreditLine.Stamp(pixels, line, []);
        Assert.NotEqual(Convert.ToHexString(print.WriteToMemory<byte>()), Convert.ToHexString(pixels.View.WriteToMemory<byte>()));
        Assert.NotEqual(
            Width(line), Width(line.Replace("<", "", StringComparison.Ordinal).Replace("&", "", StringComparison.Ordinal) + "x"));
    }

    /// <summary>A line that does not fit in one row is broken; a tiny picture carries none.</summary>
    [Fact]
    public void A_long_line_is_broken_and_a_tiny_picture_left_bare()
    {
        using var image = Picture.Flat(480, 320, 90, 90, 90);
        var longLine = new string('M', 30) + " " + new string('W', 60) + " " + new string('i', 28);
        Assert.Null(CreditText.Unfit(longLine));
        var pixels = Picture.Read(Develop(Save(image, "a.png"), new PhotoRecipe { Watermark = longLine }).Derivatives[0]);
        Assert.Contains(Corner(pixels, 400, 80), shade => shade > 200);
        Assert.True(pixels[240, 100].R < 100);

        using var tiny = Picture.Flat(40, 20, 90, 90, 90);
        Assert.All(Picture.Read(Develop(Save(tiny, "tiny.png"), new PhotoRecipe { Watermark = Line }).Derivatives[0]).Bytes, shade =>
            Assert.InRange(shade, 85, 95));
    }

    [Theory, InlineData("   "), InlineData(""), InlineData(null), InlineData("\u0001\n")]
    public void A_blank_line_is_none(string? line)
    {
        using var image = Picture.Flat(480, 320, 90, 90, 90);
        Assert.All(Picture.Read(Develop(Save(image, "a.png"), new PhotoRecipe { Watermark = line }).Derivatives[0]).Bytes, shade =>
            Assert.InRange(shade, 85, 95));
    }

    [Theory]
    [InlineData("Marrow Point Radio Trust, CC BY 4.0"), InlineData("© Zażółć gęślą jaźń — Ærøskøbing, Ωμέγα, Ёлка, Việt Nam")]
    public void Letters_the_font_has_are_fit(string line) => Assert.Null(CreditText.Unfit(line));

    [Theory]
    [InlineData("記録", "U+8A18"), InlineData("ok \U0001F600", "U+1F600"), InlineData("\u0634", "U+0634")]
    public void Letters_the_font_lacks_are_told(string line, string told) =>
        Assert.Contains(told, CreditText.Unfit(line), StringComparison.Ordinal);

    [Fact]
    public void A_line_too_long_to_read_is_told() =>
        Assert.Contains("121 characters", CreditText.Unfit(new string('x', 121)), StringComparison.Ordinal);

    private static int Width(string line)
    {
        using var print = Picture.Flat(2000, 300, 128, 128, 128);
        using var plate = PixelBuffer.From(print);
        CreditLine.Stamp(plate, line, []);
        var pixels = Pixels.Of(plate.View);
        return Enumerable.Range(0, 2000).Count(x => pixels[x, 297].R < 128);
    }

    private static IEnumerable<int> Corner(Pixels pixels, int width, int height) =>
        from y in Enumerable.Range(pixels.Height - (height * 3 / 2), height * 3 / 2)
        from x in Enumerable.Range(pixels.Width - width, width)
        select pixels[x, y].R;

    private static double Luminance(int shade)
    {
        var v = shade / 255.0;
        return v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);
    }
}
