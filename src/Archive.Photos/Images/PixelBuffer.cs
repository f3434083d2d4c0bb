using System.Runtime.InteropServices;
using NetVips;

namespace Archive.Photos.Images;

/// <summary>A picture held in memory as rows of 8 bit red, green and blue: what is hidden is painted over in place, and levels, tiles and
/// prints are cut from it.</summary>
/// <remarks>
/// The memory is native and given back when it is disposed of: a picture of 50 megapixels is 150 MB, for which no collector should be
/// waited.
/// </remarks>
internal sealed unsafe class PixelBuffer : IDisposable
{
    /// <summary>Bytes a pixel.</summary>
    public const int Bands = 3;

    // Rows read at once where a picture is turned while it is read: so few that the processor keeps the places of all of them at hand.
    private const int StripRows = 32;

    private readonly Image _view;
    private readonly bool _isLibrarys;
    private byte* _pixels;

    private PixelBuffer(byte* pixels, int width, int height, bool isLibrarys)
    {
        _pixels = pixels;
        (Width, Height, _isLibrarys) = (width, height, isLibrarys);
        using var plain = Image.NewFromMemory(
            (IntPtr)pixels, (ulong)((long)width * height * Bands), width, height, Bands, Enums.BandFormat.Uchar);
        _view = plain.Copy(interpretation: Enums.Interpretation.Srgb);
    }

    /// <summary>Width in pixels.</summary>
    public int Width { get; }

    /// <summary>Height in pixels.</summary>
    public int Height { get; }

    /// <summary>The picture for the library, without a copy; not to be used after <see cref="Dispose"/>.</summary>
    public Image View => _view;

    /// <summary>A row's pixels.</summary>
    /// <param name="y">The row, from 0.</param>
    public Span<byte> Row(int y)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)y, (uint)Height, nameof(y));
        return new Span<byte>(_pixels + ((long)y * Width * Bands), Width * Bands);
    }

    /// <summary>Takes a picture in, read once from top to bottom, and sets it upright on the way.</summary>
    /// <param name="image">Three bands of 8 bit.</param>
    /// <param name="turn">How it lies.</param>
    /// <exception cref="VipsException">It can't be decoded.</exception>
    public static PixelBuffer From(Image image, OrientationTransform turn = default)
    {
        if (turn == default) return new PixelBuffer((byte*)image.WriteToMemory(out _), image.Width, image.Height, isLibrarys: true);
        var (width, height) = turn.Swap ? (image.Height, image.Width) : (image.Width, image.Height);
        var plate = new PixelBuffer((byte*)NativeMemory.Alloc((nuint)((long)width * height * Bands)), width, height, isLibrarys: false);
        try
        {
            // One region for all strips: a file whose own strips end elsewhere is read on where the last one ended.
            using var region = Region.New(image);
            for (var top = 0; top < image.Height; top += StripRows)
            {
                var rows = Math.Min(StripRows, image.Height - top);
                fixed (byte* strip = region.Fetch(0, top, image.Width, rows)) plate.Scatter(strip, image.Width, top, rows, turn);
            }

            return plate;
        }
        catch
        {
            plate.Dispose();
            throw;
        }
    }

    /// <summary>The picture at half its size, each pixel the mean of four; an odd last row or column counts double.</summary>
    public PixelBuffer Half()
    {
        using var half = _view.Shrink(2, 2, ceil: true);
        return From(half);
    }

    /// <summary>The picture at another size.</summary>
    /// <param name="width">Its width, pixels.</param>
    /// <param name="height">Its height, pixels.</param>
    public PixelBuffer Resized(int width, int height)
    {
        using var resized = _view.Resize((double)width / Width, vscale: (double)height / Height);
        return From(resized);
    }

    /// <summary>Paints boxes black.</summary>
    /// <param name="boxes">Parts of the picture.</param>
    public void Redact(IEnumerable<FractionBox> boxes)
    {
        foreach (var box in boxes.Select(part => part.On(Width, Height)))
        {
            for (var y = box.Top; y < box.Top + box.Height; y++) Row(y).Slice(box.Left * Bands, box.Width * Bands).Clear();
        }
    }

    /// <summary>Lays a small picture over a part of this one.</summary>
    /// <param name="small">Three bands of 8 bit; wholly within.</param>
    /// <param name="left">Its first column.</param>
    /// <param name="top">Its first row.</param>
    public void Overlay(Image small, int left, int top)
    {
        var pixels = small.WriteToMemory<byte>();
        var row = small.Width * Bands;
        for (var y = 0; y < small.Height; y++) pixels.AsSpan(y * row, row).CopyTo(Row(top + y)[(left * Bands)..]);
    }

    public void Dispose()
    {
        if (_pixels is null) return;
        _view.Dispose();
        if (_isLibrarys) NetVips.NetVips.Free((IntPtr)_pixels);
        else NativeMemory.Free(_pixels);
        _pixels = null;
    }

    // Each stored row goes where its pixels lie when upright: to a row, or to a column.
    private void Scatter(byte* strip, int storedWidth, int firstRow, int rows, OrientationTransform turn)
    {
        var storedHeight = turn.Swap ? Width : Height;
        long pitch = (long)Width * Bands;
        var (alongX, alongY) = turn.Swap ? (pitch, (long)Bands) : (Bands, pitch);
        var origin = _pixels;
        if (turn.FlipX)
        {
            origin += alongX * (storedWidth - 1);
            alongX = -alongX;
        }

        if (turn.FlipY)
        {
            origin += alongY * (storedHeight - 1);
            alongY = -alongY;
        }

        if (turn.Swap) ScatterColumns(strip, storedWidth, rows, origin + (alongY * firstRow), alongX, alongY);
        else ScatterRows(strip, storedWidth, rows, origin + (alongY * firstRow), alongX, alongY);
    }

    private static void ScatterRows(byte* strip, int width, int rows, byte* to, long alongX, long alongY)
    {
        for (var y = 0; y < rows; y++, to += alongY)
        {
            var target = to;
            for (var x = 0; x < width; x++, strip += Bands, target += alongX)
                (target[0], target[1], target[2]) = (strip[0], strip[1], strip[2]);
        }
    }

    // Column by column, so that what is written lies side by side.
    private static void ScatterColumns(byte* strip, int width, int rows, byte* to, long alongX, long alongY)
    {
        var pitch = width * Bands;
        for (var x = 0; x < width; x++, to += alongX)
        {
            var from = strip + (x * Bands);
            var target = to;
            for (var y = 0; y < rows; y++, from += pitch, target += alongY) (target[0], target[1], target[2]) = (from[0], from[1], from[2]);
        }
    }
}
