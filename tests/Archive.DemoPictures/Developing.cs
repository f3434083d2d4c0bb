using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using NetVips;

namespace Archive.DemoPictures;

/// <summary>
/// Makes a camera's file of a drawing: turned as the camera was held, with the time, the place and the serial number that a
/// camera leaves behind, so that the product has something to turn upright and something to strip.
/// </summary>
internal static class Developing
{
    private const int Quality = 80;

    /// <summary>Writes the JPEG and returns its SHA-256 in lower-case hexadecimal.</summary>
    public static string Develop(Sheet sheet, Shot shot, string path)
    {
        using var drawn = Image.SvgloadBuffer(Encoding.UTF8.GetBytes(sheet.ToSvg()));
        using var flat = drawn.HasAlpha() ? drawn.Flatten([241, 236, 224]) : drawn.Copy();
        using var grained = Grain(flat, shot);
        var orientation = Held(sheet, shot);
        using var turned = orientation switch { 6 => grained.Rot270(), 8 => grained.Rot90(), 3 => grained.Rot180(), _ => grained.Copy() };
        using var marked = turned.Mutate(image => Mark(image, shot, orientation));
        var bytes = marked.JpegsaveBuffer(q: Quality, optimizeCoding: true, subsampleMode: Enums.ForeignSubsample.On);
        File.WriteAllBytes(path, bytes);
        return Convert.ToHexStringLower(SHA256.HashData(bytes));
    }

    /// <summary>EXIF orientation: upright pictures were taken with the camera turned, those over a tray at arm's length upside down.</summary>
    private static int Held(Sheet sheet, Shot shot)
    {
        if (sheet.Height > sheet.Width) return shot.By == "dm" ? 6 : 8;
        return shot.View == "above" && shot.By == "it" ? 3 : 1;
    }

    /// <summary>The tooth of the paper.</summary>
    private static Image Grain(Image flat, Shot shot)
    {
        using var noise = Image.Gaussnoise(flat.Width, flat.Height, sigma: 5, mean: 0, seed: (int)Chance.For(shot.Id).Between(1, 1e6));
        using var soft = noise.Gaussblur(0.8);
        using var sum = flat + soft;
        return sum.Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb);
    }

    private static void Mark(MutableImage image, Shot shot, int orientation)
    {
        var time = DateTime.Parse(shot.Taken, CultureInfo.InvariantCulture).ToString("yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture);
        foreach (var (field, value) in new[]
        {
            ("exif-ifd0-Make", "Drawn stand-in"),
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
