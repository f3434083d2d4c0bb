using System.Buffers.Binary;
using Archive.Diagnostics;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Photos.Rights;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>
/// Pictures within the limits that are taken, but beyond what an encoder, a reader or a resize likes: each goes through everything that is
/// ever done to a photo.
/// </summary>
public sealed class ExtremePictureTests : Studio
{
    // A credit line, a hidden part at the edge and a region: what touches every print, level and tile.
    private static readonly PhotoRecipe Full = new()
    {
        Watermark = "Marrow Point Radio Trust, CC BY 4.0",
        Redactions = [new FractionBox(0, 0.9, 1, 0.1)],
        Rights = new PhotoRights("A picture", "H. Kessock", "Marrow Point Radio Trust", "CC-BY-4.0"),
    };

    public static TheoryData<int, int, string> Shapes
    {
        get
        {
            var shapes = new TheoryData<int, int, string>();
            foreach (var (width, height) in new[]
            {
                (1, 1), (2, 3), (1, 65_500), (65_500, 1), (7, 65_500), (300, 16_384), (1300, 17_000), (17_000, 40), (480, 16_383),
                (480, 16_384)
            })
            {
                foreach (var format in new[] { "jpg", "png", "tif", "webp" })
                {
                    if (format != "webp" || Math.Max(width, height) <= 16_383) shapes.Add(width, height, format);
                }
            }

            return shapes;
        }
    }

    [Theory, MemberData(nameof(Shapes))]
    public void A_picture_of_any_shape_goes_through_everything(int width, int height, string format)
    {
        using var image = Picture.Flat(width, height, 90, 120, 150);
        var name = Save(image, "a." + format);
        var photo = Develop(name, Full);

        Assert.Equal((width, height), (photo.Reading.Width, photo.Reading.Height));
        Assert.All(photo.All, derivative =>
        {
            using var read = Image.NewFromBuffer(derivative.Read());
            Assert.Equal((derivative.Width, derivative.Height), (read.Width, read.Height));
        });
        var processor = new PhotoProcessor(Path.Combine(CacheFolder, "other"));
        Assert.IsType<MeasuredPhoto>(processor.MeasureAll([Source(name)], null, TestContext.Current.CancellationToken)[0]);
        Assert.IsType<ScannedPhoto>(processor.ScanAll([Source(name)], null, TestContext.Current.CancellationToken)[0]);
    }

    /// <summary>
    /// WebP ends at 16,383 px a side (RFC 9649, 2.6: 14 bits). A browser that takes WebP takes the best of what is offered as WebP: all
    /// widths or none.
    /// </summary>
    [Theory]
    [InlineData(300, 16_384, 0), InlineData(300, 16_383, 1), InlineData(1300, 17_000, 0), InlineData(2600, 17_000, 2)]
    public void WebP_is_left_out_where_a_print_is_too_tall_for_it(int width, int height, int lightPrints)
    {
        using var image = Picture.Flat(width, height, 90, 120, 150);
        Assert.Equal(lightPrints, Develop(Save(image, "a.png")).LightPrints.Length);
    }

    [Theory, InlineData(
        "film.tif", "", 3), InlineData("film.webp", "[lossless]", 3), InlineData("still.tif", "", 1), InlineData("still.webp", "", 1)]
    public void A_file_of_several_pictures_is_known_as_one(string name, string options, int pictures)
    {
        using var frame = Picture.Scene(60, 40);
        using var strip = Image.Arrayjoin(
            [.. Enumerable.Range(0, pictures).Select(i => frame.Linear([1.0], [i * 3.0]).Cast(Enums.BandFormat.Uchar))], across: 1);
        using var film = strip.Mutate(picture => picture.Set(GValue.GIntType, "page-height", 40));
        var reading = Develop(Save(film, name, options)).Reading;

        Assert.Equal((60, 40, pictures), (reading.Width, reading.Height, reading.Pictures));
    }

    [Fact]
    public void An_animated_PNG_is_known_as_one_and_its_still_picture_is_shown()
    {
        using var red = Picture.Flat(60, 40, 220, 20, 20);
        var photo = Develop(Write("film.png", Animated(red.WriteToBuffer(".png"), frames: 5)));

        Assert.Equal(5, photo.Reading.Pictures);
        Assert.True(Picture.Read(photo.Derivatives[0])[30, 20].R > 200);
    }

    /// <summary>A TIFF's reduced pictures and masks (NewSubfileType, bits 0 and 2) are no pictures of their own.</summary>
    [Fact]
    public void A_thumbnail_in_a_TIFF_is_no_second_picture()
    {
        using var image = Picture.Scene(600, 400);
        var name = Save(image, "pyramid.tif", "[tile,pyramid,tile-width=128,tile-height=128]");
        Assert.True(Image.NewFromFile(PathOf(name)).Get("n-pages") is int and > 1);

        Assert.Equal(1, Develop(name).Reading.Pictures);
    }

    /// <summary>The last net: whatever a library throws while a photo is worked on is reported as AF0714 at its line.</summary>
    [Fact]
    public void What_a_library_cannot_do_is_told_at_the_record_s_line()
    {
        var record = new SourceText("photos/row2.yaml", "- id: P-1\n  file: a.jpg\n");
#pragma warning disable MA0015 // A library need not name the argument.
        Assert.All(new Exception[]
        {
            new VipsException("any"),
            new ArgumentException("any"),
            new FormatException(),
            new InvalidOperationException(),
            new OverflowException()
        }, thrown =>
#pragma warning restore MA0015
        {
            var outcome = PhotoProcessor.Guarded(new PhotoSource("/nowhere/a.jpg", "photos/a.jpg"), () => throw thrown).Photo;
            var told = Assert.IsType<UnusablePhoto>(outcome).At(new SourceSpan(record, 18, 5));
            Assert.Equal(("AF0714", Severity.Error), (told.Code, told.Severity));
        });
        Assert.All(new Exception[]
        {
            new IOException(),
            new UnauthorizedAccessException(),
            new OperationCanceledException(),
            new DllNotFoundException()
        }, thrown =>
            Assert.Throws(
                thrown.GetType(), () => PhotoProcessor.Guarded(new PhotoSource("/nowhere/a.jpg", "photos/a.jpg"), () => throw thrown)));
    }

    // Animation control and a frame that no decoder of the still picture looks at (PNG, third edition, 11.3.5), before the picture's own
    // data.
    private static byte[] Animated(byte[] png, int frames)
    {
        var at = png.AsSpan().IndexOf("IDAT"u8) - 4;
        var control = new byte[8];
        BinaryPrimitives.WriteInt32BigEndian(control, frames);
        return [.. png[..at], .. PngChunk.Write("acTL"u8, control), .. png[at..]];
    }
}
