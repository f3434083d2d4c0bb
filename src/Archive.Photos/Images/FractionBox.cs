namespace Archive.Photos.Images;

/// <summary>
/// A part of the upright picture, in fractions of its width and height: one that must not be shown, or one that must stay clear.
/// </summary>
/// <remarks>It may reach over the picture's edge; what hides it is burnt in rounded outward and with a margin.</remarks>
public readonly record struct FractionBox
{
    /// <param name="left">Left edge, 0 at the picture's left, 1 at its right.</param>
    /// <param name="top">Top edge, 0 at the picture's top, 1 at its bottom.</param>
    /// <param name="width">Width, above 0.</param>
    /// <param name="height">Height, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, or a side is not above 0: hiding nothing silently would
    /// publish it.</exception>
    public FractionBox(double left, double top, double width, double height)
    {
        if (!double.IsFinite(left)) throw new ArgumentOutOfRangeException(nameof(left));
        if (!double.IsFinite(top)) throw new ArgumentOutOfRangeException(nameof(top));
        if (!double.IsFinite(width) || width <= 0) throw new ArgumentOutOfRangeException(nameof(width));
        if (!double.IsFinite(height) || height <= 0) throw new ArgumentOutOfRangeException(nameof(height));
        (Left, Top, Width, Height) = (left, top, width, height);
    }

    /// <summary>Left edge, 0 at the picture's left, 1 at its right.</summary>
    public double Left { get; }

    /// <summary>Top edge, 0 at the picture's top, 1 at its bottom.</summary>
    public double Top { get; }

    public double Width { get; }

    public double Height { get; }

    /// <summary>The pixels it covers: rounded outward, widened by the margin, cut off at the picture's edges.</summary>
    /// <param name="width">The picture's width in pixels, in the same turn as the box.</param>
    /// <param name="height">The picture's height in pixels.</param>
    internal PixelBox On(int width, int height)
    {
        // 0.4 % of the longer side, at least 2 px (our choice): more than the 8 to 16 px blocks of JPEG smear at camera sizes,
        // and more than a careless hand is off when it draws the box.
        var margin = Math.Max(2, Math.Max(width, height) * 0.004);
        var left = (int)Math.Clamp(Math.Floor(Left * width - margin), 0, width - 1);
        var top = (int)Math.Clamp(Math.Floor(Top * height - margin), 0, height - 1);
        var right = (int)Math.Clamp(Math.Ceiling((Left + Width) * width + margin), left + 1, width);
        var bottom = (int)Math.Clamp(Math.Ceiling((Top + Height) * height + margin), top + 1, height);
        return new PixelBox(left, top, right - left, bottom - top);
    }
}

/// <summary>A rectangle of whole pixels.</summary>
/// <param name="Left">First column, from 0.</param>
/// <param name="Top">First row, from 0.</param>
/// <param name="Width">Columns, at least 1.</param>
/// <param name="Height">Rows, at least 1.</param>
internal readonly record struct PixelBox(int Left, int Top, int Width, int Height)
{
    /// <summary>How many pixels it shares with another.</summary>
    public long Shared(PixelBox other)
    {
        long across = Math.Min(Left + Width, other.Left + other.Width) - Math.Max(Left, other.Left);
        long down = Math.Min(Top + Height, other.Top + other.Height) - Math.Max(Top, other.Top);
        return across > 0 && down > 0 ? across * down : 0;
    }
}
