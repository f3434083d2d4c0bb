using Archive.Photos.Images;
using CsCheck;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>What is hidden is pure green in these pictures and nothing else is: any green in a print is a leak.</summary>
public sealed class RedactionTests : Studio
{
    private const int Black = 28; // JPEG rings beside an edge within its 8 px block: up to 16 of 255 were seen
    private const int NoGreen = 24; // of 255: a pixel next to bare green would show over 100

    public static TheoryData<int, int> Turned
    {
        get
        {
            var cases = new TheoryData<int, int>();
            for (var orientation = 1; orientation <= 8; orientation++)
            {
                cases.Add(orientation, 900); // no tiles
                cases.Add(orientation, 2603); // tiles at three levels, of odd sizes
            }

            return cases;
        }
    }

    [Theory, MemberData(nameof(Turned))]
    public void Nothing_of_a_box_is_left_in_any_file_of_any_orientation(int orientation, int width)
    {
        var boxes =
            new[] { new FractionBox(0.62, 0.08, 0.21, 0.13), new FractionBox(0, 0.9, 0.1, 0.1), new FractionBox(0.3, 0.5, 0.004, 0.2) };
        var name = Secret(width, width * 3 / 4, orientation, boxes, "jpg");
        var photo = Develop(name, new PhotoRecipe { Widths = [1300, 640, 240], Redactions = [.. boxes], Watermark = "Marrow Point" });

        Assert.Equal(width > 1024 ? (3, 2, 9) : (3, 3, 0), (photo.Derivatives.Length, photo.LightPrints.Length, photo.Tiles.Length));
        Assert.All(Picture.ReadAll(photo), picture => AssertHidden(picture.Pixels, boxes, picture.Name));
    }

    /// <summary>The test of the test: without the recipe's boxes the green is there.</summary>
    [Fact]
    public void What_is_not_hidden_is_seen()
    {
        var box = new FractionBox(0.62, 0.08, 0.21, 0.13);
        var photo = Develop(Secret(1000, 750, 6, [box], "jpg"));
        var print = Picture.Read(photo.Derivatives[0]);

        Assert.True(Green(print[(int)(0.7 * print.Width), (int)(0.15 * print.Height)]) > 150);
    }

    [Theory, InlineData("png"), InlineData("tif"), InlineData("webp")]
    public void Every_format_is_hidden_alike(string format)
    {
        var boxes = new[] { new FractionBox(0.25, 0.25, 0.5, 0.25) };
        var photo = Develop(Secret(900, 600, 1, boxes, format), new PhotoRecipe { Widths = [640, 100], Redactions = [.. boxes] });
        Assert.All(Picture.ReadAll(photo), picture => AssertHidden(picture.Pixels, boxes, picture.Name));
    }

    /// <summary>Four inks, 16 bit, grey and clear pictures are hidden in black too, not in whatever 0 means to them.</summary>
    [Fact]
    public void Every_kind_of_pixel_is_hidden_in_black()
    {
        using var grey = Picture.Flat(300, 200, 180.0);
        using var colour = Picture.Flat(300, 200, 180, 180, 180);
        using var clear = Picture.Flat(300, 200, 180, 180, 180, 0).Copy(interpretation: Enums.Interpretation.Srgb);
        using var inks = colour.IccTransform("cmyk", inputProfile: "srgb");
        using var wide = colour.Linear([257.0], [0.0]).Cast(Enums.BandFormat.Ushort).Copy(interpretation: Enums.Interpretation.Rgb16);
        using var lab = colour.Colourspace(Enums.Interpretation.Lab);
        using var light = colour.Colourspace(Enums.Interpretation.Scrgb);
        var box = new FractionBox(0.3, 0.3, 0.4, 0.4);
        string[] names =
        [
            Save(grey, "grey.png"),
                Save(clear, "clear.png"),
                Save(inks, "inks.jpg"),
                Save(inks, "inks.tif"),
                Save(wide, "wide.png"),
                Save(wide, "wide.tif"),
                Save(lab, "lab.tif"),
                Save(light, "light.tif"),
            ];

        Assert.All(names, name =>
        {
            var print = Picture.Read(Develop(name, new PhotoRecipe { Redactions = [box] }).Derivatives[0]);
            AssertHidden(print, [box]);
            Assert.True(print[10, 10].R > 150);
        });
    }

    /// <summary>Originals that differ only in what is hidden give the same prints, byte for byte: not a bit of it gets through.</summary>
    [Theory, InlineData(1, 500), InlineData(3, 1000), InlineData(6, 317), InlineData(7, 90)]
    public void What_is_hidden_makes_no_difference(int orientation, int width)
    {
        var boxes = new[] { new FractionBox(0.31, 0.17, 0.22, 0.29), new FractionBox(0.8, 0.7, 0.013, 0.011) };
        var recipe = new PhotoRecipe { Widths = [width, width / 2], Redactions = [.. boxes] };
        var one = Develop(Secret(2450, 600, orientation, boxes, "png"), recipe);
        var other = Develop(Secret(2450, 600, orientation, boxes, "png", ink: 200), recipe);

        Assert.NotEqual(one.Sha256, other.Sha256);
        Assert.Equal(one.All.Select(derivative => derivative.Sha256), other.All.Select(derivative => derivative.Sha256));
        Assert.Equal(one.Folder, other.Folder);
        Assert.NotEmpty(one.Tiles);
    }

    /// <summary>Any box, any size of picture, any orientation.</summary>
    [Fact]
    public void No_box_leaks()
    {
        var fraction = Gen.Double[0, 0.95];
        var side = Gen.Double[0.002, 0.6];
        Gen.Select(Gen.Select(fraction, fraction, side, side), Gen.Int[20, 700], Gen.Int[20, 700], Gen.Int[1, 8], Gen.Int[10, 300]).Sample(
            (place, width, height, orientation, print) =>
            {
                var box = new FractionBox(place.Item1, place.Item2, place.Item3, place.Item4);
                var photo = Develop(
                    Secret(width, height, orientation, [box], "jpg"), new PhotoRecipe { Widths = [print], Redactions = [box] });
                Assert.All(Picture.ReadAll(photo), picture => AssertHidden(picture.Pixels, [box], picture.Name));
            },
            iter: 150, threads: 1);
    }

    /// <summary>Any box in a picture that is cut into tiles: it may lie across the edges of many.</summary>
    [Fact]
    public void No_box_leaks_from_a_tile()
    {
        var fraction = Gen.Double[0, 0.95];
        var side = Gen.Double[0.002, 0.6];
        Gen.Select(Gen.Select(fraction, fraction, side, side), Gen.Int[2401, 2900], Gen.Int[400, 1100], Gen.Int[1, 8]).Sample(
            (place, width, height, orientation) =>
            {
                var box = new FractionBox(place.Item1, place.Item2, place.Item3, place.Item4);
                var photo = Develop(
                    Secret(width, height, orientation, [box], "jpg"), new PhotoRecipe { Widths = [300], Redactions = [box] });
                Assert.NotEmpty(photo.Tiles);
                Assert.All(Picture.ReadAll(photo), picture => AssertHidden(picture.Pixels, [box], picture.Name));
            },
            iter: 12, threads: 1);
    }

    [Fact]
    public void A_box_over_the_edge_hides_up_to_the_edge()
    {
        var box = new FractionBox(-0.5, 0.4, 3, 5);
        var print = Picture.Read(Develop(Secret(400, 300, 1, [box], "png"), new PhotoRecipe { Redactions = [box] }).Derivatives[0]);
        AssertHidden(print, [box]);
    }

    /// <summary>Thousands of boxes are drawn in one pass, not stacked until the machine gives up.</summary>
    [Fact]
    public void Thousands_of_boxes_are_hidden()
    {
        var boxes = Enumerable.Range(0, 5000).Select(i => new FractionBox(i % 100 / 100.0, i / 100 / 50.0, 0.005, 0.01)).ToArray();
        var print = Picture.Read(
            Develop(Secret(800, 600, 5, boxes, "png"), new PhotoRecipe { Widths = [400], Redactions = [.. boxes] }).Derivatives[0]);
        AssertHidden(print, boxes);
    }

    [Theory]
    [InlineData(double.NaN, 0, 1, 1), InlineData(
        0, double.PositiveInfinity, 1, 1), InlineData(0, 0, 0, 1), InlineData(0, 0, 1, -0.1), InlineData(0, 0, double.NaN, 1)]
    public void A_box_that_hides_nothing_is_refused(double left, double top, double width, double height) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new FractionBox(left, top, width, height));

    /// <summary>A picture whose boxes, given upright, are green; stored turned, as a camera would.</summary>
    private string Secret(int width, int height, int orientation, FractionBox[] boxes, string format, byte ink = 0)
    {
        var pixels = new byte[width * height * 3];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var at = 3 * ((y * width) + x);
                var shade = (byte)(120 + ((x / 7) + (y / 5)) % 3 * 40);
                (pixels[at], pixels[at + 1], pixels[at + 2]) = (shade, shade, shade);
            }
        }

        foreach (var box in boxes)
        {
            for (var y = (int)Math.Max(0, box.Top * height); y < Math.Min(height, Math.Ceiling((box.Top + box.Height) * height)); y++)
            {
                for (var x = (int)Math.Max(0, box.Left * width); x < Math.Min(width, Math.Ceiling((box.Left + box.Width) * width)); x++)
                {
                    var at = 3 * ((y * width) + x);
                    (pixels[at], pixels[at + 1], pixels[at + 2]) = (ink, 255, ink);
                }
            }
        }

        using var scope = new ImageScope();
        using var upright = Picture.OfPixels(pixels, width, height);

        // The turn that undoes an orientation is itself, but for the two quarter turns.
        var undo = orientation switch { 6 => 8, 8 => 6, _ => orientation };
        using var stored = OrientationTransform.From((Orientation)undo)
            .Upright(scope, upright)
            .Mutate(picture => picture.Set(GValue.GIntType, "orientation", orientation));
        return Save(stored, "secret." + format, format is "jpg" ? "[Q=92]" : "");
    }

    private static int Green((int R, int G, int B) pixel) => pixel.G - Math.Max(pixel.R, pixel.B);

    private static void AssertHidden(Pixels print, FractionBox[] boxes, string name = "print")
    {
        for (var y = 0; y < print.Height; y++)
        {
            for (var x = 0; x < print.Width; x++)
            {
                if (Green(print[x, y]) > NoGreen)
                    Assert.Fail($"{print[x, y]} leaks from {name} at {x}, {y} of {print.Width} x {print.Height}");
            }
        }

        foreach (var box in boxes)
        {
            var (left, top) = ((int)Math.Max(0, box.Left * print.Width), (int)Math.Max(0, box.Top * print.Height));
            var (right, bottom) = (
                Math.Min(print.Width, (box.Left + box.Width) * print.Width), Math.Min(print.Height, (box.Top + box.Height) * print.Height));

            // The credit line lies over the corner, and may lie over a box.
            for (var y = top; y < bottom && y < print.Height * 0.85; y++)
            {
                for (var x = left; x < right; x++)
                {
                    var (r, g, b) = print[x, y];
                    if (Math.Max(r, Math.Max(g, b)) > Black)
                        Assert.Fail($"{(r, g, b)} is not hidden in {name} at {x}, {y} of {print.Width} x {print.Height}");
                }
            }
        }
    }
}
