using System.Text.RegularExpressions;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using CsCheck;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>
/// The layout of the IIIF Image API 3.0 at level 0 (sections 4 and 5 of its text, and the arithmetic of its implementation notes).
/// </summary>
public sealed partial class PyramidTests : Studio
{
    /// <summary>Worked by hand from the formula: 6000 x 4000 in tiles of 512.</summary>
    [Fact]
    public void The_tiles_are_those_that_the_arithmetic_gives()
    {
        var pyramid = new TilePyramid(6000, 4000, 512);
        Assert.Equal([1, 2, 4, 8, 16], pyramid.ScaleFactors);
        Assert.Equal([96, 24, 6, 2, 1], pyramid.ScaleFactors.Select(scale => pyramid.TilesAt(scale).Count()));
        Assert.Equal("0,0,512,512/512,512/0/default.jpg", pyramid.TilesAt(1).First().Path);
        Assert.Equal("5632,3584,368,416/368,416/0/default.jpg", pyramid.TilesAt(1).Last().Path);
        Assert.Equal("4096,2048,1904,1952/476,488/0/default.jpg", pyramid.TilesAt(4).Last().Path);
        Assert.Equal("full/375,250/0/default.jpg", pyramid.TilesAt(16).Single().Path);
    }

    [Theory, InlineData(6000, 4000, 33), InlineData(8660, 5773, 78)]
    [InlineData(2401, 1500, 9), InlineData(1500, 2401, 9), InlineData(2401, 1, 6), InlineData(2400, 2400, 0), InlineData(1, 1, 0)]
    public void So_many_tiles_has_a_picture(int width, int height, int tiles)
    {
        var pyramid = new TilePyramid(width, height);
        Assert.Equal(tiles, pyramid.ScaleFactors.Sum(scale => pyramid.TilesAt(scale).Count()));
    }

    /// <summary>Of any picture: the tiles of a level cover it once, and what a tile is called says where it lies.</summary>
    [Fact]
    public void Tiles_cover_a_picture_once() =>
        Gen.Select(Gen.Int[1, 9000], Gen.Int[1, 9000], Gen.Int[1, 10]).Sample((width, height, size) =>
        {
            var pyramid = new TilePyramid(width, height, size * 100);
            foreach (var scale in pyramid.ScaleFactors)
            {
                long covered = 0;
                foreach (var tile in pyramid.TilesAt(scale))
                {
                    Assert.InRange(Math.Max(tile.Box.Width, tile.Box.Height), 1, size * 100);
                    Assert.Equal((tile.Box.Left % (size * 100), tile.Box.Top % (size * 100)), (0, 0));
                    covered += (long)tile.Box.Width * tile.Box.Height;
                }

                Assert.Equal((long)TilePyramid.Reduced(width, scale) * TilePyramid.Reduced(height, scale), covered);
            }
        });

    [Fact]
    public void Every_file_is_what_its_name_says()
    {
        using var image = Picture.Scene(2500, 1700);
        var photo = Develop(Save(image, "a.jpg"), new PhotoRecipe { Watermark = "Marrow Point" });
        Assert.Equal(photo.All.Length, photo.All.Select(derivative => derivative.Path).Distinct().Count());
        Assert.Contains(photo.All, derivative => derivative.Path == "full/max/0/default.jpg");
        Assert.All(photo.All, derivative =>
        {
            var pixels = Picture.Read(derivative);
            Assert.Equal((derivative.Width, derivative.Height), (pixels.Width, pixels.Height));
            if (Size().Match(derivative.Path) is { Success: true } size)
                Assert.Equal($"{pixels.Width},{pixels.Height}", size.Groups[1].Value);
            Assert.Equal(derivative.Path.EndsWith(".webp", StringComparison.Ordinal), derivative.Read().AsSpan(8).StartsWith("WEBP"u8));
        });
    }

    /// <summary>
    /// A colour of its own for each of 100 squares, as the validator of the IIIF has them: each level must show each where it lies.
    /// </summary>
    [Theory, InlineData(1500), InlineData(2100), InlineData(4400)]
    public void Each_square_is_where_it_lies_at_every_level(int side)
    {
        var pixels = new byte[side * side * 3];
        for (var i = 0; i < side * side; i++)
        {
            var (x, y) = (i % side * 10 / side, i / side * 10 / side);
            (pixels[3 * i], pixels[(3 * i) + 1], pixels[(3 * i) + 2]) = ((byte)(x * 25), (byte)(y * 25), (byte)((x + y) * 12));
        }

        using var image = Picture.OfPixels(pixels, side, side);
        var photo = Develop(Save(image, "squares.png"));
        foreach (var (name, level) in Picture.ReadAll(photo))
        {
            for (var square = 0; square < 100; square++)
            {
                var (x, y) = (square % 10, square / 10);
                var (r, g, b) = level[(int)((x + 0.5) * level.Width / 10), (int)((y + 0.5) * level.Height / 10)];
                Assert.True(
                    Math.Abs(r - (x * 25)) < 12 && Math.Abs(g - (y * 25)) < 12 && Math.Abs(b - ((x + y) * 12)) < 16,
                    $"{(r, g, b)} in square {x}, {y} of {name}");
            }
        }
    }

    [GeneratedRegex("/([0-9]+,[0-9]+)/0/default")]
    private static partial Regex Size();
}
