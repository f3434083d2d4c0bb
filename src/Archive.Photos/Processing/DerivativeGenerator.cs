using Archive.Photos.Images;
using Archive.Photos.Measures;
using NetVips;

namespace Archive.Photos.Processing;

/// <summary>
/// Makes every derivative of a photo from one decode. The original comes into memory upright and in sRGB; what must be hidden is painted
/// over there, before anything is made of it, and once more at each smaller size, whose edges would else be grey. Level by level the
/// picture is cut into tiles and halved; the widest print comes from the smallest level that holds all its pixels, the others from the
/// widest.
/// </summary>
internal sealed class DerivativeGenerator
{
    // As wide as a slide or a page needs; who needs more opens the picture at full size.
    private const int WidestToPassOn = 1280;

    private readonly PhotoRecipe _recipe;
    private readonly TilePyramid _pyramid;
    private readonly RightsWriter _rights;
    private readonly string _line;
    private readonly Action<Rendition> _keep;
    private readonly bool _isLight;
    private readonly HashSet<string> _made = new(StringComparer.Ordinal);

    private DerivativeGenerator(PhotoHeader reading, PhotoRecipe recipe, Action<Rendition> keep)
    {
        (_recipe, _keep) = (recipe, keep);
        _pyramid = new TilePyramid(reading.Width, reading.Height);
        _rights = new RightsWriter(recipe.Rights);
        _line = CreditText.Line(recipe.Watermark);

        // A browser that takes WebP takes the best of what there is as WebP: all widths, or none.
        var widest = recipe.Widths
            .Where(width => Math.Min(width, reading.Width) <= ImageEncoder.WidestLight)
            .Select(width => HeightAt(reading.Width, reading.Height, Math.Min(width, reading.Width)))
            .DefaultIfEmpty(0)
            .Max();
        _isLight = widest <= ImageEncoder.TallestLight;
    }

    /// <summary>Makes the derivatives.</summary>
    /// <param name="path">Full path of the original.</param>
    /// <param name="recipe">How they are made.</param>
    /// <param name="keep">Takes each as it is done: prints widest first, then tiles, finest first.</param>
    /// <returns>What was measured of it.</returns>
    /// <exception cref="UnusablePhotoException">The pixels can't be decoded.</exception>
    public static PhotoMeasures Enlarge(string path, PhotoHeader reading, PhotoRecipe recipe, Action<Rendition> keep)
    {
        using var whole = ImageReader.Decode(path, reading);
        var measures = PhotoMeasures.Compute(whole);
        whole.Redact(recipe.Redactions);
        new DerivativeGenerator(reading, recipe, keep).EnlargeAll(whole);
        return measures;
    }

    private void EnlargeAll(PixelBuffer whole)
    {
        var levels = new List<PixelBuffer> { whole };
        try
        {
            foreach (var _ in _pyramid.ScaleFactors.Skip(1)) levels.Add(Hidden(levels[^1].Half()));
            MakePrints(levels);
            foreach (var (level, scale) in levels.Zip(_pyramid.ScaleFactors)) MakeTiles(level, scale);
        }
        finally
        {
            foreach (var level in levels.Skip(1)) level.Dispose();
        }
    }

    private void MakePrints(List<PixelBuffer> levels)
    {
        var whole = levels[0];
        var widths = _recipe.Widths.Select(width => Math.Min(width, whole.Width)).Distinct().ToArray();
        var passedOn = widths.Where(width => width <= WidestToPassOn).DefaultIfEmpty(widths[^1]).Max();
        var nearest = levels.Last(level => level.Width >= widths[0]);
        using var smaller = nearest.Width == widths[0] ? null : Sized(nearest, widths[0]);
        var widest = smaller ?? nearest;
        foreach (var width in widths.Skip(1))
        {
            using var print = Sized(widest, width);
            MakePrint(print, TilePyramid.PathOfWhole(print.Width, print.Height, "jpg"));
            if (width == passedOn) MakeCopyToPassOn(print);
        }

        MakePrint(widest, TilePyramid.PathOfLargest);
        if (widest.Width == passedOn) MakeCopyToPassOn(widest);

        PixelBuffer Sized(PixelBuffer from, int width) =>
            Hidden(from.Resized(width, HeightAt(whole.Width, whole.Height, width)));
    }

    private void MakePrint(PixelBuffer print, string path)
    {
        Keep(DerivativeKind.Print, print.View, path, ImageEncoder.Print(print.View));
        if (_isLight && print.Width <= ImageEncoder.WidestLight)
        {
            Keep(
                DerivativeKind.LightPrint,
                print.View,
                TilePyramid.PathOfWhole(print.Width, print.Height, "webp"),
                ImageEncoder.LightPrint(print.View));
        }
    }

    // The line is on no other file: prints and tiles are parts of one picture, whose places regions, readings and IIIF viewers count.
    private void MakeCopyToPassOn(PixelBuffer print)
    {
        using var copy = CreditLine.Beneath(print.View, _line);
        if (copy is not null) Keep(DerivativeKind.Credited, copy, TilePyramid.PathOfCredited, ImageEncoder.Print(copy));
    }

    private void MakeTiles(PixelBuffer level, int scale)
    {
        foreach (var tile in _pyramid.TilesAt(scale))
        {
            if (_made.Contains(tile.Path)) continue;
            using var part = level.View.Crop(tile.Box.Left, tile.Box.Top, tile.Box.Width, tile.Box.Height);
            Keep(DerivativeKind.Tile, part, tile.Path, ImageEncoder.Tile(part));
        }
    }

    private void Keep(DerivativeKind kind, Image image, string path, byte[] content)
    {
        _made.Add(path);
        _keep(_rights.Put(new Rendition(kind, image.Width, image.Height, path, content)));
    }

    private static int HeightAt(int wholeWidth, int wholeHeight, int width) =>
        Math.Max(1, (int)Math.Round((double)wholeHeight * width / wholeWidth));

    private PixelBuffer Hidden(PixelBuffer pixels)
    {
        pixels.Redact(_recipe.Redactions);
        return pixels;
    }
}
