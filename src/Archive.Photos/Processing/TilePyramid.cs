using System.Collections.Immutable;
using System.Globalization;
using Archive.Photos.Images;

namespace Archive.Photos.Processing;

/// <summary>How a picture is cut into tiles at its full size and at halves of it, and what each tile is called.</summary>
/// <remarks>
/// The layout of the IIIF Image API 3.0 at level 0: anyone who knows a picture's size and this tile size knows the address of every tile,
/// so no server is needed. A tile at scale factor s covers s times its size of the picture, less at the right and lower edges.
/// </remarks>
/// <param name="Width">Width of the upright picture, pixels.</param>
/// <param name="Height">Height of the upright picture, pixels.</param>
/// <param name="TileSize">Side of a whole tile, pixels.</param>
public sealed record TilePyramid(int Width, int Height, int TileSize = TilePyramid.UsualTile)
{
    /// <summary>Side of a tile, 1,024 px: a photo of 24 megapixels has 33, where one of 512 px, as servers cut them, would have 129. All
    /// are files that are copied, hashed and kept for decades.</summary>
    public const int UsualTile = 1024;

    /// <summary>Whether there is anything to cut: of a picture that is no larger than its widest print, tiles would be the same pixels
    /// again.</summary>
    public bool IsCut => Math.Max(Width, Height) > Math.Max(TileSize, PhotoRecipe.WidestPrint);

    /// <summary>
    /// The scale factors, finest first: 1, 2, 4 and so on, until the picture fits in one tile; empty where it does at once.
    /// </summary>
    public ImmutableArray<int> ScaleFactors
    {
        get
        {
            if (!IsCut) return [];
            var factors = ImmutableArray.CreateBuilder<int>();
            var scale = 1;
            for (; Math.Max(Width, Height) > (long)TileSize * scale; scale *= 2) factors.Add(scale);
            factors.Add(scale);
            return factors.ToImmutable();
        }
    }

    /// <summary>The tiles of a level, row by row.</summary>
    /// <param name="scale">Its scale factor.</param>
    internal IEnumerable<Tile> TilesAt(int scale)
    {
        var step = TileSize * scale;
        for (var top = 0; top < Height; top += step)
        {
            for (var left = 0; left < Width; left += step)
            {
                var (width, height) = (Math.Min(step, Width - left), Math.Min(step, Height - top));
                var isWhole = width == Width && height == Height;
                var (across, down) = (Reduced(width, scale), Reduced(height, scale));
                var region = isWhole ? "full" : string.Create(CultureInfo.InvariantCulture, $"{left},{top},{width},{height}");
                yield return new Tile(new PixelBox(left / scale, top / scale, across, down), PathOf(region, across, down, "jpg"));
            }
        }
    }

    /// <summary>The whole picture in another size, as it is called.</summary>
    /// <param name="width">Width in pixels.</param>
    /// <param name="height">Height in pixels.</param>
    /// <param name="ending">How the name ends, such as <c>jpg</c>.</param>
    internal static string PathOfWhole(int width, int height, string ending) => PathOf("full", width, height, ending);

    /// <summary>The whole picture in the largest size there is, as it is called.</summary>
    internal const string PathOfLargest = "full/max/0/default.jpg";

    /// <summary>The copy to pass on, which is no picture of the pyramid: it is taller than they are.</summary>
    internal const string PathOfCredited = "credited.jpg";

    /// <summary>A length at a scale factor: rounded up, so that no pixel is lost.</summary>
    internal static int Reduced(int length, int scale) => (length + scale - 1) / scale;

    private static string PathOf(string region, int width, int height, string ending) =>
        string.Create(CultureInfo.InvariantCulture, $"{region}/{width},{height}/0/default.{ending}");
}

/// <summary>One tile.</summary>
/// <param name="Box">Where it lies in the picture at its level.</param>
/// <param name="Path">What it is called, below the picture's folder.</param>
internal readonly record struct Tile(PixelBox Box, string Path);
