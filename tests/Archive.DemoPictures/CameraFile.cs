using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using NetVips;

namespace Archive.DemoPictures;

/// <summary>
/// Makes a camera's file of a print: turned as the camera was held, with the time, the place and the serial number that a
/// camera leaves behind, so that the product has something to turn upright and something to strip.
/// </summary>
internal static class CameraFile
{
    private const int Quality = 77;

    /// <summary>Writes the JPEG and returns its SHA-256 in lower-case hexadecimal.</summary>
    public static string Develop(Image print, Shot shot, string path)
    {
        using var stamp = Image.SvgloadBuffer(Encoding.UTF8.GetBytes(Stamp(print.Width, print.Height, shot)));
        using var stamped = print.Composite2(stamp, Enums.BlendMode.Over);
        using var flat = stamped.Flatten().Cast(Enums.BandFormat.Uchar);
        var orientation = Held(print, shot);
        using var turned = orientation switch { 6 => flat.Rot270(), 8 => flat.Rot90(), 3 => flat.Rot180(), _ => flat.Copy() };
        using var marked = turned.Mutate(image => Mark(image, shot, orientation));
        var bytes = marked.JpegsaveBuffer(q: Quality, optimizeCoding: true, subsampleMode: Enums.ForeignSubsample.On);
        File.WriteAllBytes(path, bytes);
        return Convert.ToHexStringLower(SHA256.HashData(bytes));
    }

    /// <summary>
    /// EXIF orientation: upright pictures were taken with the camera turned, those over a tray at arm's length upside down.
    /// </summary>
    private static int Held(Image print, Shot shot)
    {
        if (print.Height > print.Width) return shot.By == "dm" ? 6 : 8;
        return shot.View == "above" && shot.By == "it" ? 3 : 1;
    }

    /// <summary>What a camera of its time burns into a corner; here the photo's id, and that it is a rendering.</summary>
    private static string Stamp(int width, int height, Shot shot)
    {
        var capital = Math.Max(width, height) / 125.0;
        var text = $"{shot.Id} rendering";
        var left = width - StrokeFont.Width(text, capital) - (capital * 1.6);
        var strokes = new StringBuilder();
        foreach (var stroke in StrokeFont.Line(text, capital)) strokes.Append('M').AppendJoin(
            'L', stroke.Select(p => string.Create(CultureInfo.InvariantCulture, $"{left + p.X:0.#} {height - (capital * 1.6) - p.Y:0.#}")));
        return string.Create(CultureInfo.InvariantCulture, $"""
            <svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" fill="none" stroke-linejoin="round" stroke-linecap="round">
            <path d="{strokes}" stroke="#1a1008" stroke-opacity="0.5" stroke-width="{capital * 0.26:0.##}"/><path d="{strokes}" stroke="#f0a64e" stroke-width="{capital * 0.13:0.##}"/></svg>
            """);
    }

    private static void Mark(MutableImage image, Shot shot, int orientation)
    {
        var time = DateTime.Parse(shot.Taken, CultureInfo.InvariantCulture).ToString("yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture);
        foreach (var (field, value) in new[]
        {
            ("exif-ifd0-Make", "Rendering, not a photograph"),
            ("exif-ifd0-Model", "Survey camera 2"),
            ("exif-ifd0-Artist", shot.By),
            ("exif-ifd0-DateTime", time),
            ("exif-ifd2-DateTimeOriginal", time),
            ("exif-ifd2-BodySerialNumber", "SC2-004417"),
            // Open water, forty miles from any land.
            ("exif-ifd3-GPSLatitudeRef", "N"),
            ("exif-ifd3-GPSLatitude", "49/1 30/1 0/1"),
            ("exif-ifd3-GPSLongitudeRef", "W"),
            ("exif-ifd3-GPSLongitude", "12/1 0/1 0/1"),
        })
        {
            image.Set(GValue.GStrType, field, value);
        }

        image.Set(GValue.GIntType, "orientation", orientation);
        image.Set(GValue.GStrType, "exif-ifd0-Orientation", orientation.ToString(CultureInfo.InvariantCulture));
    }
}
