using Archive.Photos.Images;
using Archive.Photos.Processing;
using Xunit;

namespace Archive.Photos.Tests;

public sealed class LetteringTests : Studio
{
    private const string Line = "Marrow Point Radio Trust, CC BY 4.0";

    /// <summary>
    /// A stamp that a camera burnt into a corner, a tag at an edge: the line covers none of it. The copy to pass on is the print, pixel by
    /// pixel as nearly as JPEG writes it, with a strip below; everything else is as it would be without a line, byte for byte.
    /// </summary>
    [Theory, InlineData(3000, 2000), InlineData(700, 1100), InlineData(1280, 960), InlineData(90, 400)]
    public void The_line_covers_nothing_of_the_picture(int width, int height)
    {
        using var image = Picture.Scene(width, height);
        var name = Save(image, "a.png");
        var (bare, marked) = (Develop(name), Develop(name, new PhotoRecipe { Watermark = Line }));
        Assert.Null(bare.Credited);
        Assert.Equal(
            bare.All.Select(picture => (picture.Path, picture.Sha256)),
            marked.All.Where(picture => picture != marked.Credited).Select(picture => (picture.Path, picture.Sha256)));

        var copy = marked.Credited!;
        var print = marked.Derivatives.First(picture => picture.Width <= 1280);
        Assert.Equal(print.Width, copy.Width);
        Assert.InRange(copy.Height - print.Height, 20, 13 * 2 * Line.Length);
        var (a, b) = (Picture.Read(print), Picture.Read(copy));
        var worst = 0;

        // JPEG's last rows share their blocks of 16 with the strip.
        for (var y = 0; y < a.Height - 16; y++)
        {
            for (var x = 0; x < a.Width; x++) worst = Math.Max(worst, Math.Abs(a[x, y].R - b[x, y].R));
        }

        Assert.Equal(0, worst);
    }

    /// <summary>WCAG 2.2, 1.4.3: text has a contrast of at least 4.5 to its ground, whatever the picture; measured as JPEG left
    /// it.</summary>
    [Theory, InlineData(255), InlineData(128), InlineData(0)]
    public void The_line_is_readable_beneath_any_picture(int shade)
    {
        using var image = Picture.Flat(2600, 1800, shade, shade, shade);
        var photo = Develop(Save(image, "a.png"), new PhotoRecipe { Watermark = Line });
        var pixels = Picture.Read(photo.Credited!);
        var letters = Math.Max(13, pixels.Width / 90);
        var ground = Luminance(pixels[pixels.Width - 2, pixels.Height - 2].R);
        var brightest = Corner(pixels, 10 * letters, letters).Max();
        Assert.True((Luminance(brightest) + 0.05) / (ground + 0.05) > 4.5, $"{brightest} on {pixels[pixels.Width - 2, pixels.Height - 2]}");
    }

    /// <summary>At 480 px the letters are 13 px: capitals of this font are 0.714 of that.</summary>
    [Fact]
    public void The_letters_are_tall_enough()
    {
        using var image = Picture.Flat(480, 320, 0, 0, 0);
        var pixels = Picture.Read(Develop(Save(image, "a.png"), new PhotoRecipe { Watermark = "HHHH" }).Credited!);
        var inked = Enumerable.Range(0, pixels.Height).Where(y => Enumerable.Range(240, 240).Any(x => pixels[x, y].R > 150)).ToArray();

        Assert.InRange(inked[^1] - inked[0] + 1, 9, 11);
        Assert.True(inked[0] > 320);
    }

    [Theory, InlineData("<b>Bold</b> & <span foreground='black'>gone</span>"), InlineData("&lt;"), InlineData("<"), InlineData("\"'>")]
    public void A_line_is_never_markup(string line)
    {
        Assert.NotEqual(
            Ink(line), Ink(line.Replace("<", "", StringComparison.Ordinal).Replace("&", "", StringComparison.Ordinal) + "x"));
    }

    /// <summary>A line that does not fit in one row is broken; a picture narrower than a letter carries none.</summary>
    [Fact]
    public void A_long_line_is_broken_and_a_tiny_picture_left_bare()
    {
        using var image = Picture.Flat(480, 320, 90, 90, 90);
        var longLine = new string('M', 30) + " " + new string('W', 60) + " " + new string('i', 28);
        Assert.Null(CreditText.Unfit(longLine));
        var pixels = Picture.Read(Develop(Save(image, "a.png"), new PhotoRecipe { Watermark = longLine }).Credited!);
        Assert.InRange(pixels.Height, 320 + (3 * 13), 320 + (5 * 20));
        Assert.Contains(Corner(pixels, 400, 40), shade => shade > 200);

        using var tiny = Picture.Flat(20, 40, 90, 90, 90);
        Assert.Null(Develop(Save(tiny, "tiny.png"), new PhotoRecipe { Watermark = Line }).Credited);
    }

    [Theory, InlineData("   "), InlineData(""), InlineData(null), InlineData("\u0001\n")]
    public void A_blank_line_is_none(string? line)
    {
        using var image = Picture.Flat(480, 320, 90, 90, 90);
        Assert.Null(Develop(Save(image, "a.png"), new PhotoRecipe { Watermark = line }).Credited);
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

    // How much light the letters give: two texts that look different differ in it.
    private static int Ink(string line)
    {
        using var print = Picture.Flat(2000, 300, 128, 128, 128);
        using var copy = CreditLine.Beneath(print, line);
        var pixels = Pixels.Of(copy!);
        return Enumerable.Range(0, 2000).Sum(x => Enumerable.Range(300, pixels.Height - 300).Sum(y => pixels[x, y].R));
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
