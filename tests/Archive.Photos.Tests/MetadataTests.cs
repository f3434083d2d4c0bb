using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Photos.Rights;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using MetadataExtractor.Formats.Icc;
using MetadataExtractor.Formats.Iptc;
using MetadataExtractor.Formats.Xmp;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>What a camera notes stays with the original; a print says whose it is.</summary>
public sealed class MetadataTests : Studio
{
    private static readonly PhotoRights Rights = new(
        "Rear of frame R2-05", "H. Kessock", "Marrow Point Radio Trust", "CC-BY-4.0", "https://archive.example/photos/P-2231/");

    [Fact]
    public void A_print_carries_nothing_of_the_camera_s()
    {
        Noted("noted.jpg");
        var names = ImageMetadataReader.ReadMetadata(PathOf("noted.jpg"));
        Assert.Contains(names, directory => directory is GpsDirectory);
        Assert.Contains(names, directory => directory is IptcDirectory);

        var photo = Develop("noted.jpg", new PhotoRecipe { Widths = [400, 100], Rights = Rights });

        Assert.All(photo.All, derivative =>
        {
            var left = ImageMetadataReader.ReadMetadata(LaidOut(derivative));
            Assert.DoesNotContain(left, directory => directory is ExifDirectoryBase or GpsDirectory or IccDirectory);
            Assert.Single(left.OfType<XmpDirectory>());
            var bytes = System.Text.Encoding.Latin1.GetString(derivative.Read());
            Assert.All(new[] { "SERIAL-0815", "Exif", "ICC_PROFILE", "Nowhere", "51,28", "secret comment", "Kodiak" }, trace =>
                Assert.DoesNotContain(trace, bytes));
        });
    }

    /// <summary>
    /// Scripts where a viewer might show them: in EXIF, XMP, IPTC, the comment, the profile's place. No file of the photo holds them.
    /// </summary>
    [Theory, InlineData("jpg"), InlineData("png"), InlineData("webp"), InlineData("tif")]
    public void Scripts_in_the_notes_go_nowhere(string format)
    {
        const string script = "<script>alert('as found')</script>";
        using var image = Picture.Scene(2500, 1700);
        using var noted = image.Mutate(picture =>
        {
            picture.Set(GValue.GStrType, "exif-ifd0-ImageDescription", script);
            picture.Set(GValue.GStrType, "exif-ifd0-Make", script);
            picture.Set(GValue.GStrType, "exif-ifd0-Model", script);
            picture.Set(
                GValue.BlobType,
                "xmp-data",
                System.Text.Encoding.UTF8.GetBytes($"<x:xmpmeta xmlns:x='adobe:ns:meta/'>{script}</x:xmpmeta>"));
            picture.Set(GValue.BlobType, "icc-profile-data", System.Text.Encoding.UTF8.GetBytes(script));
        });
        var photo = Develop(Save(noted, "noted." + format), new PhotoRecipe { Rights = Rights });

        Assert.NotEmpty(photo.Tiles);
        Assert.All(photo.All, derivative => Assert.DoesNotContain("alert", System.Text.Encoding.Latin1.GetString(derivative.Read())));
    }

    // The library's own writer, asked for the same rights, is the measure of ours.
    [Theory, InlineData(640, 480), InlineData(101, 33), InlineData(1, 1)]
    public void Rights_stand_where_libvips_puts_them_and_can_be_taken_out_again(int width, int height)
    {
        using var scene = Picture.Scene(width, height);
        var (xmp, iptc) = (XmpPacket.Write(Rights)!, IptcBlock.Write(Rights)!);
        using var both = scene.Mutate(picture =>
        {
            picture.Set(GValue.BlobType, "xmp-data", xmp);
            picture.Set(GValue.BlobType, "iptc-data", iptc);
        });
        using var one = scene.Mutate(picture => picture.Set(GValue.BlobType, "xmp-data", xmp));
        const Enums.ForeignKeep kept = Enums.ForeignKeep.Xmp | Enums.ForeignKeep.Iptc;

        Same(DerivativeKind.Print, ImageEncoder.Print(scene), both.JpegsaveBuffer(q: 82, optimizeCoding: true, keep: kept));
        Same(DerivativeKind.Tile, ImageEncoder.Tile(scene), one.JpegsaveBuffer(q: 80, optimizeCoding: false, keep: kept));
        Same(DerivativeKind.LightPrint, ImageEncoder.LightPrint(scene), one.WebpsaveBuffer(q: 80, effort: 0, keep: kept));

        void Same(DerivativeKind kind, byte[] bare, byte[] said)
        {
            var put = new RightsWriter(Rights).Put(new Rendition(kind, width, height, "", bare));
            Assert.Equal(said, put.Content);
            Assert.Equal(bare, RightsWriter.Bare(put).Content);
        }
    }

    [Fact]
    public void A_print_without_rights_carries_nothing()
    {
        Noted("noted.jpg");
        Assert.All(Develop("noted.jpg").Derivatives, derivative =>
            Assert.Empty(ImageMetadataReader.ReadMetadata(LaidOut(derivative)).OfType<XmpDirectory>()));
    }

    [Fact]
    public void Exiftool_finds_the_rights_and_nothing_else()
    {
        Assert.SkipUnless(ExifTool.IsHere, "exiftool is not installed");
        Noted("noted.jpg");
        ExifTool.Write(PathOf("noted.jpg"), "-SerialNumber=SERIAL-0815", "-GPSLatitude=51.28", "-OwnerName=somebody", "-XMP:City=Nowhere");
        var tags = ExifTool.Read(LaidOut(Develop(
            "noted.jpg",
            new PhotoRecipe { Rights = Rights with { LicenceAddress = "https://creativecommons.org/licenses/by/4.0/" } }).Derivatives[0]));

        Assert.Equal("H. Kessock", tags["XMP:Creator"].Trim('[', ']', '"'));
        Assert.Equal("Marrow Point Radio Trust", tags["XMP:Credit"]);
        Assert.Equal("https://archive.example/photos/P-2231/", tags["XMP:Source"]);
        Assert.Equal("Rear of frame R2-05", tags["XMP:Title"]);
        Assert.Equal("Marrow Point Radio Trust, CC-BY-4.0", tags["XMP:Rights"]);
        Assert.Equal("CC-BY-4.0", tags["XMP:UsageTerms"]);
        Assert.Equal("https://creativecommons.org/licenses/by/4.0/", tags["XMP:WebStatement"]);
        Assert.Equal("Rear of frame R2-05", tags["IPTC:ObjectName"]);
        Assert.Equal("H. Kessock", tags["IPTC:By-line"]);
        Assert.Equal("Marrow Point Radio Trust", tags["IPTC:Credit"]);
        Assert.Equal("Marrow Point Radio Trust, CC-BY-4.0", tags["IPTC:CopyrightNotice"]);
        Assert.DoesNotContain("IPTC:Source", tags.Keys); // longer than the 32 bytes it may have
        Assert.Equal(
            ["ExifTool", "File", "IPTC", "XMP"],
            tags.Keys.Where(tag => tag.Contains(':')).Select(tag => tag.Split(':')[0]).Distinct().Order());
        Assert.Equal(7, tags.Keys.Count(tag => tag.StartsWith("XMP:", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("]]> <?xpacket end=\"w\"?> </x:xmpmeta>")]
    [InlineData("quote \" ' & &amp; ü 漢 \U0001F600")]
    public void Text_of_the_record_stays_text(string text)
    {
        using var image = Picture.Scene(200, 150);
        var photo = Develop(Save(image, "a.jpg"), new PhotoRecipe { Rights = new PhotoRights(Title: text, Creator: text, Credit: text) });
        var xmp = ImageMetadataReader.ReadMetadata(LaidOut(photo.Derivatives[0])).OfType<XmpDirectory>().Single().XmpMeta!;

        Assert.Equal(text, xmp.GetPropertyString("http://ns.adobe.com/photoshop/1.0/", "Credit"));
        Assert.Equal(text, xmp.GetArrayItem("http://purl.org/dc/elements/1.1/", "creator", 1).Value);
        Assert.Equal(text, xmp.GetLocalizedText("http://purl.org/dc/elements/1.1/", "title", null, "x-default").Value);
    }

    /// <summary>What XML cannot hold, and text longer than a JPEG's block, must not lose the packet.</summary>
    [Fact]
    public void Hostile_rights_still_make_a_packet()
    {
        using var image = Picture.Scene(200, 150);
        var hostile = new string('&', 200_000) + "\0\u0001\uFFFE\uD800";
        var photo = Develop(
            Save(image, "a.jpg"),
            new PhotoRecipe { Rights = new PhotoRights(hostile, hostile, "A\0\u0001B\uD800\uFFFF", hostile, hostile) });
        var xmp = ImageMetadataReader.ReadMetadata(LaidOut(photo.Derivatives[0])).OfType<XmpDirectory>().Single().XmpMeta!;

        Assert.Equal("A\u2400\u2401B<U+D800><U+FFFF>", xmp.GetPropertyString("http://ns.adobe.com/photoshop/1.0/", "Credit"));
    }

    [Theory, InlineData("jpg"), InlineData("png"), InlineData("webp")]
    public void The_camera_s_notes_are_read_from_the_original(string format)
    {
        Noted("noted." + format);
        var reading = PhotoHeader.Read(Source("noted." + format), out _)!;

        Assert.Equal(new DateTime(2026, 5, 12, 10, 42, 7), reading.Taken);
        Assert.Equal(DateTimeKind.Unspecified, reading.Taken!.Value.Kind);
        Assert.Equal(("Kodiak", "K-100"), (reading.Make, reading.Model));
        Assert.Equal((800, 600), (reading.Width, reading.Height));
    }

    [Fact]
    public void The_camera_s_notes_are_read_from_a_TIFF()
    {
        Assert.SkipUnless(ExifTool.IsHere, "exiftool is not installed");
        using var image = Picture.Scene(80, 60);
        Save(image, "a.tif");
        ExifTool.Write(PathOf("a.tif"), "-Make=Kodiak", "-Model=K-100", "-DateTimeOriginal=2026:05:12 10:42:07", "-Orientation#=6");
        var reading = PhotoHeader.Read(Source("a.tif"), out _)!;

        Assert.Equal((new DateTime(2026, 5, 12, 10, 42, 7), "Kodiak", "K-100"), (reading.Taken, reading.Make, reading.Model));
        Assert.Equal((Orientation.RightTop, 60, 80), (reading.Orientation, reading.Width, reading.Height));
    }

    [Theory, InlineData(
        "0000:00:00 00:00:00"), InlineData("yesterday"), InlineData("2026:13:45 99:00:00"), InlineData("    :  :     :  :  ")]
    public void A_time_that_is_none_is_no_fault(string time)
    {
        using var image = Picture.Scene(80, 60);
        using var noted = image.Mutate(picture => picture.Set(GValue.GStrType, "exif-ifd2-DateTimeOriginal", time));
        Save(noted, "a.jpg");

        Assert.Null(PhotoHeader.Read(Source("a.jpg"), out var spoiled)!.Taken);
        Assert.Null(spoiled);
    }

    private void Noted(string name)
    {
        using var image = Picture.Scene(800, 600);
        using var noted = image.Mutate(picture =>
        {
            picture.Set(GValue.GStrType, "exif-ifd0-Make", "Kodiak");
            picture.Set(GValue.GStrType, "exif-ifd0-Model", "K-100");
            picture.Set(GValue.GStrType, "exif-ifd2-DateTimeOriginal", "2026:05:12 10:42:07");
            picture.Set(GValue.GStrType, "exif-ifd2-BodySerialNumber", "SERIAL-0815");
            picture.Set(GValue.GStrType, "exif-ifd3-GPSLatitude", "51/1 28/1 0/1");
            picture.Set(GValue.GStrType, "exif-ifd3-GPSLatitudeRef", "N");
            picture.Set(GValue.BlobType, "xmp-data", "<x:xmpmeta xmlns:x='adobe:ns:meta/'>secret comment</x:xmpmeta>"u8.ToArray());
            picture.Set(
                GValue.BlobType,
                "iptc-data",
                (byte[])[.. "Photoshop 3.0\0"u8, .. "8BIM"u8, 4, 4, 0, 0, 0, 0, 0, 12, 0x1C, 2, 90, 0, 7, .. "Nowhere"u8]);
            picture.Set(
                GValue.BlobType,
                "icc-profile-data",
                File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "Profiles", "compatibleWithAdobeRGB1998.icc")));
        });
        Save(noted, name);
    }
}
