using Archive.Photos.Images;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

public sealed class SizeTests : Studio
{
    [Theory]
    [InlineData(6000, 4000, "2400x1600 1280x853 480x320")]
    [InlineData(4800, 3200, "2400x1600 1280x853 480x320")]
    [InlineData(4799, 3199, "2400x1600 1280x853 480x320")]
    [InlineData(2400, 1601, "2400x1601 1280x854 480x320")]
    [InlineData(1500, 1000, "1500x1000 1280x853 480x320")]
    [InlineData(1280, 1000, "1280x1000 480x375")]
    [InlineData(479, 900, "479x900")]
    [InlineData(5000, 3, "2400x1 1280x1 480x1")]
    [InlineData(3, 2, "3x2")]
    [InlineData(1, 1, "1x1")]
    public void Prints_are_of_the_recipe_s_widths_and_never_larger_than_the_original(int width, int height, string prints)
    {
        using var image = Picture.Flat(width, height, 90, 120, 150);
        var photo = Develop(Save(image, "a.jpg"));

        Assert.Equal(prints, string.Join(' ', photo.Derivatives.Select(derivative => $"{derivative.Width}x{derivative.Height}")));
        Assert.All(photo.Derivatives, derivative =>
        {
            var pixels = Picture.Read(derivative);
            Assert.Equal((derivative.Width, derivative.Height), (pixels.Width, pixels.Height));
            Assert.Equal(derivative.Read().Length, derivative.Bytes);
        });
    }

    /// <summary>The width that counts is the one shown.</summary>
    [Fact]
    public void A_turned_photo_is_measured_upright()
    {
        using var image = Picture.Flat(3000, 5000, 90, 120, 150);
        using var turned = image.Mutate(picture => picture.Set(GValue.GIntType, "orientation", 6));
        var photo = Develop(Save(turned, "a.jpg"));

        Assert.Equal((5000, 3000), (photo.Reading.Width, photo.Reading.Height));
        Assert.Equal((2400, 1440), (photo.Derivatives[0].Width, photo.Derivatives[0].Height));
    }

    [Fact]
    public void Widths_are_kept_widest_first_and_once() =>
        Assert.Equal([900, 300], new PhotoRecipe { Widths = [300, 900, 300] }.Widths);

    [Fact]
    public void A_recipe_without_a_width_is_refused()
    {
        Assert.Throws<ArgumentException>(() => new PhotoRecipe { Widths = [] });
        Assert.Throws<ArgumentException>(() => new PhotoRecipe { Widths = [0] });
        Assert.Throws<ArgumentException>(() => new PhotoRecipe { Widths = [20_000] });
    }

    /// <summary>A fine pattern of half black and half white must come out as its mean, not as waves: the resampling filters before it thins
    /// out.</summary>
    [Fact]
    public void Fine_detail_does_not_alias()
    {
        const int size = 2000;
        var pixels = new byte[size * size * 3];
        for (var i = 0; i < size * size; i++) Array.Fill(pixels, (byte)(((i % size) + (i / size)) % 2 * 255), 3 * i, 3);
        using var image = Picture.OfPixels(pixels, size, size);
        var print = Picture.Read(Develop(Save(image, "a.png"), new PhotoRecipe { Widths = [480] }).Derivatives[0]);

        Assert.All(print.Bytes, sample => Assert.InRange(sample, 118, 138));
    }
}
