namespace Archive.LabelRecognition.Pictures;

/// <summary>A picture in memory: rows of 8 bit red, green and blue.</summary>
public sealed class RgbImage
{
    /// <summary>Bytes a pixel.</summary>
    public const int Bands = 3;

    /// <summary>Takes pixels in, without a copy.</summary>
    /// <param name="width">Pixels.</param>
    /// <param name="height">Pixels.</param>
    /// <param name="pixels">Row by row, three bytes a pixel.</param>
    public RgbImage(int width, int height, byte[] pixels)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(width);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(height);
        if (pixels.LongLength != (long)width * height * Bands) throw new ArgumentException("not three bytes a pixel", nameof(pixels));
        (Width, Height, Pixels) = (width, height, pixels);
    }

    /// <summary>Pixels in a row.</summary>
    public int Width { get; }

    /// <summary>Number of rows.</summary>
    public int Height { get; }

    internal byte[] Pixels { get; }

    /// <summary>A part of the picture, copied.</summary>
    /// <param name="left">First column.</param>
    /// <param name="top">First row.</param>
    /// <param name="width">Pixels; the part is wholly within the picture.</param>
    /// <param name="height">Pixels.</param>
    public RgbImage Part(int left, int top, int width, int height)
    {
        var part = new byte[width * height * Bands];
        for (var y = 0; y < height; y++)
            Pixels.AsSpan((((top + y) * Width) + left) * Bands, width * Bands).CopyTo(part.AsSpan(y * width * Bands));
        return new RgbImage(width, height, part);
    }

    /// <summary>A pixel without its colour, 0 to 255: the plain mean of its bands evens out the most noise.</summary>
    internal float Grey(int x, int y)
    {
        var at = ((y * Width) + x) * Bands;
        return (Pixels[at] + Pixels[at + 1] + Pixels[at + 2]) / 3f;
    }

    /// <summary>The mean of a part of the picture, of one band.</summary>
    internal float Mean(int left, int top, int right, int bottom, int band)
    {
        var sum = 0;
        for (var y = top; y < bottom; y++)
        {
            for (var x = left; x < right; x++) sum += Pixels[(((y * Width) + x) * Bands) + band];
        }

        return sum / (float)((right - left) * (bottom - top));
    }

    /// <summary>Between pixels the mean of four by their distance; beyond the edge that of the edge.</summary>
    /// <param name="x">From the left edge; 0.5 is the middle of the first pixel.</param>
    /// <param name="y">From the upper edge.</param>
    internal float SampleGrey(double x, double y)
    {
        x = Math.Clamp(x - 0.5, 0, Width - 1);
        y = Math.Clamp(y - 0.5, 0, Height - 1);
        var (left, top) = ((int)x, (int)y);
        var (right, bottom) = (Math.Min(left + 1, Width - 1), Math.Min(top + 1, Height - 1));
        var (dx, dy) = ((float)(x - left), (float)(y - top));
        return (((Grey(left, top) * (1 - dx)) + (Grey(right, top) * dx)) * (1 - dy))
            + (((Grey(left, bottom) * (1 - dx)) + (Grey(right, bottom) * dx)) * dy);
    }
}
