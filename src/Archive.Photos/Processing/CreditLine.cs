using System.Net;
using System.Runtime.InteropServices;
using Archive.Photos.Images;
using NetVips;

namespace Archive.Photos.Processing;

/// <summary>
/// Sets the credit line on a strip of its own below a picture: nothing of the picture is covered, and who passes the copy on passes
/// the line on with it.
/// </summary>
internal static class CreditLine
{
    /// <summary>No smaller letters are set, pixels: at 480 px a phone still shows them legibly.</summary>
    public const int SmallestLetters = 13;

    // White on this has a contrast of 15 (WCAG 2.2 asks 4.5), and the strip is no black that a redaction could be taken for.
    private static readonly double[] Ground = [34, 38, 40];

    private static readonly double[] White = [255, 255, 255];

    private static readonly Lazy<bool> Font = new(ReadyFont);

    /// <summary>Where the font lies: beside the tool.</summary>
    public static string FontFile { get; } = Path.Combine(AppContext.BaseDirectory, "Fonts", "NotoSans-Regular.ttf");

    /// <summary>The picture with a line below it; a line too long for one row is broken.</summary>
    /// <param name="picture">The picture, which stays as it is.</param>
    /// <param name="line">The line; no character is markup.</param>
    /// <returns>Null where there is no line, or the picture is too narrow for one letter.</returns>
    /// <exception cref="IOException">The font cannot be used.</exception>
    public static Image? Beneath(Image picture, string line)
    {
        if (line.Length == 0) return null;
        _ = Font.Value;
        var letters = Math.Max(SmallestLetters, picture.Width / 90);
        var pad = letters / 2;
        var room = picture.Width - (2 * pad);
        if (room < letters) return null;
        using var scope = new ImageScope();
        var mask = scope.Track(Set(line, letters, room));
        if (mask.Width > room) return null;
        var height = mask.Height + (2 * pad);
        var ink = scope.Track(mask.Embed(picture.Width - pad - mask.Width, pad, picture.Width, height));
        var strip = scope.Track(scope.Track(ink.Ifthenelse(White, Ground, blend: true)).Cast(Enums.BandFormat.Uchar));
        return picture.Join(scope.Track(strip.Copy(interpretation: Enums.Interpretation.Srgb)), Enums.Direction.Vertical);
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
            if (trial.Width != 452 || trial.Height != 74) throw new FileNotFoundException("the credit line's font can't be used", FontFile);
            return true;
        }
        catch (VipsException fault)
        {
            throw new FileNotFoundException("the credit line's font can't be used: " + fault.Message.Trim(), FontFile, fault);
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
