using Archive.Photos.Caching;
using Archive.Photos.Measures;
using Archive.Photos.Processing;
using CsCheck;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>Copies of a picture are known again: by their bytes, or by what they look like.</summary>
public sealed class CopyTests : Studio
{
    private static readonly (string Name, Func<Image, Image> Make)[] Ways =
    [
        ("re-encoded", image => image.Copy()),
        ("half as large", image => image.Resize(0.5)),
        ("a thumbnail", image => image.Resize(0.1)),
        ("stretched", image => image.Resize(1.3, vscale: 0.8)),
        ("lighter", image => image.Linear([1.15], [10]).Cast(Enums.BandFormat.Uchar)),
        ("grey", image => image.Colourspace(Enums.Interpretation.Bw)),
        ("lying on its side", image => image.Rot90()),
        ("lying on its other side", image => image.Rot270()),
        ("upside down", image => image.Rot180()),
    ];

    public static TheoryData<string> WayNames => [.. Ways.Select(way => way.Name)];

    [Theory, MemberData(nameof(WayNames))]
    public void A_copy_made_by_another_program_is_found(string name)
    {
        using var image = Wall(1);
        using var copy = Ways.Single(way => way.Name == name).Make(image);
        AssertCopies(image, copy);
    }

    /// <summary>Cut by up to a twentieth at any edge: whichever of the two is the cut one.</summary>
    [Fact]
    public void A_copy_cut_at_its_edges_is_found() => Gen.Select(Gen.Int[1, 6], Gen.Double[0, 0.05].Array[4]).Sample((seed, cuts) =>
    {
        using var image = Wall(seed);
        var (left, top) = ((int)(cuts[0] * image.Width), (int)(cuts[1] * image.Height));
        using var cut = image.Crop(
            left, top, image.Width - left - (int)(cuts[2] * image.Width), image.Height - top - (int)(cuts[3] * image.Height));
        AssertCopies(image, cut);
    }, iter: 40, threads: 1);

    [Fact]
    public void Other_pictures_are_not_found()
    {
        var measured = Enumerable.Range(1, 30).Select(seed =>
        {
            using var image = Wall(seed);
            return MiniatureOf(image, $"{seed}.jpg");
        }).ToList();
        foreach (var (i, one) in measured.Index())
        {
            var search = new CopySearch(one);
            Assert.All(measured.Index(), other => Assert.Equal(i == other.Index, search.Finds(other.Item)));
        }
    }

    /// <summary>One plain wall is like any other: nothing can be said of it. Nor of a miniature that the cache lost.</summary>
    [Fact]
    public void A_plain_picture_is_like_none()
    {
        using var white = Picture.Flat(400, 300, 250, 250, 250);
        using var grey = Picture.Flat(400, 300, 120, 120, 120);
        var plain = MiniatureOf(white, "white.png");
        Assert.False(new CopySearch(plain).Finds(plain));
        Assert.False(new CopySearch(plain).Finds(MiniatureOf(grey, "grey.png")));
        Assert.All(
            new[] { "", "AAAA", "no base64!" }, text => Assert.False(new CopySearch(new Miniature(text)).Finds(new Miniature(text))));
    }

    /// <summary>Only files of the size of one that is sought are read at all: what was read has a card in the cache.</summary>
    [Fact]
    public void Bytes_are_compared_only_among_files_of_one_size()
    {
        using var image = Wall(1);
        var bytes = image.WriteToBuffer(".jpg");
        string[] names =
        [
            Write("a.jpg", bytes),
            Write("copy of a.jpg", bytes),
            Write("same size.jpg", Altered(bytes)),
            Write("b.jpg", [.. bytes, 0]),
            Write("c.jpg", [.. bytes, 0]),
            Write("d.jpg", [.. bytes, 0, 0])
        ];
        foreach (var name in names) File.SetLastWriteTimeUtc(PathOf(name), DateTime.UtcNow.AddHours(-1));
        var found = new PhotoProcessor(CacheFolder).ChecksumsOfCopies(
            [.. names.Select(Source), Source("none.jpg")], i => i is 0 or 5 or 6, TestContext.Current.CancellationToken);

        Assert.Equal(found[0], found[1]);
        Assert.NotNull(found[0]);
        Assert.NotEqual(found[0], found[2]);
        Assert.Equal([null, null, null, null], found[3..]);
        Assert.Equal(3, Directory.GetFiles(Path.Combine(CacheFolder, "originals"), "*.json", SearchOption.AllDirectories).Length);
    }

    private static byte[] Altered(byte[] jpeg)
    {
        var altered = jpeg.ToArray();
        altered[^10] ^= 1;
        return altered;
    }

    private void AssertCopies(Image one, Image other)
    {
        var (a, b) = (MiniatureOf(one, "one.jpg"), MiniatureOf(other, "other.jpg"));
        Assert.True(new CopySearch(a).Finds(b), "a copy is not found");
        Assert.True(new CopySearch(b).Finds(a), "of a copy the picture is not found");
    }

    private Miniature MiniatureOf(Image image, string name)
    {
        var options = name.EndsWith("jpg", StringComparison.Ordinal) ? "[Q=60]" : "";
        var outcome = new PhotoProcessor(
            CacheFolder).MeasureAll([Source(Save(image, name, options))], null, TestContext.Current.CancellationToken)[0];
        return Assert.IsType<MeasuredPhoto>(outcome).Measures.Miniature;
    }

    // A wall of panels, as a hall of frames shows it: some large, some small.
    private static Image Wall(int seed)
    {
        var random = new Random(seed);
        const int width = 800, height = 600;
        var pixels = new byte[width * height * 3];
        for (var panel = 0; panel < 120; panel++)
        {
            var (w, h) = (20 + random.Next(30_000 / (100 + (panel * 3))), 15 + random.Next(20_000 / (100 + (panel * 3))));
            var (left, top, shade) = (random.Next(width) - (w / 2), random.Next(height) - (h / 2), (byte)random.Next(20, 240));
            for (var y = Math.Max(0, top); y < Math.Min(height, top + h); y++)
            {
                for (var x = Math.Max(0, left); x < Math.Min(width, left + w); x++) pixels.AsSpan(3 * ((y * width) + x), 3).Fill(shade);
            }
        }

        return Picture.OfPixels(pixels, width, height);
    }
}
