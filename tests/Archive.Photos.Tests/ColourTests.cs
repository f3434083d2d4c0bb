using Archive.Photos.Caching;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

public sealed class ColourTests : Studio
{
    private const string AdobeRgb = "Profiles/compatibleWithAdobeRGB1998.icc";

    [Theory, InlineData(0, 0, 0), InlineData(255, 255, 255), InlineData(200, 64, 32), InlineData(10, 128, 188)]
    public void An_untagged_photo_keeps_its_values(int r, int g, int b)
    {
        using var image = Picture.Flat(64, 48, r, g, b);
        AssertColour((r, g, b), Develop(Save(image, "a.png")), 2);
        AssertColour((r, g, b), Develop(Save(image, "a.webp", "[lossless]")), 2);
        AssertColour((r, g, b), Develop(Save(image, "a.tif")), 2);
    }

    /// <summary>IEC 61966-2-1: linear light to encoded 8 bit values; pairs from the standard's formula.</summary>
    [Theory, InlineData(
        0.003035, 10), InlineData(0.051269, 64), InlineData(0.215861, 128), InlineData(0.502886, 188), InlineData(0.577580, 200)]
    public void Linear_light_becomes_the_standard_s_values(double linear, int encoded)
    {
        using var image = Picture.Flat(64, 48, 0, 0, 0);
        using var shifted = image.Linear([1.0], [linear]);
        using var light = shifted.Copy(interpretation: Enums.Interpretation.Scrgb);

        AssertColour((encoded, encoded, encoded), Develop(Save(light, "a.tif")), 2);
    }

    /// <summary>Adobe RGB (1998) and IEC 61966-2-1, with the matrices of both documents; colours that both can show.</summary>
    [Theory, InlineData(
        128, 128, 128), InlineData(150, 120, 100), InlineData(100, 140, 160), InlineData(220, 210, 190), InlineData(60, 70, 90)]
    public void A_profile_is_converted_as_the_standards_say(int r, int g, int b)
    {
        using var image = Picture.Flat(64, 48, r, g, b);
        using var tagged = image.Mutate(picture => picture.Set(GValue.BlobType, "icc-profile-data", File.ReadAllBytes(Beside(AdobeRgb))));
        var expected = AdobeToSrgb(r, g, b);

        AssertColour(expected, Develop(Save(tagged, "tagged.png")), 3);
        AssertColour(expected, Develop(Save(tagged, "tagged.jpg", "[Q=100,subsample-mode=off]")), 3);
    }

    /// <summary>DCF 2.0: cameras set to Adobe RGB say so by the interoperability index, without a profile.</summary>
    [Fact]
    public void A_camera_s_mark_for_Adobe_RGB_is_heeded()
    {
        Assert.SkipUnless(ExifTool.IsHere, "exiftool is not installed");
        using var image = Picture.Flat(64, 48, 100, 140, 160);
        Save(image, "dcf.jpg", "[Q=100,subsample-mode=off]");
        ExifTool.Write(PathOf("dcf.jpg"), "-InteropIndex=R03", "-ColorSpace=Uncalibrated");

        AssertColour(AdobeToSrgb(100, 140, 160), Develop("dcf.jpg"), 3);
    }

    [Fact]
    public void A_damaged_profile_says_nothing()
    {
        using var image = Picture.Flat(64, 48, 200, 100, 50);
        using var tagged = image.Mutate(picture => picture.Set(GValue.BlobType, "icc-profile-data", new byte[300]));
        AssertColour((200, 100, 50), Develop(Save(tagged, "a.jpg", "[Q=100,subsample-mode=off]")), 3);
    }

    /// <summary>A profile for inks on a picture in red, green and blue.</summary>
    [Fact]
    public void A_profile_for_other_pixels_says_nothing()
    {
        using var image = Picture.Flat(64, 48, 200, 100, 50);
        using var inks = image.IccTransform("cmyk", inputProfile: "srgb");
        using var tagged = image.Mutate(picture => picture.Set(GValue.BlobType, "icc-profile-data", (byte[])inks.Get("icc-profile-data")));
        AssertColour((200, 100, 50), Develop(Save(tagged, "a.jpg", "[Q=100,subsample-mode=off]")), 3);
    }

    /// <summary>To the inks of the same profile and back: what a picture in sRGB within their range must come to again.</summary>
    [Theory, InlineData("jpg", true), InlineData("tif", true), InlineData("jpg", false)]
    public void Four_inks_become_three_colours(string format, bool tagged)
    {
        using var image = Picture.Flat(64, 48, 150, 120, 100);
        using var inks = image.IccTransform("cmyk", inputProfile: "srgb", intent: Enums.Intent.Relative, blackPointCompensation: true);
        using var kept = tagged ? inks.Copy() : inks.Mutate(picture => picture.Remove("icc-profile-data"));
        AssertColour((150, 120, 100), Develop(Save(kept, "inks." + format)), 8);
    }

    [Fact]
    public void Paper_without_ink_is_white()
    {
        using var image = Picture.Flat(64, 48, 0, 0, 0, 0);
        using var inks = image.Copy(interpretation: Enums.Interpretation.Cmyk);
        AssertColour((255, 255, 255), Develop(Save(inks, "paper.tif")), 6);
    }

    [Theory, InlineData("png"), InlineData("tif")]
    public void Sixteen_bits_become_eight(string format)
    {
        using var image = Picture.Flat(64, 48, 200, 100, 50);
        using var wide = image.Linear([257.0], [0.0]).Cast(Enums.BandFormat.Ushort).Copy(interpretation: Enums.Interpretation.Rgb16);
        AssertColour((200, 100, 50), Develop(Save(wide, "wide." + format)), 2);
    }

    [Theory, InlineData("png"), InlineData("jpg"), InlineData("tif")]
    public void Grey_becomes_grey(string format)
    {
        using var image = Picture.Flat(64, 48, 120.0);
        AssertColour((120, 120, 120), Develop(Save(image, "grey." + format)), 2);
    }

    [Fact]
    public void Sixteen_bit_grey_becomes_grey()
    {
        using var image = Picture.Flat(64, 48, 120.0);
        using var wide = image.Linear([257.0], [0.0]).Cast(Enums.BandFormat.Ushort).Copy(interpretation: Enums.Interpretation.Grey16);
        AssertColour((120, 120, 120), Develop(Save(wide, "grey.png")), 2);
    }

    /// <summary>Half clear red on white paper, as a palette and as full colour, 8 and 16 bit.</summary>
    [Theory, InlineData("[palette]"), InlineData("")]
    public void Clear_parts_show_white_paper(string options)
    {
        using var image = Picture.Flat(64, 48, 255, 0, 0, 128);
        using var rgba = image.Copy(interpretation: Enums.Interpretation.Srgb);
        AssertColour((255, 127, 127), Develop(Save(rgba, "clear.png", options)), 3);

        using var gone = Picture.Flat(64, 48, 10, 20, 30, 0);
        using var clear = gone.Copy(interpretation: Enums.Interpretation.Srgb);
        AssertColour((255, 255, 255), Develop(Save(clear, "gone.png", options)), 2);

        using var wide = clear.Linear([257.0], [0.0]).Cast(Enums.BandFormat.Ushort).Copy(interpretation: Enums.Interpretation.Rgb16);
        AssertColour((255, 255, 255), Develop(Save(wide, "wide.png")), 2);
    }

    [Fact]
    public void Lab_becomes_srgb()
    {
        using var image = Picture.Flat(64, 48, 150, 120, 100);
        using var lab = image.Colourspace(Enums.Interpretation.Lab);
        AssertColour((150, 120, 100), Develop(Save(lab, "lab.tif")), 3);
    }

    private static void AssertColour((int R, int G, int B) expected, DevelopedPhoto photo, int within)
    {
        var print = Picture.Read(photo.Derivatives[0]);
        var (r, g, b) = print[print.Width / 2, print.Height / 2];
        Assert.True(Math.Abs(r - expected.R) <= within && Math.Abs(g - expected.G) <= within && Math.Abs(b - expected.B) <= within,
            $"expected {expected}, found {(r, g, b)}");
    }

    // Adobe RGB (1998) 4.3.4.1 and 4.3.4.2: gamma 2.19921875, to XYZ; IEC 61966-2-1: XYZ to linear sRGB, encoded. Both white points are
    // D65.
    private static (int R, int G, int B) AdobeToSrgb(int red, int green, int blue)
    {
        double Linear(int v) => Math.Pow(v / 255.0, 2.19921875);
        var (r, g, b) = (Linear(red), Linear(green), Linear(blue));
        var x = (0.57667 * r) + (0.18556 * g) + (0.18823 * b);
        var y = (0.29734 * r) + (0.62736 * g) + (0.07529 * b);
        var z = (0.02703 * r) + (0.07069 * g) + (0.99134 * b);
        static int Encoded(double v) => (int)Math.Round(255 * (v <= 0.0031308 ? 12.92 * v : (1.055 * Math.Pow(v, 1 / 2.4)) - 0.055));
        return (Encoded((3.2406 * x) - (1.5372 * y) - (0.4986 * z)), Encoded((-0.9689 * x) + (1.8758 * y) + (0.0415 * z)),
            Encoded((0.0557 * x) - (0.2040 * y) + (1.0570 * z)));
    }

    private static string Beside(string name) => Path.Combine(AppContext.BaseDirectory, name);
}
