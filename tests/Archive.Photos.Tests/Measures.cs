using System.Diagnostics;
using System.Globalization;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Photos.Rights;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>
/// Cost of the darkroom beside bare libvips calls that write the same files, on 24 drawn photos of 24 megapixels, and its memory at 50. Run
/// each in a process of its own:
/// <c>dotnet run -c Release --project tests/Archive.Photos.Tests -- -explicit only -showliveoutput -method "*Measures.The_darkroom"</c> (or
/// <c>Bare_libvips</c>).
/// </summary>
public sealed class Measures : Studio
{
    private const int Photos = 24;

    private static readonly PhotoRecipe Recipe = new()
    {
        Watermark = "Marrow Point Radio Trust, CC BY 4.0",
        Redactions = [new FractionBox(0.7, 0.1, 0.2, 0.05)],
        Rights = new PhotoRights(
            "Rear of frame 5", "H. Kessock", "Marrow Point Radio Trust", "CC-BY-4.0", "https://archive.example/photos/P-2231/"),
    };

    public static TheoryData<int> Workers => [1, 2];

    [Theory(Explicit = true), MemberData(nameof(Workers))]
    public void The_darkroom(int workers)
    {
        var orders = Album().Select(path => new PhotoRequest(new PhotoSource(path, Path.GetFileName(path)), Recipe)).ToArray();
        Warm();
        var cold = Meter.Start();
        Assert.All(Run(new PhotoProcessor(CacheFolder, workers), orders), outcome => Assert.IsType<DevelopedPhoto>(outcome));
        Tell($"darkroom, {workers} workers, cold", cold);
        for (var i = 0; i < 2; i++)
        {
            var warm = Meter.Start();
            Run(new PhotoProcessor(CacheFolder, workers), orders);
            Tell($"darkroom, {workers} workers, unchanged", warm);
        }
    }

    /// <summary>Two workers at 50 megapixels, every fourth photo turned: the peak is to stay under 700 MB.</summary>
    [Fact(Explicit = true)]
    public void Memory_at_50_megapixels()
    {
        var orders =
            Album(8660, 5773).Take(8).Select(path => new PhotoRequest(new PhotoSource(path, Path.GetFileName(path)), Recipe)).ToArray();
        var meter = Meter.Start();
        Assert.All(Run(new PhotoProcessor(CacheFolder, workers: 2), orders), outcome => Assert.IsType<DevelopedPhoto>(outcome));
        Tell("50 megapixels, 2 workers", meter, orders.Length);
    }

    [Theory(Explicit = true), MemberData(nameof(Workers))]
    public void Bare_libvips(int workers)
    {
        var album = Album();
        Warm();
        var folder = Directory.CreateDirectory(PathOf("bare")).FullName;
        var meter = Meter.Start();
        Parallel.For(
            0, album.Length, new ParallelOptions { MaxDegreeOfParallelism = workers }, i => Bare(album[i], Path.Combine(folder, $"{i}")));
        Tell($"bare libvips, {workers} workers", meter);
    }

    /// <summary>The same files by the shortest way: no checksum, no notes of the camera, no cache, no measures, no checks.</summary>
    private static void Bare(string path, string name)
    {
        var rights = XmpPacket.Write(Recipe.Rights)!;
        using var loaded = Image.Jpegload(path, access: Enums.Access.Sequential, failOn: Enums.FailOn.Warning);
        var turn = OrientationTransform.From((Orientation)(int)loaded.Get("orientation"));
        using var scope = new ImageScope();
        using var memory = loaded.CopyMemory();
        using var upright = turn == default ? memory.Copy() : turn.Upright(scope, memory).CopyMemory();
        var box = Recipe.Redactions[0].On(upright.Width, upright.Height);
        using var whole = upright.Mutate(picture => picture.DrawRect([0, 0, 0], box.Left, box.Top, box.Width, box.Height, fill: true));
        var pyramid = new TilePyramid(whole.Width, whole.Height);
        var level = scope.Track(whole.Copy());
        Image? widest = null;
        foreach (var scale in pyramid.ScaleFactors)
        {
            if (scale > 1) level = scope.Track(scope.Track(level.Shrink(2, 2, ceil: true)).CopyMemory());
            if (scale == 2) widest = scope.Track(scope.Track(level.Resize(2400.0 / level.Width)).CopyMemory());
            var marked = Marked(scope, level, rights);
            foreach (var tile in pyramid.TilesAt(scale))
            {
                using var part = marked.Crop(tile.Box.Left, tile.Box.Top, tile.Box.Width, tile.Box.Height);
                part.Jpegsave(Named(name, tile.Path), q: 80, keep: Enums.ForeignKeep.Xmp);
            }
        }

        foreach (var width in Recipe.Widths)
        {
            var print = Marked(scope, width == widest!.Width
                ? widest
                : scope.Track(scope.Track(widest.Resize((double)width / widest.Width)).CopyMemory()), rights);
            print.Jpegsave(
                Named(name, TilePyramid.PathOfWhole(print.Width, print.Height, "jpg")),
                q: 82,
                optimizeCoding: true,
                keep: Enums.ForeignKeep.Xmp);
            if (width == 1280) Credited(scope, print).Jpegsave(
                Named(name, TilePyramid.PathOfCredited), q: 82, optimizeCoding: true, keep: Enums.ForeignKeep.Xmp);
            if (width <= 1280) print.Webpsave(
                Named(name, TilePyramid.PathOfWhole(print.Width, print.Height, "webp")), q: 80, effort: 2, keep: Enums.ForeignKeep.Xmp);
        }
    }

    private static string Named(string name, string path) => $"{name}-{path.Replace('/', '_')}";

    private static Image Marked(ImageScope scope, Image image, byte[] rights) =>
        scope.Track(image.Mutate(picture => picture.Set(GValue.BlobType, "xmp-data", rights)));

    private static Image Credited(ImageScope scope, Image image)
    {
        var letters = Math.Max(13, image.Width / 90);
        var text = scope.Track(Image.Text(Recipe.Watermark!, font: $"Noto Sans {letters}", dpi: 72));
        var strip = scope.Track(scope.Track(text.Embed(letters / 2, letters / 2, image.Width, text.Height + letters))
            .Ifthenelse((double[])[255, 255, 255], (double[])[34, 38, 40], blend: true));
        return scope.Track(image.Join(scope.Track(strip.Cast(Enums.BandFormat.Uchar)), Enums.Direction.Vertical));
    }

    private void Warm()
    {
        using var scene = Picture.Scene(600, 400);
        Develop(Save(scene, "warm.jpg"), Recipe);
    }

    private static string[] Album(int width = 6000, int height = 4000)
    {
        var folder = Directory.CreateDirectory(Path.Combine(Path.GetTempPath(), $"asfound-measures-{width}"));
        return [.. Enumerable.Range(0, width > 6000 ? 8 : Photos)
            .Select(i => Drawn(Path.Combine(folder.FullName, $"{i}.jpg"), i, width, height))];
    }

    // Shades, edges and a camera's grain: about 9 MB, as such photos are. Every fourth was taken upright.
    private static string Drawn(string path, int number, int width, int height)
    {
        if (File.Exists(path)) return path;
        using var scene = Picture.Scene(width, height);
        using var grain = Image.Gaussnoise(width, height, sigma: 6, mean: 0, seed: number);
        using var grained = (scene + grain).Cast(Enums.BandFormat.Uchar);
        using var tagged = grained.Copy(interpretation: Enums.Interpretation.Srgb)
            .Mutate(picture => picture.Set(GValue.GIntType, "orientation", number % 4 == 3 ? 6 : 1));
        tagged.Jpegsave(path, q: 93);
        return path;
    }

    private static void Tell(string what, Meter meter, int photos = Photos)
    {
        var status = File.Exists("/proc/self/status")
            ? File.ReadLines("/proc/self/status").First(line => line.StartsWith("VmHWM", StringComparison.Ordinal))
            : "";
        TestContext.Current.TestOutputHelper!.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{what}: {meter.Wall / photos:F4} s/photo, {meter.Processor / photos:F4} s of processor/photo, {status}, managed {GC.GetGCMemoryInfo().TotalCommittedBytes >> 20} MB"));
    }

    /// <summary>Time since its start, by the clock and by the processor: the latter holds on a busy machine too.</summary>
    private sealed record Meter(long Ticks, TimeSpan Used)
    {
        public static Meter Start() => new(Stopwatch.GetTimestamp(), Process.GetCurrentProcess().TotalProcessorTime);

        public double Wall => Stopwatch.GetElapsedTime(Ticks).TotalSeconds;

        public double Processor => (Process.GetCurrentProcess().TotalProcessorTime - Used).TotalSeconds;
    }
}
