using System.Diagnostics;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using NetVips;
using Xunit;
using ZXing;
using ZXing.QrCode.Internal;

namespace Archive.Photos.Tests;

/// <summary>
/// QR codes in photos, beside zbar (Debian: zbar-tools), an independent reader: what it reads, we read alike; two of these are too grainy
/// or too dim for it.
/// </summary>
public sealed class QrCodeTests : Studio
{
    private const string Address = "https://archive.example/marrow-point/frames/R2-05/";

    private static bool HasZbar { get; } = (Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(Path.PathSeparator)
        .Any(folder => File.Exists(Path.Combine(folder, "zbarimg")));

    [Theory]
    [InlineData("straight", 0.3, 0, 0, 1.0), InlineData(
        "small", 0.12, 0, 0, 1.0), InlineData("turned", 0.3, 17, 0, 1.0), InlineData("on its side", 0.3, 90, 0, 1.0)]
    [InlineData("grainy", 0.3, 5, 14, 1.0), InlineData("dim", 0.25, -8, 6, 0.25), InlineData("upside down", 0.2, 180, 4, 0.8)]
    public void A_label_is_read_as_zbar_reads_it(string name, double part, double angle, double grain, double light)
    {
        var file = Label(name.Replace(' ', '-') + ".jpg", part, angle, grain, light);
        Assert.Equal([Address], Scan(file).Codes);
        Assert.SkipUnless(HasZbar, "zbarimg is not installed");
        Assert.Equal(grain > 4 ? "" : Address, Zbar(PathOf(file)));
    }

    [Fact]
    public void A_photo_without_a_label_has_no_code()
    {
        using var scene = Picture.Scene(1800, 1200);
        Assert.Empty(Scan(Save(scene, "a.jpg")).Codes);
        using var noise = Image.Gaussnoise(900, 700, sigma: 80, mean: 128).Cast(Enums.BandFormat.Uchar);
        Assert.Empty(Scan(Save(noise, "noise.png")).Codes);
        using var speck = Picture.Flat(1, 1, 0, 0, 0);
        Assert.Empty(Scan(Save(speck, "speck.png")).Codes);
    }

    [Fact]
    public void Two_labels_in_one_photo_are_both_read()
    {
        using var one = Code(Address, 8);
        using var other = Code("R2-06", 8);
        using var ground = Picture.Flat(1600, 900, 200, 200, 200);
        using var first = ground.Insert(one, 100, 200);
        using var both = first.Insert(other, 1000, 300);
        Assert.Equal(["R2-06", Address], Scan(Save(both, "two.jpg")).Codes);
    }

    [Fact]
    public void A_damaged_photo_is_told_and_a_known_one_not_decoded_again()
    {
        var file = Label("a.jpg", 0.3, 0, 0, 1);
        File.SetLastWriteTimeUtc(PathOf(file), DateTime.UtcNow.AddHours(-1));
        var bytes = File.ReadAllBytes(PathOf(file));
        Write("cut.jpg", bytes.AsSpan(0, bytes.Length / 2));
        var tally = new Tally();
        var outcomes = new PhotoProcessor(
            CacheFolder).ScanAll([Source(file), Source("cut.jpg")], tally, TestContext.Current.CancellationToken);
        Assert.IsType<ScannedPhoto>(outcomes[0]);
        Assert.Equal(PhotoError.Unreadable, Assert.IsType<UnusablePhoto>(outcomes[1]).Fault);
        var again = new Tally();
        Assert.Equal(outcomes[0], new PhotoProcessor(CacheFolder).ScanAll([Source(file)], again, TestContext.Current.CancellationToken)[0]);
        Assert.Equal((1, 0), (tally.Decoded, again.Decoded));
    }

    private ScannedPhoto Scan(string name) =>
        Assert.IsType<ScannedPhoto>(
            new PhotoProcessor(CacheFolder).ScanAll([Source(name)], null, TestContext.Current.CancellationToken)[0]);

    /// <summary>A label on a grey door, as large a part of the picture's height as said, turned, grainy, dim.</summary>
    private string Label(string name, double part, double angle, double grain, double light)
    {
        using var code = Code(Address, 12);
        using var turned = code.Similarity(scale: 2000 * part / code.Height, angle: angle, background: [190, 190, 190]);
        using var ground = Picture.Flat(3000, 2000, 190, 190, 190);
        using var hung = ground.Insert(turned.Cast(Enums.BandFormat.Uchar), 1100, 700);
        using var noise = Image.Gaussnoise(3000, 2000, sigma: grain, mean: 0, seed: 5);
        using var seen = ((hung * light) + noise).Cast(Enums.BandFormat.Uchar);
        using var plain = seen.Copy(interpretation: Enums.Interpretation.Srgb);
        return Save(plain, name, "[Q=88]");
    }

    private static Image Code(string text, int module)
    {
        var matrix = new ZXing.QrCode.QRCodeWriter().encode(text, BarcodeFormat.QR_CODE, 0, 0, new Dictionary<EncodeHintType, object>
        {
            [EncodeHintType.ERROR_CORRECTION] = ErrorCorrectionLevel.M,
            [EncodeHintType.MARGIN] = 4
        });
        var side = matrix.Width * module;
        var pixels = new byte[side * side * 3];
        for (var i = 0; i < side * side; i++) Array.Fill(pixels, (byte)(matrix[i % side / module, i / side / module] ? 20 : 245), 3 * i, 3);
        return Picture.OfPixels(pixels, side, side);
    }

    private static string Zbar(string path)
    {
        using var process = Process.Start(
            new ProcessStartInfo("zbarimg", ["-q", "--raw", "-Sdisable", "-Sqrcode.enable", path]) { RedirectStandardOutput = true })!;
        var said = process.StandardOutput.ReadToEnd().Trim();
        process.WaitForExit();
        return said;
    }
}
