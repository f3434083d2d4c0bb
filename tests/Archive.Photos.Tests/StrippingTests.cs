using System.Buffers.Binary;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Metadata;
using Archive.Photos.Processing;
using CsCheck;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using MetadataExtractor.Formats.Iptc;
using MetadataExtractor.Formats.Photoshop;
using MetadataExtractor.Formats.Xmp;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>
/// Stripped copies: the same pixels, the same colours, upright alike, and nothing that a camera or a program noted. The samples in
/// <c>samples/notes</c> were noted by exiftool.
/// </summary>
public sealed class StrippingTests : Studio
{
    private static readonly PrivateNote[] AllOfExif =
        [
            PrivateNote.Position, PrivateNote.SerialNumbers, PrivateNote.Names, PrivateNote.Thumbnail, PrivateNote.Comments,
            PrivateNote.ProgramNotes
        ];

    private static readonly string[] Traces = ["SERIAL-0815", "Nowhere", "somebody", "secret comment", "Kodiak", "xmpmeta", "8BIM", "GPS"];

    public static TheoryData<string> Samples =>
        [.. System.IO.Directory.GetFiles(SampleFolder).Select(Path.GetFileName).OfType<string>().Order(StringComparer.Ordinal)];

    public static TheoryData<string, string> Kinds => new()
    {
        { "colour", ".jpg" },
            { "colour", ".jpg[interlace]" },
            { "grey", ".jpg" },
            { "inks", ".jpg" },
            { "colour", ".jpg[restart-interval=3]" },
            { "colour", ".png" },
            { "colour", ".png[interlace]" },
            { "grey", ".png" },
            { "clear", ".png" },
            { "deep", ".png" },
            { "colour", ".png[palette]" },
            { "colour", ".webp" },
            { "clear", ".webp[lossless]" },
            { "clear", ".webp" },
            { "film", ".webp[lossless]" },
            { "colour", ".tif" },
            { "film", ".tif" },
            { "deep", ".tif[compression=deflate,predictor=horizontal]" },
            { "clear", ".tif[compression=lzw]" },
            { "colour", ".tif[tile,tile-width=16,tile-height=16,compression=jpeg]" },
            { "colour", ".tif[compression=jpeg]" },
            { "colour", ".tif[bigtiff]" },
            { "inks", ".tif" },
            { "float", ".tif" },
            { "colour", ".tif[tile,tile-width=32,tile-height=32,pyramid]" },
            { "colour", ".tif[compression=packbits]" },
        };

    private static string SampleFolder => Path.Combine(AppContext.BaseDirectory, "samples", "notes");

    /// <summary>What exiftool wrote is found, and reported.</summary>
    [Theory, MemberData(nameof(Samples))]
    public void What_a_file_tells_is_found(string sample)
    {
        var found = Assert.IsType<NotedPhoto>(
            new PhotoProcessor(CacheFolder).FindNotes([Taken(sample)], TestContext.Current.CancellationToken)[0]).Notes;
        Assert.Subset(
            found.ToHashSet(),
            AllOfExif.Where(note => note != PrivateNote.Thumbnail || sample.EndsWith(".jpg", StringComparison.Ordinal)).ToHashSet());
    }

    [Theory, MemberData(nameof(Samples))]
    public void Of_what_a_file_tells_nothing_is_left(string sample)
    {
        var stripped = Strip(Taken(sample));
        AssertClean(stripped.Copy);
        AssertSamePixels(PathOf(sample), stripped.Copy);
        Assert.Empty(Notes(stripped.Copy));
        Assert.Equal(
            stripped.Reading with { Taken = null, Make = null, Model = null },
            PhotoHeader.Read(new PhotoSource(stripped.Copy, "copy"), out _));
    }

    [Theory, MemberData(nameof(Samples))]
    public void Exiftool_finds_nothing_either(string sample)
    {
        Assert.SkipUnless(ExifTool.IsHere, "exiftool is not installed");
        var before = ExifTool.Read(Taken(sample).FullPath);
        Assert.Contains(before, tag => tag.Value.Contains("SERIAL-0815", StringComparison.Ordinal));
        var tags = ExifTool.Read(Strip(Source(sample)).Copy);
        Assert.Empty(tags.Keys.Select(tag => tag.Split(':')[0]).Intersect(["XMP", "IPTC", "Photoshop", "MakerNotes"]));

        // Of EXIF (and of a TIFF's own tags, which exiftool counts among them) only what shows the picture.
        string[] shown =
        [
            "Orientation", "ImageWidth", "ImageHeight", "BitsPerSample", "Compression", "PhotometricInterpretation", "StripOffsets",
            "SamplesPerPixel", "RowsPerStrip", "StripByteCounts", "PlanarConfiguration", "XResolution", "YResolution", "ResolutionUnit",
            "SampleFormat", "Predictor"
        ];
        Assert.Empty(tags.Keys.Where(tag => tag.StartsWith("EXIF:", StringComparison.Ordinal)).Select(tag => tag[5..]).Except(shown));
    }

    /// <summary>Every kind of file, with notes: the same pixels without them. Of several pictures the first.</summary>
    [Theory, MemberData(nameof(Kinds))]
    public void A_copy_has_the_same_pixels(string kind, string format)
    {
        foreach (var orientation in new[] { 1, 6 })
        {
            var name = Write("a.bin", Sample.Noted(kind, format, orientation));
            var stripped = Strip(Source(name));
            AssertSamePixels(PathOf(name), stripped.Copy);
            AssertClean(stripped.Copy);
            var again = Strip(new PhotoSource(stripped.Copy, "copy"));
            Assert.Equal(File.ReadAllBytes(stripped.Copy), File.ReadAllBytes(again.Copy));
        }
    }

    /// <summary>The libraries of others read the copy: not only ours.</summary>
    [Theory, InlineData(".jpg"), InlineData(".png"), InlineData(".webp"), InlineData(".tif")]
    public void A_copy_is_sound(string format)
    {
        var stripped = Strip(Source(Write("a.bin", Sample.Noted("colour", format, 6))));
        Assert.DoesNotContain(ImageMetadataReader.ReadMetadata(stripped.Copy), directory => directory.HasError);
        if (ExifTool.IsHere) Assert.DoesNotContain(ExifTool.Read(stripped.Copy).Keys, tag => tag is "ExifTool:Warning" or "ExifTool:Error");
    }

    /// <summary>Pixels of Adobe RGB that only EXIF names so (DCF 2.0) would look pale without it.</summary>
    [Theory, InlineData(".jpg"), InlineData(".png"), InlineData(".webp")]
    public void Colours_stay_what_they_were_meant_to_be(string format)
    {
        using var scene = Picture.Scene(200, 150);
        using var noted = scene.Mutate(picture => picture.Set(GValue.GStrType, "exif-ifd4-InteroperabilityIndex", "R03"));
        var name = Write("a.bin", noted.WriteToBuffer(format));
        var (before, after) = (Develop(name), DevelopAt(Strip(Source(name)).Copy));
        Assert.Equal(Picture.Read(before.Derivatives[0]).Bytes, Picture.Read(after.Derivatives[0]).Bytes);
        using var plain = scene.WriteToBuffer(format) is var bytes ? Image.NewFromBuffer(bytes) : null!;
        Assert.NotEqual(Pixels.Of(plain).Bytes, Picture.Read(after.Derivatives[0]).Bytes);
    }

    [Fact]
    public void What_stands_behind_the_picture_goes()
    {
        using var image = Picture.Scene(100, 80);
        foreach (var format in new[] { ".jpg", ".png", ".webp" })
        {
            var name = Write("a.bin", [.. image.WriteToBuffer(format), .. "ftypmp42 a film of somebody"u8]);
            Assert.Equal([PrivateNote.Behind], Notes(PathOf(name)).Intersect([PrivateNote.Behind]));
            Assert.DoesNotContain("ftyp", System.Text.Encoding.Latin1.GetString(File.ReadAllBytes(Strip(Source(name)).Copy)));
        }

        // Zeros that fill a block are nothing.
        Assert.DoesNotContain(PrivateNote.Behind, Notes(PathOf(Write("zeros.jpg", [.. image.WriteToBuffer(".jpg"), .. new byte[1000]]))));
    }

    /// <summary>JFIF may carry a thumbnail in its own header, and a second one in an extension.</summary>
    [Fact]
    public void The_thumbnail_of_a_JFIF_header_goes()
    {
        using var image = Picture.Scene(100, 80);
        var jpeg = image.JpegsaveBuffer(keep: 0);
        byte[] small = [.. Enumerable.Repeat((byte)0x77, 3 * 20 * 20)];
        byte[] jfif = [0xFF, 0xE0, 0, 0, .. "JFIF\0"u8, 1, 2, 0, 0, 1, 0, 1, 20, 20, .. small];
        BinaryPrimitives.WriteUInt16BigEndian(jfif.AsSpan(2), (ushort)(jfif.Length - 2));
        byte[] jfxx = [0xFF, 0xE0, 0, 10, .. "JFXX\0"u8, 0x13, 1, 1];
        var start = jpeg.AsSpan().IndexOf((ReadOnlySpan<byte>)[0xFF, 0xE0]) == 2 ? 2 + 18 : 2;
        var name = Write("a.jpg", [0xFF, 0xD8, .. jfif, .. jfxx, .. jpeg[start..]]);
        Assert.Contains(PrivateNote.Thumbnail, Notes(PathOf(name)));
        var copy = Strip(Source(name)).Copy;
        Assert.True(File.ReadAllBytes(copy).AsSpan().IndexOf(small.AsSpan(0, 50)) < 0);
        AssertSamePixels(PathOf(name), copy);
    }

    /// <summary>
    /// A first frame that is only a part of the picture cannot be taken out of an animated WebP without encoding it again.
    /// </summary>
    [Fact]
    public void A_part_of_an_animation_is_no_picture()
    {
        var film = Sample.Noted("film", ".webp[lossless]", 1);
        var frame = film.AsSpan().IndexOf("ANMF"u8);
        film[frame + 8] = 1; // two pixels to the right
        var outcome = new PhotoProcessor(
            CacheFolder).StripAll([Source(Write("film.webp", film))], TestContext.Current.CancellationToken)[0];
        Assert.NotNull((outcome as UnusablePhoto)?.Reason);
    }

    [Theory, InlineData("webp"), InlineData("jp2k")]
    public void A_TIFF_packed_in_a_form_with_notes_of_its_own_is_refused(string packing)
    {
        using var image = Picture.Scene(64, 64);
        var tiff = image.WriteToBuffer(".tif");
        SetCompression(tiff, (ushort)(packing == "webp" ? 50001 : 34712));
        var spoiled = Assert.IsType<UnusablePhoto>(
            new PhotoProcessor(CacheFolder).StripAll([Source(Write("a.tif", tiff))], TestContext.Current.CancellationToken)[0]);
        Assert.Equal(PhotoError.NotStripped, spoiled.Fault); // Reported as AF0712.
        Assert.Contains("compressed in a way that can contain metadata", spoiled.Reason, StringComparison.Ordinal);
    }

    /// <summary>A copy that was altered in the cache is a miss.</summary>
    [Fact]
    public void A_copy_is_kept_and_one_that_was_altered_is_made_again()
    {
        var source = Source(Write("a.jpg", Sample.Noted("colour", ".jpg", 1)));
        File.SetLastWriteTimeUtc(source.FullPath, DateTime.UtcNow.AddHours(-1));
        var first = Strip(source);
        var bytes = File.ReadAllBytes(first.Copy);
        var made = File.GetLastWriteTimeUtc(first.Copy);
        Assert.Equal((first, made), (Strip(source), File.GetLastWriteTimeUtc(first.Copy)));
        File.WriteAllBytes(first.Copy, [.. bytes, 1, 2, 3]);
        Assert.Equal(first, Strip(source));
        Assert.Equal(bytes, File.ReadAllBytes(first.Copy));
    }

    /// <summary>What no reader of ours opens is reported by its tags.</summary>
    [Fact]
    public void The_notes_of_a_BigTIFF_are_found()
    {
        var tiff = Sample.Noted("colour", ".tif[bigtiff]", 1);
        Assert.Equal([PrivateNote.ProgramNotes], Notes(PathOf(Write("a.tif", tiff))));

        // IPTC's tag becomes that of EXIF, the profile's that of a position.
        var at = (int)BinaryPrimitives.ReadInt64LittleEndian(tiff.AsSpan(8));
        for (var entry = at + 8; entry < at + 8 + (20 * tiff[at]); entry += 20)
        {
            var tag = BinaryPrimitives.ReadUInt16LittleEndian(tiff.AsSpan(entry));
            if (tag is 33723 or 34675) BinaryPrimitives.WriteUInt16LittleEndian(tiff.AsSpan(entry), (ushort)(tag == 33723 ? 34665 : 34853));
        }

        Assert.Equal(
            [PrivateNote.Position, PrivateNote.ProgramNotes, PrivateNote.Unreadable],
            PrivateNotes.In(PathOf(Write("b.tif", tiff)), PhotoFormat.Tiff));
    }

    /// <summary>A picture without notes has none.</summary>
    [Theory, InlineData(".jpg", "keep=none"), InlineData(
        ".png", "keep=none"), InlineData(".webp", "keep=none"), InlineData(".tif", "keep=none"), InlineData(".tif", "keep=none,bigtiff")]
    public void A_bare_picture_tells_nothing(string format, string options)
    {
        using var image = Picture.Scene(100, 80);
        using var bare = image.Mutate(picture =>
        {
            foreach (var field in image.GetFields().Where(field => field.EndsWith("-data", StringComparison.Ordinal)))
                picture.Remove(field);
        });
        Assert.Empty(Notes(PathOf(Write("a.bin", bare.WriteToBuffer($"{format}[{options}]")))));
    }

    private static void SetCompression(byte[] tiff, ushort compression)
    {
        var at = BinaryPrimitives.ReadInt32LittleEndian(tiff.AsSpan(4));
        for (var entry = at + 2; ; entry += 12)
        {
            if (BinaryPrimitives.ReadUInt16LittleEndian(tiff.AsSpan(entry)) != 259) continue;
            BinaryPrimitives.WriteUInt16LittleEndian(tiff.AsSpan(entry + 8), compression);
            return;
        }
    }

    private PhotoSource Taken(string sample)
    {
        File.Copy(Path.Combine(SampleFolder, sample), PathOf(sample), overwrite: true);
        return Source(sample);
    }

    private StrippedPhoto Strip(PhotoSource source)
    {
        var outcome = new PhotoProcessor(CacheFolder).StripAll([source], TestContext.Current.CancellationToken)[0];
        Assert.False(outcome is UnusablePhoto, (outcome as UnusablePhoto)?.Reason);
        return Assert.IsType<StrippedPhoto>(outcome);
    }

    private PrivateNote[] Notes(string path) =>
        [.. Assert.IsType<NotedPhoto>(
            new PhotoProcessor(CacheFolder).FindNotes([new PhotoSource(path, "a")], TestContext.Current.CancellationToken)[0]).Notes];

    private DevelopedPhoto DevelopAt(string path) =>
        Assert.IsType<DevelopedPhoto>(Run(new PhotoProcessor(CacheFolder), [new PhotoRequest(new PhotoSource(path, "copy"), Plain)])[0]);

    private static void AssertClean(string copy)
    {
        // MetadataExtractor reads no BigTIFF.
        var isLarge = File.ReadAllBytes(copy).AsSpan().StartsWith("II+\0"u8);
        var left = isLarge ? [] : ImageMetadataReader.ReadMetadata(copy);
        Assert.DoesNotContain(left, directory => directory is GpsDirectory or XmpDirectory or IptcDirectory or PhotoshopDirectory
            or ExifThumbnailDirectory or ExifSubIfdDirectory);
        var bytes = System.Text.Encoding.Latin1.GetString(File.ReadAllBytes(copy));
        Assert.All(Traces, trace => Assert.DoesNotContain(trace, bytes, StringComparison.Ordinal));
    }

    private static void AssertSamePixels(string one, string other)
    {
        using var a = Image.NewFromFile(one);
        using var b = Image.NewFromFile(other);
        Assert.Equal((a.Width, a.Height, a.Bands, a.Format, a.Interpretation), (b.Width, b.Height, b.Bands, b.Format, b.Interpretation));
        Assert.Equal(Orientation(a), Orientation(b));
        using var difference = a - b;
        using var size = difference.Abs();
        Assert.Equal(0, size.Max());
        Assert.Equal(a.Contains("icc-profile-data"), b.Contains("icc-profile-data"));
        if (a.Contains("icc-profile-data")) Assert.Equal((byte[])a.Get("icc-profile-data"), (byte[])b.Get("icc-profile-data"));

        static int Orientation(Image image) => image.Contains("orientation") ? (int)image.Get("orientation") : 1;
    }
}
