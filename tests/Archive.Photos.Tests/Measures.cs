using System.Diagnostics;
using System.Globalization;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>
/// Cost of the darkroom beside bare libvips calls that write the same files, on 24 drawn photos of 24 megapixels. Run each in a process of
/// its own:
/// <c>dotnet run -c Release --project tests/Archive.Photos.Tests -- -explicit only -showliveoutput -method "*Measures.The_darkroom"</c> (or
/// <c>Bare_libvips</c>).
/// </summary>
public sealed class Measures : Studio
{
    private const int Photos = 24;

    private static readonly PhotoRecipe Recipe = new()
    {
        Watermark = "Marrow Point Radio Trust, CC BY 4.0",
        Redactions = [new RedactionBox(0.7, 0.1, 0.2, 0.05)],
        Rights = new PhotoRights("Rear of frame 5", "H. Kessock", "Marrow Point Radio Trust", "CC-BY-4.0", "https://archive.example/photos/P-2231/"),
    };

    public static TheoryData<int> Workers => [1, 2];

    [Theory(Explicit = true), MemberData(nameof(Workers))]
    public void The_darkroom(int workers)
    {
        var orders = Album().Select(path => new PhotoOrder(new PhotoSource(path, Path.GetFileName(path)), Recipe)).ToArray();
        Warm();
        var cold = Meter.Start();
        Assert.All(Run(new Darkroom(CacheFolder, workers), orders), outcome => Assert.IsType<DevelopedPhoto>(outcome));
        Tell($"darkroom, {workers} workers, cold", cold);
        for (var i = 0; i < 2; i++)
        {
            var warm = Meter.Start();
            Run(new Darkroom(CacheFolder, workers), orders);
            Tell($"darkroom, {workers} workers, unchanged", warm);
        }
    }

    [Theory(Explicit = true), MemberData(nameof(Workers))]
    public void Bare_libvips(int workers)
    {
        var album = Album();
        Warm();
        var folder = Directory.CreateDirectory(PathOf("bare")).FullName;
        var meter = Meter.Start();
        Parallel.For(0, album.Length, new ParallelOptions { MaxDegreeOfParallelism = workers }, i => Bare(album[i], Path.Combine(folder, $"{i}")));
        Tell($"bare libvips, {workers} workers", meter);
    }

    /// <summary>The same files by the shortest way: no checksum, no notes of the camera, no cache, no checks.</summary>
    private static void Bare(string path, string name)
    {
        var rights = RightsPacket.Of(Recipe.Rights)!;
        using var loaded = Image.Jpegload(path, shrink: 2, access: Enums.Access.Sequential, failOn: Enums.FailOn.Warning);
        var turn = Turn.Of((Orientation)(int)loaded.Get("orientation"));
        var box = turn.Stored(Recipe.Redactions[0]).On(loaded.Width, loaded.Height);
        using var black = Image.Black(box.Width, box.Height, bands: 3);
        using var hidden = loaded.Insert(black, box.Left, box.Top);
        using var small = hidden.Resize(2400.0 / (turn.Swap ? hidden.Height : hidden.Width));
        using var stored = small.CopyMemory();
        using var bench = new Bench();
        using var widest = turn.Upright(bench, stored).CopyMemory();
        foreach (var width in Recipe.Widths)
        {
            using var size = width == widest.Width ? widest.Copy() : widest.Resize((double)width / widest.Width);
            using var print = size.CopyMemory();
            using var easel = new Bench();
            using var marked = Lettering.Stamp(easel, print, Recipe.Watermark!).Mutate(picture => picture.Set(GValue.BlobType, "xmp-data", rights));
            marked.Jpegsave($"{name}-{width}.jpg", q: 82, optimizeCoding: true, keep: Enums.ForeignKeep.Xmp);
        }
    }

    private void Warm()
    {
        using var scene = Picture.Scene(600, 400);
        Develop(Save(scene, "warm.jpg"), Recipe);
    }

    private static string[] Album()
    {
        var folder = Directory.CreateDirectory(Path.Combine(Path.GetTempPath(), "asfound-measures"));
        return [.. Enumerable.Range(0, Photos).Select(i => Drawn(Path.Combine(folder.FullName, $"{i}.jpg"), i))];
    }

    // Shades, edges and a camera's grain: about 9 MB, as such photos are. Every fourth was taken upright.
    private static string Drawn(string path, int number)
    {
        if (File.Exists(path)) return path;
        using var scene = Picture.Scene(6000, 4000);
        using var grain = Image.Gaussnoise(6000, 4000, sigma: 6, mean: 0, seed: number);
        using var grained = (scene + grain).Cast(Enums.BandFormat.Uchar);
        using var tagged = grained.Copy(interpretation: Enums.Interpretation.Srgb)
            .Mutate(picture => picture.Set(GValue.GIntType, "orientation", number % 4 == 3 ? 6 : 1));
        tagged.Jpegsave(path, q: 93);
        return path;
    }

    private static void Tell(string what, Meter meter)
    {
        var status = File.Exists("/proc/self/status") ? File.ReadLines("/proc/self/status").First(line => line.StartsWith("VmHWM", StringComparison.Ordinal)) : "";
        TestContext.Current.TestOutputHelper!.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{what}: {meter.Wall / Photos:F4} s/photo, {meter.Processor / Photos:F4} s of processor/photo, {status}, managed {GC.GetGCMemoryInfo().TotalCommittedBytes >> 20} MB"));
    }

    /// <summary>Time since its start, by the clock and by the processor: the latter holds on a busy machine too.</summary>
    private sealed record Meter(long Ticks, TimeSpan Used)
    {
        public static Meter Start() => new(Stopwatch.GetTimestamp(), Process.GetCurrentProcess().TotalProcessorTime);

        public double Wall => Stopwatch.GetElapsedTime(Ticks).TotalSeconds;

        public double Processor => (Process.GetCurrentProcess().TotalProcessorTime - Used).TotalSeconds;
    }
}
