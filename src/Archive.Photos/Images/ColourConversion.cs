using NetVips;

namespace Archive.Photos.Images;

/// <summary>Brings the colours of any original to 8 bit sRGB (IEC 61966-2-1). What has no profile is taken to be sRGB, as viewers take
/// it.</summary>
internal static class ColourConversion
{
    public const string Profile = "icc-profile-data";
    private const string Interoperability = "exif-ifd4-InteroperabilityIndex";

    private static readonly string AdobeRgb = Path.Combine(AppContext.BaseDirectory, "Profiles", "compatibleWithAdobeRGB1998.icc");

    /// <summary>Brings rare kinds of pixels to the plain ones, still streaming: one or three bands of 8 or 16 bit, without alpha.</summary>
    /// <exception cref="UnusablePhotoException">It has bands that are no colours.</exception>
    public static Image Plain(ImageScope scope, Image image)
    {
        var plain = image.Interpretation is Enums.Interpretation.Srgb or Enums.Interpretation.Rgb or Enums.Interpretation.Bw
            or Enums.Interpretation.Rgb16 or Enums.Interpretation.Grey16
                && image.Format is Enums.BandFormat.Uchar or Enums.BandFormat.Ushort;
        if (!plain) image = ToSrgb(scope, image);
        if (image.HasAlpha())
        {
            // Clear parts show the paper they would be printed on.
            var white = image.Format == Enums.BandFormat.Ushort ? ushort.MaxValue : byte.MaxValue;
            image = scope.Track(image.Flatten(background: [white], maxAlpha: white));
        }

        return image.Bands is 1 or 3 ? image
            : throw new UnusablePhotoException(PhotoError.Unreadable, $"has {image.Bands} bands, which is not a photo format");
    }

    /// <summary>Brings pixels to three bands of 8 bit sRGB, through the profile they carry.</summary>
    public static Image ToSrgb(ImageScope scope, Image image)
    {
        image = Profiled(scope, image);
        if (image.Interpretation != Enums.Interpretation.Srgb || image.Format != Enums.BandFormat.Uchar)
        {
            image = scope.Track(image.Colourspace(Enums.Interpretation.Srgb));
        }

        return image.Format == Enums.BandFormat.Uchar ? image : scope.Track(image.Cast(Enums.BandFormat.Uchar));
    }

    private static Image Profiled(ImageScope scope, Image image)
    {
        var fourInks = image.Interpretation == Enums.Interpretation.Cmyk;
        var carried = image.Contains(Profile);
        var stated = fourInks ? "cmyk" : IsAdobeRgb(image) ? AdobeRgb : null;
        if (!carried && stated is null) return image;
        try
        {
            if (carried && SaysNothingNew(image)) return scope.Track(image.Mutate(picture => picture.Remove(Profile)));
            var converted = scope.Track(image.IccTransform("srgb", embedded: carried, inputProfile: stated,
                intent: Enums.Intent.Relative, blackPointCompensation: true, depth: 8));
            return scope.Track(converted.Mutate(picture => picture.Remove(Profile)));
        }
        catch (VipsException) when (!fourInks)
        {
            // A profile that is damaged or meant for other pixels says nothing of these.
            return carried ? scope.Track(image.Mutate(picture => picture.Remove(Profile))) : image;
        }
    }

    // Many cameras embed the profile of sRGB itself. Converting 24 megapixels through it would cost 0.36 s and change nothing: it is tried
    // on a cube of 9 x 9 x 9 colours first, and left aside where none of them moves by more than a step.
    private static bool SaysNothingNew(Image image)
    {
        if (image.Bands != 3 || image.Format != Enums.BandFormat.Uchar) return false;
        using var profile = new ImageScope();
        var cube = profile.Track(Image.NewFromMemory(Cube, Cube.Length / 3, 1, 3, Enums.BandFormat.Uchar));
        var said = profile.Track(profile
            .Track(cube.Copy(interpretation: Enums.Interpretation.Srgb))
            .Mutate(picture => picture.Set(GValue.BlobType, Profile, (byte[])image.Get(Profile))));
        var moved = profile.Track(
            said.IccTransform("srgb", embedded: true, intent: Enums.Intent.Relative, blackPointCompensation: true, depth: 8));
        return moved.WriteToMemory<byte>().Zip(Cube).All(pair => Math.Abs(pair.First - pair.Second) <= 1);
    }

    private static readonly byte[] Cube =
        [.. Enumerable.Range(0, 729).SelectMany(i => new[] { i / 81, i / 9 % 9, i % 9 }).Select(step => (byte)Math.Min(255, step * 32))];

    // Cameras set to Adobe RGB usually have no profile: they say so by this mark (DCF 2.0, "R03" in the interoperability index of EXIF).
    private static bool IsAdobeRgb(Image image) => image.Bands == 3
        && image.Contains(Interoperability)
        && image.Get(Interoperability) is string index
        && index.StartsWith("R03", StringComparison.Ordinal);
}
