using System.Buffers.Binary;
using System.Reflection;
using System.Runtime.InteropServices;
using Archive.Photos.Images;
using Archive.Photos.Metadata;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>
/// HEIC and AVIF made by heif-enc and avifenc, with notes by exiftool (samples/phone/README.md). HEIC is decoded by the library of an
/// optional package; where this machine has none, the tests that need it are skipped.
/// </summary>
public sealed class PhonePhotoTests : Studio
{
    private static readonly string? Library = FindLibrary();

    [Theory]
    [InlineData("plain.heic", 48, 32)]
    [InlineData("plain.avif", 48, 32)]
    [InlineData("turned.avif", 32, 48)]
    [InlineData("noted.heic", 48, 32)]
    public void A_header_is_read_without_the_package(string name, int width, int height)
    {
        var header = Header(name);
        Assert.Equal((width, height, Orientation.TopLeft, 1), (header.Width, header.Height, header.Orientation, header.Pictures));
        if (name is "plain.heic" or "plain.avif") return;
        Assert.Equal((new DateTime(2026, 5, 12, 10, 42, 11), "Lanternworks", "Pocket 3"), (header.Taken, header.Make, header.Model));
    }

    [Theory]
    [InlineData("plain.heic", "plain.png")]
    [InlineData("p3.heic", "p3.png")]
    [InlineData("plain.avif", "plain.png")]
    public void Pixels_and_colours_are_those_of_the_picture_that_was_encoded(string name, string original)
    {
        Need(name);
        Assert.InRange(Distance(Pixels(name, Header(name)), Pixels(original, Header(original))), 0, 3);
        Assert.True(Distance(Pixels("plain.png", Header("plain.png")), Pixels("p3.png", Header("p3.png"))) > 6);
    }

    [Fact]
    public void A_picture_lies_as_its_boxes_say_whatever_its_notes_say()
    {
        // avifenc turned it by 270° anticlockwise; its EXIF says so once more.
        var (plain, turned) = (Pixels("plain.avif", Header("plain.avif")), Pixels("turned.avif", Header("turned.avif")));
        Assert.InRange(Distance(Quarter(plain, 48, 32), turned), 0, 4);
    }

    /// <summary>A box of heif-enc's file, on its bits, is made one of turning: libheif and our header agree about each turn.</summary>
    [Theory]
    [InlineData(0), InlineData(1), InlineData(2), InlineData(3)]
    public void Turns_of_heic_are_those_that_libheif_makes(int angle)
    {
        Need("a.heic");
        var bytes = File.ReadAllBytes(Sample("plain.heic"));
        var at = bytes.AsSpan().IndexOf("pixi"u8);
        "irot"u8.CopyTo(bytes.AsSpan(at));
        bytes[at + 4] = (byte)angle;
        var name = PathOf(Write("a.heic", bytes));
        var header = PhotoHeader.Read(new PhotoSource(name, "a"), out _)!;
        Assert.Equal(angle % 2 == 0 ? (48, 32) : (32, 48), (header.Width, header.Height));
        var expected = Pixels("plain.heic", Header("plain.heic"));
        if (angle % 2 == 1) expected = Quarter(expected, 48, 32);

        // By a half turn the last pixel comes first: quarters of one colour each, so their order alone.
        var pixels = Pixels(name, header);
        if (angle is 1 or 2) expected = [.. expected.Chunk(3).Reverse().SelectMany(pixel => pixel)];
        Assert.InRange(Distance(expected, pixels), 0, 3);
    }

    [Fact]
    public void What_a_phone_tells_beside_the_picture_is_found_and_never_published()
    {
        Need("noted.heic");
        var notes = PrivateNotes.In(Sample("noted.heic"), PhotoFormat.Heic);
        Assert.Superset(new HashSet<PrivateNote> { PrivateNote.Position, PrivateNote.Thumbnail }, notes.ToHashSet());
        File.Copy(Sample("noted.heic"), PathOf("noted.heic"));
        var photo = Develop("noted.heic");
        foreach (var derivative in photo.Derivatives)
        {
            var bytes = derivative.Read();
            Assert.Equal(-1, bytes.AsSpan().IndexOf("Lanternworks"u8));
            Assert.Equal(-1, bytes.AsSpan().IndexOf("77123"u8));
        }

        using var file = new FileStream(Sample("noted.heic"), FileMode.Open, FileAccess.Read);
        var refused = Assert.Throws<UnusablePhotoException>(() =>
            MetadataStripping.Write(file, PhotoFormat.Heic, null, Stream.Null));
        Assert.Contains("no copy without its metadata", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_the_package_it_is_said_what_to_do()
    {
        var missing = Assert.Throws<UnusablePhotoException>(() => HeicDecoder.Require([PathOf("none")]));
        Assert.EndsWith("asfound-phone-photos, is not installed: unpack it beside asfound", missing.Message, StringComparison.Ordinal);
        var diagnostic = new UnusablePhoto("a.heic", missing.Error, missing.Message)
            .At(new Archive.Diagnostics.SourceText("a.yaml", "a.heic").Whole);
        Assert.StartsWith("unpack the package asfound-phone-photos of your platform", diagnostic.Help, StringComparison.Ordinal);

        // Another library of that name is not loaded.
        Directory.CreateDirectory(PathOf("other"));
        File.WriteAllText(PathOf("other/Magick.Native-Q8-x64.dll.so"), "not it");
        missing = Assert.Throws<UnusablePhotoException>(() => HeicDecoder.Require([PathOf("other")]));
        Assert.Contains("does not belong to this version", missing.Message, StringComparison.Ordinal);
    }

    /// <summary>Every cut, and each of many changed bytes: a picture or a reason, never an exception.</summary>
    [Theory]
    [InlineData("noted.heic")]
    [InlineData("turned.avif")]
    public void Cut_and_damaged_files_are_refused_or_read(string sample)
    {
        Need(sample);
        var whole = File.ReadAllBytes(Sample(sample));
        for (var length = 1; length < whole.Length; length += 37)
        {
            var cut = Read(Write("cut.heic", whole.AsSpan(0, length)), out var spoiled);
            Assert.True(cut is null && spoiled is not null, $"cut at {length}");
        }

        var random = new Random(7);
        for (var round = 0; round < 120; round++)
        {
            var bytes = (byte[])whole.Clone();
            for (var change = 0; change < 3; change++) bytes[random.Next(16, bytes.Length)] = (byte)random.Next(256);
            if (Read(Write("changed.heic", bytes), out _) is not { } header) continue;
            try
            {
                using var pixels = ImageReader.Decode(PathOf("changed.heic"), header);
            }
            catch (UnusablePhotoException refused)
            {
                Assert.NotEmpty(refused.Message);
            }
        }
    }

    [Theory]
    [InlineData(100_000u, 100_000u, "the limit is 268 million pixels")]
    [InlineData(16_000u, 16_000u, "the limit for it is 134 million pixels")]
    [InlineData(64_000u, 1_000u, "damaged")]
    public void A_size_that_is_only_claimed_is_refused(uint width, uint height, string why)
    {
        foreach (var sample in new[] { "plain.heic", "plain.avif" })
        {
            Need(sample);
            var bytes = File.ReadAllBytes(Sample(sample));
            for (var at = 0; bytes.AsSpan(at).IndexOf("ispe"u8) is >= 0 and var next; at += next + 16)
            {
                BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(at + next + 8), width);
                BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(at + next + 12), height);
            }

            Assert.Contains(why, Spoil(Write("large.heic", bytes)).Reason, StringComparison.Ordinal);
        }
    }

    private static PhotoHeader? Read(string path, out UnusablePhoto? spoiled, string folder) =>
        PhotoHeader.Read(new PhotoSource(Path.Combine(folder, path), path), out spoiled);

    private PhotoHeader? Read(string name, out UnusablePhoto? spoiled) => Read(name, out spoiled, PathOf(""));

    private static PhotoHeader Header(string name) => PhotoHeader.Read(new PhotoSource(Sample(name), name), out var spoiled)
        ?? throw new InvalidOperationException(spoiled!.Reason);

    private static byte[] Pixels(string name, PhotoHeader header)
    {
        using var pixels = ImageReader.Decode(Path.IsPathRooted(name) ? name : Sample(name), header);
        return pixels.View.WriteToMemory<byte>();
    }

    // A quarter turn clockwise.
    private static byte[] Quarter(byte[] pixels, int width, int height)
    {
        var turned = new byte[pixels.Length];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
                pixels.AsSpan(3 * ((y * width) + x), 3).CopyTo(turned.AsSpan(3 * ((x * height) + height - 1 - y)));
        }

        return turned;
    }

    private static double Distance(byte[] one, byte[] other)
    {
        Assert.Equal(one.Length, other.Length);
        return one.Zip(other).Average(pair => (double)Math.Abs(pair.First - pair.Second));
    }

    private static string Sample(string name) => Path.Combine(AppContext.BaseDirectory, "samples", "phone", name);

    private static void Need(string name)
    {
        if (!name.EndsWith(".heic", StringComparison.Ordinal)) return;
        Assert.SkipWhen(Library is null, "there is no library for HEIC for this machine");
        HeicDecoder.Folders = [Library!];
    }

    private static string? FindLibrary()
    {
        var root = Assembly.GetExecutingAssembly().GetCustomAttributes<AssemblyMetadataAttribute>()
            .First(each => each.Key == "NuGetPackageRoot").Value!;
        var version = typeof(ImageMagick.MagickImage).Assembly.GetName().Version!.ToString(3);
        var folder = Path.Combine(root, "magick.net-q8-anycpu", version, "runtimes", RuntimeInformation.RuntimeIdentifier, "native");
        return Directory.Exists(folder) ? folder : null;
    }
}
