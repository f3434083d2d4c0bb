using Archive.Photos.Images;
using NetVips;

namespace Archive.Photos.Processing;

/// <summary>Cuts a line of print out of an original and turns it upright, for a person to compare with what was read.</summary>
public static class LineCutout
{
    private const int Widest = 1200;

    // Where the rectangle around a line says little about its height: 45° and what is near it, by the cosine of twice the angle.
    private const double LeastTold = 0.3;

    /// <summary>Cuts it out.</summary>
    /// <param name="path">Full path of the original.</param>
    /// <param name="box">The upright rectangle around the line.</param>
    /// <param name="degrees">Which way it runs, clockwise from the picture's rows.</param>
    /// <returns>A JPEG with the line in its middle and about half its height around it; null where the original cannot be used.</returns>
    public static byte[]? Jpeg(string path, FractionBox box, double degrees)
    {
        try
        {
            using var picture = ImageReader.Decode(path, ImageReader.Read(path));
            return Cut(picture.View, box, degrees);
        }
        catch (Exception exception) when (exception is UnusablePhotoException or VipsException)
        {
            return null;
        }
    }

    private static byte[] Cut(Image picture, FractionBox box, double degrees)
    {
        using var scope = new ImageScope();
        var (across, down) = (box.Width * picture.Width, box.Height * picture.Height);
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        (sin, cos) = (Math.Abs(sin), Math.Abs(cos));
        var told = (cos * cos) - (sin * sin);
        var height = Math.Abs(told) < LeastTold ? Math.Min(across, down) / 4 : ((down * cos) - (across * sin)) / told;
        height = Math.Clamp(height, 4, Math.Max(4, Math.Min(across, down)));
        var length = Math.Abs(told) < LeastTold ? (across + down) / (sin + cos) : ((across * cos) - (down * sin)) / told;
        var margin = height;
        var left = (int)Math.Clamp((box.Left * picture.Width) - margin, 0, picture.Width - 1);
        var top = (int)Math.Clamp((box.Top * picture.Height) - margin, 0, picture.Height - 1);
        var right = (int)Math.Clamp(((box.Left + box.Width) * picture.Width) + margin, left + 1, picture.Width);
        var bottom = (int)Math.Clamp(((box.Top + box.Height) * picture.Height) + margin, top + 1, picture.Height);
        var part = scope.Track(picture.Crop(left, top, right - left, bottom - top));
        var turned = degrees == 0 ? part : scope.Track(part.Similarity(angle: -degrees, background: [128, 128, 128]));
        var (width, rows) = (
            (int)Math.Clamp(length + (2 * margin), 1, turned.Width), (int)Math.Clamp(2 * height, 1, turned.Height));
        var line = scope.Track(turned.Crop((turned.Width - width) / 2, (turned.Height - rows) / 2, width, rows));
        return ImageEncoder.Print(width > Widest ? scope.Track(line.Resize((double)Widest / width)) : line);
    }
}
