using System.Net;
using System.Runtime.InteropServices;
using Archive.Photos.Images;
using NetVips;

namespace Archive.Photos.Processing;

/// <summary>
/// Sets the credit line: light letters on a translucent dark strip in a corner, the bottom right one if it can be, readable on any ground.
/// </summary>
internal static class CreditLine
{
    /// <summary>No smaller letters are set, pixels: at 480 px a phone still shows them legibly.</summary>
    public const int SmallestLetters = 13;

    // What shows through the strip: on white it leaves 102 of 255, against which white letters have a contrast of 5.7 (WCAG 2.2 asks 4.5).
    private const double Through = 0.4;

    private static readonly double[] White = [255, 255, 255];

    private static readonly Lazy<bool> Font = new(ReadyFont);

    /// <summary>Where the font lies: beside the tool.</summary>
    public static string FontFile { get; } = Path.Combine(AppContext.BaseDirectory, "Fonts", "NotoSans-Regular.ttf");

    /// <summary>Sets a line on a picture, in the first corner where it covers none of what must stay clear, else where it covers least. A
    /// line too long for one row is broken; a picture that the strip would cover by more than a third carries none.</summary>
    /// <param name="pixels">The picture.</param>
    /// <param name="line">The line; every character stands for itself; empty for none.</param>
    /// <param name="clear">What must stay clear.</param>
    /// <exception cref="IOException">The font cannot be used.</exception>
    public static void Stamp(PixelBuffer pixels, string line, IEnumerable<FractionBox> clear)
    {
        if (line.Length == 0) return;
        _ = Font.Value;
        var letters = Math.Max(SmallestLetters, pixels.Width / 90);
        var pad = letters / 2;
        var room = pixels.Width - (2 * pad);
        if (room < letters) return;
        using var scope = new ImageScope();
        var mask = scope.Track(Set(line, letters, room));
        var (width, height) = (mask.Width + (2 * pad), mask.Height + (2 * pad));
        if (width > pixels.Width || height > pixels.Height / 3) return;

        // Only the strip is composed, not the whole picture.
        var strip = Corner(pixels, width, height, [.. clear.Select(box => box.On(pixels.Width, pixels.Height))]);
        var ground = scope.Track(pixels.View.Crop(strip.Left, strip.Top, width, height));
        var dark = scope.Track(scope.Track(ground * Through).Cast(Enums.BandFormat.Uchar));
        var ink = scope.Track(mask.Embed(pad, pad, width, height));
        pixels.Overlay(scope.Track(ink.Ifthenelse(White, dark, blend: true)), strip.Left, strip.Top);
    }

    private static PixelBox Corner(PixelBuffer pixels, int width, int height, PixelBox[] clear)
    {
        var (right, bottom) = (pixels.Width - width, pixels.Height - height);
        PixelBox[] corners =
        [
            new(right, bottom, width, height),
            new(0, bottom, width, height),
            new(right, 0, width, height),
            new(0, 0, width, height)
        ];
        return corners.MinBy(corner => clear.Sum(corner.Shared));
    }

    private static Image Set(string line, int letters, int? room) =>
        Image.Text(
            WebUtility.HtmlEncode(line),
            font: $"Noto Sans {letters}",
            dpi: 72,
            width: room,
            align: Enums.Align.High,
            wrap: Enums.TextWrap.WordChar);

    // The font library is shown our font and no other, whatever the machine has. It reads its configuration at the first text it
    // sets, so the file may go afterwards. A font it can't find is no error to it: hence the look at what it drew.
    private static bool ReadyFont()
    {
        VipsSetup.Open();
        var folder = Directory.CreateTempSubdirectory("asfound-font-");
        try
        {
            var settings = Path.Combine(folder.FullName, "fonts.conf");
            File.WriteAllText(settings, $"""
                <?xml version="1.0"?>
                <!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
                <fontconfig>
                  <dir>{WebUtility.HtmlEncode(Path.GetDirectoryName(FontFile))}</dir>
                  <cachedir>{WebUtility.HtmlEncode(folder.FullName)}</cachedir>
                  <config><rescan><int>0</int></rescan></config>
                </fontconfig>
                """);
            NativeEnvironment.Set("FONTCONFIG_FILE", settings);
            using var trial = Set("MMMMiiii", 100, null);

            // Measured with this font, 2.004; another's letters are of other widths.
            if (trial.Width != 452 || trial.Height != 74) throw new FileNotFoundException("the watermark's font can't be used", FontFile);
            return true;
        }
        catch (VipsException fault)
        {
            throw new FileNotFoundException("the watermark's font can't be used: " + fault.Message.Trim(), FontFile, fault);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}

/// <summary>The environment as native code sees it: on Unix the runtime's own setter changes only its copy.</summary>
internal static class NativeEnvironment
{
    /// <summary>Sets a variable for native code in this process.</summary>
    public static void Set(string name, string value)
    {
        if (OperatingSystem.IsWindows()) _ = PutEnv(name, value);
        else _ = SetEnv(name, value, 1);
    }

    [DllImport("libc", EntryPoint = "setenv")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int SetEnv(
        [MarshalAs(UnmanagedType.LPUTF8Str)] string name, [MarshalAs(UnmanagedType.LPUTF8Str)] string value, int overwrite);

    [DllImport("ucrtbase", EntryPoint = "_wputenv_s")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int PutEnv([MarshalAs(UnmanagedType.LPWStr)] string name, [MarshalAs(UnmanagedType.LPWStr)] string value);
}
