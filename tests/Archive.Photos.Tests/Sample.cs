using NetVips;

namespace Archive.Photos.Tests;

/// <summary>Small pictures of every kind that is taken, with notes of a camera and of programs.</summary>
public static class Sample
{
    /// <summary>A picture's bytes.</summary>
    /// <param name="kind">Of what pixels: <c>colour</c>, <c>grey</c>, <c>inks</c>, <c>clear</c>, <c>deep</c>, <c>float</c>, or three of
    /// them, <c>film</c>.</param>
    /// <param name="format">The format, with options, such as <c>.jpg[interlace]</c>.</param>
    /// <param name="orientation">How it lies, as EXIF numbers it.</param>
    public static byte[] Noted(string kind, string format, int orientation)
    {
        using var noise = Picture.Noise(120, 90);
        using var image = kind switch
        {
            "grey" => noise.Colourspace(Enums.Interpretation.Bw),
            "inks" => noise.Bandjoin(255).Copy(interpretation: Enums.Interpretation.Cmyk),
            "clear" => noise.Bandjoin(noise[0]),
            "deep" => noise.Colourspace(Enums.Interpretation.Rgb16),
            "float" => noise.Colourspace(Enums.Interpretation.Scrgb),
            _ => noise.Copy(),
        };
        using var noted = image.Mutate(picture =>
        {
            picture.Set(GValue.GStrType, "exif-ifd0-Make", "Kodiak");
            picture.Set(GValue.GStrType, "exif-ifd2-DateTimeOriginal", "2026:05:12 10:42:07");
            picture.Set(GValue.GStrType, "exif-ifd2-BodySerialNumber", "SERIAL-0815");
            picture.Set(GValue.GStrType, "exif-ifd3-GPSLatitude", "51/1 28/1 0/1");
            picture.Set(GValue.BlobType, "xmp-data", "<x:xmpmeta xmlns:x='adobe:ns:meta/'>secret comment</x:xmpmeta>"u8.ToArray());
            picture.Set(
                GValue.BlobType,
                "iptc-data",
                (byte[])[.. "Photoshop 3.0\0"u8, .. "8BIM"u8, 4, 4, 0, 0, 0, 0, 0, 12, 0x1C, 2, 90, 0, 7, .. "Nowhere"u8]);
            if (kind is "colour" or "deep") picture.Set(
                GValue.BlobType,
                "icc-profile-data",
                File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "Profiles", "compatibleWithAdobeRGB1998.icc")));
            picture.Set(GValue.GIntType, "orientation", orientation);
            if (kind == "film") picture.Set(GValue.GIntType, "page-height", 30);
        });
        return noted.WriteToBuffer(format);
    }
}
