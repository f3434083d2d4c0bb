using System.Buffers.Binary;
using System.Diagnostics;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Pages;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>Whatever lies where a photo should: an error with a reason, never an exception.</summary>
public sealed class HostileFileTests : Studio
{
    [Theory]
    [InlineData("hello, this is a text", "is text, not a JPEG")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'><image href='file:///etc/passwd'/></svg>", "is an SVG drawing")]
    [InlineData("<?xml version='1.0'?>\n<!-- long -->\n<svg xmlns='http://www.w3.org/2000/svg'/>", "is an SVG drawing")]
    [InlineData("\uFEFF  <html><script>alert(1)</script></html>", "is XML or HTML text")]
    [InlineData("%PDF-1.7 ...", "is a PDF document")]
    [InlineData("GIF89a........", "is a GIF picture")]
    [InlineData("BM..........", "is a BMP picture")]
    [InlineData("\0\0\0\u0018ftypheic\0\0\0\0", "has a damaged HEIC or AVIF header")]
    [InlineData("\0\0\0\u0018ftypavif\0\0\0\0", "has a damaged HEIC or AVIF header")]
    [InlineData("\0\0\0\u0018ftypcrx \0\0\0\u0001", "is a RAW picture")]
    [InlineData("\0\0\0\u0018ftypmp42\0\0\0\0", "is a video")]
    [InlineData("version https://git-lfs.github.com/spec/v1\noid sha256:00", "is a Git LFS pointer")]
    [InlineData("RIFF\0\0\0\0WAVEfmt ", "is a file of unknown type")]
    [InlineData("\0\u0001\u0002", "is a file of unknown type")]
    [InlineData("#!/bin/sh\necho", "is text, not a JPEG")]
    public void A_file_that_is_no_photo_is_called_what_it_is(string content, string told)
    {
        var spoiled = Spoil(Write("a.jpg", Encoding.UTF8.GetBytes(content)));
        Assert.Equal(told == "is a RAW picture" ? PhotoError.Raw : PhotoError.Unreadable, spoiled.Fault);
        Assert.Contains(told, spoiled.Reason, StringComparison.Ordinal);
        Assert.Equal("photos/a.jpg", spoiled.Path);
    }

    /// <summary>A DNG, and a raw file whose first picture is a preview, are TIFF by their first bytes.</summary>
    [Theory]
    [InlineData(50706, 1, 4, 0x0104)]
    [InlineData(254, 4, 1, 1)]
    public void A_raw_picture_is_not_taken_for_its_preview(int tag, int type, int count, int value)
    {
        var bytes = new byte[8 + 2 + 24 + 4];
        "II*\0"u8.CopyTo(bytes);
        bytes[4] = 8;
        bytes[8] = 2;
        foreach (var (at, entry) in new[] { (tag, type, count, value), (330, 4, 1, 8) }.Index())
        {
            var field = bytes.AsSpan(10 + (12 * at));
            BinaryPrimitives.WriteUInt16LittleEndian(field, (ushort)entry.Item1);
            BinaryPrimitives.WriteUInt16LittleEndian(field[2..], (ushort)entry.Item2);
            BinaryPrimitives.WriteInt32LittleEndian(field[4..], entry.Item3);
            BinaryPrimitives.WriteInt32LittleEndian(field[8..], entry.Item4);
        }

        Assert.Contains("is a RAW picture, which is not developed", Spoil(Write("a.tif", bytes)).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_there()
    {
        Assert.Equal((PhotoError.Missing, "is missing"), Told(Spoil("none.jpg")));
        Assert.Equal((PhotoError.Missing, "is missing"), Told(Spoil("no/such/folder/none.jpg")));
        Assert.Equal((PhotoError.Unreadable, "is empty"), Told(Spoil(Write("a.jpg", []))));
        Directory.CreateDirectory(PathOf("folder.jpg"));
        Assert.Equal((PhotoError.Unreadable, "is a folder, not a file"), Told(Spoil("folder.jpg")));
    }

    /// <summary>A device has no end and a pipe no beginning: neither may be waited for.</summary>
    [Fact]
    public void Devices_and_pipes_are_not_read()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "there are none on Windows");
        File.CreateSymbolicLink(PathOf("zero.jpg"), "/dev/zero");
        Assert.Equal(PhotoError.Unreadable, Spoil("zero.jpg").Fault);
        using var made = Process.Start("mkfifo", PathOf("pipe.jpg"));
        made.WaitForExit();
        Assert.Equal(PhotoError.Unreadable, Spoil("pipe.jpg").Fault);
        File.CreateSymbolicLink(PathOf("loop.jpg"), PathOf("loop.jpg"));
        Assert.IsType<UnusablePhoto>(Outcome("loop.jpg"));
    }

    [Fact]
    public void A_wrong_ending_is_no_fault()
    {
        using var image = Picture.Scene(100, 80);
        File.WriteAllBytes(PathOf("a.jpg"), image.WriteToBuffer(".png"));
        Assert.Equal(PhotoFormat.Png, Develop("a.jpg").Reading.Format);
    }

    /// <summary>Phones put a film or a second picture behind the first: what follows a picture's end is not its own.</summary>
    [Fact]
    public void What_follows_the_picture_is_left_alone()
    {
        using var image = Picture.Scene(100, 80);
        var bytes = image.WriteToBuffer(".jpg");
        var photo = Develop(Write("a.jpg", [.. bytes, .. "ftypmp42 a film"u8, .. bytes]));
        Assert.Equal((100, 80), (photo.Reading.Width, photo.Reading.Height));
    }

    [Theory, InlineData("jpg", 0.02), InlineData(
        "jpg", 0.5), InlineData("jpg", 0.98), InlineData("png", 0.02), InlineData("png", 0.5), InlineData("png", 0.9)]
    [InlineData("webp", 0.02), InlineData(
        "webp", 0.5), InlineData("webp", 0.9), InlineData("tif", 0.01), InlineData("tif", 0.5), InlineData("tif", 0.9)]
    [InlineData("jpg[interlace]", 0.5), InlineData("png[interlace]", 0.5)]
    public void A_file_cut_off_is_told(string format, double part)
    {
        using var image = Picture.Noise(900, 700);
        var whole = image.WriteToBuffer("." + format);
        var spoiled = Spoil(Write("a.jpg", whole.AsSpan(0, (int)(whole.Length * part))));

        Assert.Equal(PhotoError.Unreadable, spoiled.Fault);
        Assert.Matches("damaged (Jpeg|Png|WebP|Tiff)", spoiled.Reason);

        // Reported by a look alone, too; but TIFF says nowhere how long it is.
        var looked = new PhotoProcessor(CacheFolder).InspectAll([Source("a.jpg")], null, TestContext.Current.CancellationToken);
        if (format != "tif") Assert.Equal(spoiled.Reason, Assert.IsType<UnusablePhoto>(Assert.Single(looked)).Reason);
    }

    /// <summary>Half a megabyte of header that promises 900 million pixels: refused before any is made room for.</summary>
    [Fact]
    public void A_giant_is_refused_from_its_header()
    {
        Write("giant.png", PngHeader(30_000, 30_000));
        Write("giant.tif", TiffHeader(30_000, 30_000));
        Write("giant.jpg", JpegHeader(30_000, 30_000));
        Write("long.png", PngHeader(70_000, 100));
        var before = Process.GetCurrentProcess().PeakWorkingSet64;

        Assert.All(new[] { "giant.png", "giant.tif", "giant.jpg" }, name =>
        {
            var spoiled = Spoil(name);
            Assert.Equal(PhotoError.TooLarge, spoiled.Fault); // Reported as AF0704.
            Assert.StartsWith("is 30000 x 30000 px", spoiled.Reason, StringComparison.Ordinal);
        });
        Assert.Equal(PhotoError.TooLarge, Spoil("long.png").Fault);
        Assert.True(Process.GetCurrentProcess().PeakWorkingSet64 - before < 200_000_000);
    }

    /// <summary>Within the pixels that are taken, but in a form that can't be streamed: 16,000 x 16,000 progressive would be held as 1.5
    /// GB.</summary>
    [Fact]
    public void A_large_picture_that_must_be_held_whole_is_refused()
    {
        Write("held.png", PngHeader(16_000, 16_000, depth: 16, interlaced: true));
        var spoiled = Spoil("held.png");
        Assert.Equal(PhotoError.TooLarge, spoiled.Fault);
        Assert.Contains("interlacing", spoiled.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_several_pictures_the_first_is_shown()
    {
        using var red = Picture.Flat(60, 40, 220, 20, 20);
        using var blue = Picture.Flat(60, 40, 20, 20, 220);
        using var strip = Image.Arrayjoin([red, blue], across: 1);
        using var film = strip.Mutate(picture => picture.Set(GValue.GIntType, "page-height", 40));
        foreach (var name in new[] { Save(film, "film.webp", "[lossless]"), Save(film, "film.tif") })
        {
            var photo = Develop(name);
            Assert.Equal((60, 40), (photo.Reading.Width, photo.Reading.Height));
            Assert.True(Picture.Read(photo.Derivatives[0])[30, 20].R > 200);
        }
    }

    /// <summary>A folder of all sorts: each photo has its own outcome, in the order given.</summary>
    [Fact]
    public void One_bad_photo_does_not_spoil_the_others()
    {
        using var image = Picture.Scene(300, 200);
        Save(image, "good.jpg");
        Write("bad.jpg", "no photo"u8);
        PhotoRequest[] orders = [.. Enumerable.Range(0, 40)
            .Select(i => new PhotoRequest(Source(i % 3 == 0 ? "bad.jpg" : i % 3 == 1 ? "good.jpg" : "none.jpg"), Plain))];
        var tally = new Tally();
        var outcomes = Run(new PhotoProcessor(CacheFolder, workers: 4), orders, tally);

        Assert.Equal(40, tally.Done);
        for (var i = 0; i < 40; i++)
        {
            if (i % 3 == 1) Assert.IsType<DevelopedPhoto>(outcomes[i]);
            else Assert.Equal(i % 3 == 0 ? PhotoError.Unreadable : PhotoError.Missing, Assert.IsType<UnusablePhoto>(outcomes[i]).Fault);
        }
    }

    [Theory]
    [InlineData(
        PhotoError.Missing, "AF0701"), InlineData(PhotoError.Unreadable, "AF0702"), InlineData(PhotoError.ChecksumMismatch, "AF0703")]
    [InlineData(PhotoError.TooLarge, "AF0704"), InlineData(PhotoError.NotStripped, "AF0712")]
    public void A_fault_is_told_at_the_record_s_line(PhotoError fault, string code)
    {
        var record = new SourceText("photos/row2.yaml", "- id: P-1\n  file: a.jpg\n");
        var told = new UnusablePhoto("photos/a.jpg", fault, "is so").At(new SourceSpan(record, 18, 5));

        Assert.Equal((code, Severity.Error, "photo `photos/a.jpg` is so"), (told.Code, told.Severity, told.Message));
        Assert.Equal("photos/row2.yaml:2:9", told.Span.ToString());
        Assert.NotNull(DiagnosticPage.Read(code));
    }

    private static (PhotoError Fault, string Reason) Told(UnusablePhoto spoiled) => (spoiled.Fault, spoiled.Reason);

    private static byte[] PngHeader(int width, int height, byte depth = 8, bool interlaced = false)
    {
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        (header[8], header[9], header[12]) = (depth, 2, (byte)(interlaced ? 1 : 0));
        return [0x89, .. "PNG"u8, 13, 10, 26, 10, .. PngChunk.Write("IHDR"u8, header), .. PngChunk.Write("IDAT"u8, [])];
    }

    private static byte[] TiffHeader(int width, int height)
    {
        (int Tag, int Type, int Value)[] entries =
            [
                (256, 4, width), (257, 4, height), (258, 3, 8), (259, 3, 1), (262, 3, 1), (273, 4, 8), (277, 3, 1), (278, 4, height),
                (279, 4, 100)
            ];
        using var stream = new MemoryStream();
        using var writer = new BinaryWriter(stream);
        writer.Write("II*\0"u8);
        writer.Write(8);
        writer.Write((short)entries.Length);
        foreach (var (tag, type, value) in entries)
        {
            writer.Write((short)tag);
            writer.Write((short)type);
            writer.Write(1);
            writer.Write(value);
        }

        writer.Write(0);
        return stream.ToArray();
    }

    private static byte[] JpegHeader(int width, int height)
    {
        using var image = Picture.Flat(64, 64, 10, 20, 30);
        var bytes = image.WriteToBuffer(".jpg");
        var frame = bytes.AsSpan().IndexOf((ReadOnlySpan<byte>)[0xFF, 0xC0]);
        BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(frame + 5), (ushort)height);
        BinaryPrimitives.WriteUInt16BigEndian(bytes.AsSpan(frame + 7), (ushort)width);
        return bytes;
    }
}
