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
    private const int Quality = 77;

    /// <summary>Writes the JPEG and returns its SHA-256 in lower-case hexadecimal.</summary>
    public static string Develop(Sheet sheet, Shot shot, string path)
    {
        using var drawn = Image.SvgloadBuffer(Encoding.UTF8.GetBytes(sheet.ToSvg()));
        using var flat = drawn.HasAlpha() ? drawn.Flatten([241, 236, 224]) : drawn.Copy();
        using var exposed = Exposed(flat, shot);
        using var title = Image.SvgloadBuffer(Encoding.UTF8.GetBytes(sheet.TitleSvg()));
        using var titled = exposed.Composite2(title, Enums.BlendMode.Over);
        using var grained = titled.Flatten().Cast(Enums.BandFormat.Uchar);
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

    /// <summary>What a lens and a sensor make of a scene: glare about what is bright, softness away from where it was focused, uneven light, grain.</summary>
    private static Image Exposed(Image flat, Shot shot)
    {
        var chance = Chance.For(shot.Id);
        var (seed, small) = ((int)chance.Between(1, 1e6), Math.Max(flat.Width, flat.Height) <= 2000);
        using var wide = flat.Resize(0.125).Gaussblur(9).Resize(8).Crop(0, 0, flat.Width, flat.Height);
        // Some of the light of each place is scattered over its neighbourhood.
        using var glare = (flat * 0.9) + (wide * 0.13);
        using var focused = shot.Shaken ? glare.Conv(Shake()) : shot.View is "label" or "detail" && !shot.Redacted ? Shallow(glare) : glare.Gaussblur(small ? 0.5 : 0.7);
        // Old tubes and old paint: nothing is evenly lit.
        using var mottle = (Image.Perlin((flat.Width / 8) + 1, (flat.Height / 8) + 1, cellSize: 90, seed: seed).Resize(8).Crop(0, 0, flat.Width, flat.Height) * 0.035) + chance.Between(0.95, 1.04);
        using var uneven = focused * mottle;
        using var balanced = uneven.Linear([chance.Between(1.08, 1.13), 1.10, chance.Between(1.05, 1.10)], [-17, -17, -14]);
        using var grain = Image.Gaussnoise(flat.Width, flat.Height, sigma: shot.Shaken ? 1.2 : small ? 5.5 : 4, mean: 0, seed: seed).Gaussblur(0.6);
        using var sum = balanced + grain;
        return sum.Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb);
    }

    /// <summary>Sharp in the middle, soft towards the corners, as near to a lens as these were taken.</summary>
    private static Image Shallow(Image image)
    {
        using var soft = image.Gaussblur(5);
        using var place = Image.Xyz(image.Width, image.Height);
        using var x = ((place[0] / image.Width) - 0.5) * 1.7;
        using var y = ((place[1] / image.Height) - 0.58) * 1.9;
        using var off = ((x * x) + (y * y)) - 0.32;
        using var share = (off * 2.2).Cast(Enums.BandFormat.Float);
        using var low = (share < 0).Ifthenelse(0, share);
        using var clamped = (low > 1).Ifthenelse(1, low);
        return image + ((soft - image) * clamped);
    }

    /// <summary>A hand that was not still.</summary>
    private static Image Shake()
    {
        using var line = Image.Black(23, 23) + 0;
        using var drawn = line.Mutate(image => image.DrawLine([1], 1, 4, 21, 18));
        return drawn.Gaussblur(2.2).Mutate(image => image.Set(GValue.GDoubleType, "scale", drawn.Avg() * 23 * 23));
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
