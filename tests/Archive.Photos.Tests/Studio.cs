using System.Collections.Immutable;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>A folder of originals made for one test, and a darkroom with a cache of its own.</summary>
public abstract class Studio : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("asfound-photos-");

    protected static readonly PhotoRecipe Plain = new();

    protected string CacheFolder => Path.Combine(_folder.FullName, "cache");

    protected string PathOf(string name) => Path.Combine(_folder.FullName, name);

    protected PhotoSource Source(string name) => new(PathOf(name), "photos/" + name);

    protected string Write(string name, ReadOnlySpan<byte> bytes)
    {
        File.WriteAllBytes(PathOf(name), bytes);
        return name;
    }

    /// <summary>Saves a picture; the format is reported by the name's end, options in brackets behind it.</summary>
    protected string Save(Image image, string name, string options = "")
    {
        image.WriteToFile(PathOf(name) + options);
        return name;
    }

    /// <summary>Lays a derivative out as a file of its own, for tools that read files.</summary>
    protected string LaidOut(Derivative derivative)
    {
        var path = PathOf($"laid-out-{derivative.Path.Replace('/', '_')}");
        File.WriteAllBytes(path, derivative.Read());
        return path;
    }

    protected static ImmutableArray<PhotoResult> Run(
        PhotoProcessor processor, IReadOnlyList<PhotoRequest> orders, IProgress<PhotoProgress>? progress = null) =>
        processor.DevelopAll(orders, progress, TestContext.Current.CancellationToken);

    protected PhotoResult Outcome(string name, PhotoRecipe? recipe = null) =>
        Run(new PhotoProcessor(CacheFolder), [new PhotoRequest(Source(name), recipe ?? Plain)])[0];

    protected DevelopedPhoto Develop(string name, PhotoRecipe? recipe = null)
    {
        var outcome = Outcome(name, recipe);
        Assert.False(outcome is UnusablePhoto, (outcome as UnusablePhoto)?.Reason);
        return Assert.IsType<DevelopedPhoto>(outcome);
    }

    protected UnusablePhoto Spoil(string name) => Assert.IsType<UnusablePhoto>(Outcome(name));

    public void Dispose()
    {
        _folder.Delete(recursive: true);
        GC.SuppressFinalize(this);
    }
}

/// <summary>Counts what a run reports itself.</summary>
public sealed class Tally : IProgress<PhotoProgress>
{
    private int _decoded;
    private int _done;

    public int Decoded => _decoded;

    public int Done => _done;

    public void Report(PhotoProgress value)
    {
        InterlockedMax(ref _decoded, value.Decoded);
        InterlockedMax(ref _done, value.Done);
    }

    private static void InterlockedMax(ref int place, int value)
    {
        int seen;
        while ((seen = Volatile.Read(ref place)) < value && Interlocked.CompareExchange(ref place, value, seen) != seen)
        {
        }
    }
}

/// <summary>Pictures drawn for tests, and pictures read back.</summary>
public static class Picture
{
    public static Image Flat(int width, int height, params double[] colour)
    {
        using var black = Image.Black(width, height, bands: colour.Length);
        using var shifted = black.Linear([.. colour.Select(_ => 1.0)], colour);
        using var cast = shifted.Cast(Enums.BandFormat.Uchar);
        return cast.Copy(interpretation: colour.Length == 1 ? Enums.Interpretation.Bw : Enums.Interpretation.Srgb).CopyMemory();
    }

    /// <summary>Shades that differ everywhere and at each corner, so that no turn maps it to itself.</summary>
    public static Image Scene(int width, int height)
    {
        var pixels = new byte[width * height * 3];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var at = 3 * ((y * width) + x);
                pixels[at] = (byte)(40 + (x * 180 / width));
                pixels[at + 1] = (byte)(60 + (y * 150 / height));
                pixels[at + 2] = (byte)(x * 3 < width && y * 4 < height ? 220 : 80);
            }
        }

        return OfPixels(pixels, width, height);
    }

    /// <summary>Shades that no neighbour tells.</summary>
    public static Image Noise(int width, int height)
    {
        var pixels = new byte[width * height * 3];
        new Random(7).NextBytes(pixels);
        return OfPixels(pixels, width, height);
    }

    public static Image OfPixels(byte[] pixels, int width, int height)
    {
        using var image = Image.NewFromMemory(pixels, width, height, 3, Enums.BandFormat.Uchar);
        return image.Copy(interpretation: Enums.Interpretation.Srgb).CopyMemory();
    }

    public static Pixels Read(Derivative derivative)
    {
        using var image = Image.NewFromBuffer(derivative.Read());
        return Pixels.Of(image);
    }

    /// <summary>
    /// Every whole picture that is published of a photo: prints, WebP prints, and each level put together from its tiles.
    /// </summary>
    public static IEnumerable<(string Name, Pixels Pixels)> ReadAll(DevelopedPhoto photo)
    {
        foreach (var print in photo.All.Where(derivative => derivative.Kind is DerivativeKind.Print or DerivativeKind.LightPrint))
            yield return (print.Path, Read(print));
        if (photo.Credited is { } copy) yield return (copy.Path, WithoutStrip(copy, photo.Derivatives));
        var pyramid = new TilePyramid(photo.Reading.Width, photo.Reading.Height);
        foreach (var scale in pyramid.ScaleFactors) yield return ($"level {scale}", ReadLevel(photo, scale));
    }

    // The picture above the strip, as far as JPEG's blocks do not share it.
    private static Pixels WithoutStrip(Derivative copy, ImmutableArray<Derivative> prints)
    {
        var height = prints.First(print => print.Width == copy.Width).Height;
        var pixels = Read(copy);
        return new Pixels(pixels.Width, height, pixels.Bytes[..(pixels.Width * height * 3)]);
    }

    /// <summary>A level put together from the files that its tiles are.</summary>
    public static Pixels ReadLevel(DevelopedPhoto photo, int scale)
    {
        var pyramid = new TilePyramid(photo.Reading.Width, photo.Reading.Height);
        var (width, height) = (TilePyramid.Reduced(pyramid.Width, scale), TilePyramid.Reduced(pyramid.Height, scale));
        var level = new byte[width * height * 3];
        var files = photo.All.ToDictionary(derivative => derivative.Path, StringComparer.Ordinal);
        foreach (var tile in pyramid.TilesAt(scale))
        {
            var pixels = Read(files[tile.Path]);
            Assert.Equal((tile.Box.Width, tile.Box.Height), (pixels.Width, pixels.Height));
            for (var y = 0; y < pixels.Height; y++)
            {
                pixels.Bytes
                    .AsSpan(y * pixels.Width * 3, pixels.Width * 3)
                    .CopyTo(level.AsSpan(3 * (((tile.Box.Top + y) * width) + tile.Box.Left)));
            }
        }

        return new Pixels(width, height, level);
    }

    public static Pixels Read(string path)
    {
        using var image = Image.NewFromFile(path);
        return Pixels.Of(image);
    }

    /// <summary>Bytes of a picture in a format.</summary>
    public static byte[] Encoded(Image image, string format) => image.WriteToBuffer(format);
}

/// <summary>Decoded pixels: three bands of 8 bit.</summary>
public sealed record Pixels(int Width, int Height, byte[] Bytes)
{
    public (int R, int G, int B) this[int x, int y] =>
        (Bytes[3 * ((y * Width) + x)], Bytes[(3 * ((y * Width) + x)) + 1], Bytes[(3 * ((y * Width) + x)) + 2]);

    public static Pixels Of(Image image)
    {
        Assert.Equal(3, image.Bands);
        Assert.Equal(Enums.BandFormat.Uchar, image.Format);
        return new Pixels(image.Width, image.Height, image.WriteToMemory<byte>());
    }

    /// <summary>Mean of the differences of all samples.</summary>
    public double DistanceTo(Pixels other)
    {
        Assert.Equal((Width, Height), (other.Width, other.Height));
        return Bytes.Zip(other.Bytes, (a, b) => (double)Math.Abs(a - b)).Average();
    }
}
