using System.Reflection;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using ImageMagick;
using NetVips;

namespace Archive.Photos.Images;

/// <summary>
/// Decodes HEIC with the native library of an optional package. Only the library that was published with the version that this tool is
/// built with is loaded, by its checksum, and of its many formats only this one is used.
/// </summary>
internal static class HeicDecoder
{
    /// <summary>What to do where the package is missing.</summary>
    public const string HowToGet = "unpack the package asfound-phone-photos of your platform beside asfound";

    private const string FolderName = "phone-photos";

    // A phone writes some megabytes; the file is read whole.
    private const long LargestFile = 1L << 28;

    // Magick.NET-Q8-AnyCPU 15.1.0, its folders `runtimes/*/native`.
    private static readonly (string Name, string Sha256)[] Published =
    [
        ("Magick.Native-Q8-x64.dll.so", "b60c277cfd305efa7cf23f3c054cf559f9567a2b21b9107cf228ed6cdc21956c"),
        ("Magick.Native-Q8-arm64.dll.so", "9c73309dddd16cd75452f9e2835c8e416e8f01f26ca96977921916c6d710fba9"),
        ("Magick.Native-Q8-x64.dll", "be0646326c15206e57c86542896278451126254dd7bf946084ac8b4199890d6a"),
        ("Magick.Native-Q8-arm64.dll.dylib", "1f5f75f17157d55403228d913caf6100e6550e5f8643a2b497fabddb63ddfd51"),
    ];

    private static readonly Lock Loading = new();
    private static IntPtr _library;

    /// <summary>Where the package is looked for; the first folder that has it is used.</summary>
    internal static IReadOnlyList<string> Folders { get; set; } = Usual();

    /// <summary>Decodes a picture as a whole, upright as its boxes say.</summary>
    /// <exception cref="UnusablePhotoException">The package is missing, or the picture is damaged.</exception>
    /// <exception cref="MagickException">The picture is damaged.</exception>
    public static NetVips.Image Open(string path)
    {
        Load();
        var bytes = ReadWhole(path);
        using var picture = new MagickImage(bytes, new MagickReadSettings { Format = MagickFormat.Heic });
        if (picture.HasAlpha)
        {
            picture.BackgroundColor = MagickColors.White;
            picture.Alpha(AlphaAction.Remove);
        }

        using var pixels = picture.GetPixelsUnsafe();
        var colours = pixels.ToByteArray(PixelMapping.RGB)
            ?? throw new UnusablePhotoException(PhotoError.Unreadable, "has damaged HEIC data, or is cut off");
        using var plain = NetVips.Image.NewFromMemory(colours, (int)picture.Width, (int)picture.Height, 3, Enums.BandFormat.Uchar);
        using var coloured = plain.Copy(interpretation: Enums.Interpretation.Srgb);
        var profile = picture.GetColorProfile()?.ToByteArray();
        return profile is null
            ? coloured.Copy()
            : coloured.Mutate(image => image.Set(GValue.BlobType, "icc-profile-data", profile));
    }

    private static byte[] ReadWhole(string path)
    {
        try
        {
            return new FileInfo(path).Length <= LargestFile
                ? File.ReadAllBytes(path)
                : throw new UnusablePhotoException(PhotoError.TooLarge, "is a HEIC file of more than 256 MB");
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new UnusablePhotoException(PhotoError.Unreadable, "cannot be opened");
        }
    }

    private static void Load()
    {
        lock (Loading)
        {
            if (_library != IntPtr.Zero) return;
            var path = Require(Folders);
            if (!NativeLibrary.TryLoad(path, out _library)) throw Missing("is not for this platform");
            NativeLibrary.SetDllImportResolver(typeof(MagickImage).Assembly, Resolve);
            ResourceLimits.Width = ResourceLimits.Height = PhotoHeader.LongestSide;
            ResourceLimits.Area = PhotoHeader.MostPixels;
            ResourceLimits.Memory = 2UL << 30;
            ResourceLimits.Disk = 0;
            ResourceLimits.Thread = 1;
        }
    }

    /// <summary>The library of the first folder that has one.</summary>
    /// <exception cref="UnusablePhotoException">There is none, or it is another.</exception>
    internal static string Require(IEnumerable<string> folders)
    {
        var path = folders.SelectMany(folder => Published.Select(file => Path.Combine(folder, file.Name))).FirstOrDefault(File.Exists)
            ?? throw Missing("is not installed");
        try
        {
            using var stream = File.OpenRead(path);
            var checksum = Convert.ToHexStringLower(SHA256.HashData(stream));
            return Published.Any(file => file.Sha256 == checksum) ? path : throw Missing("does not belong to this version of asfound");
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
        {
            throw Missing("cannot be read");
        }
    }

    private static UnusablePhotoException Missing(string why) => new(
        PhotoError.DecoderMissing,
        $"is a HEIC picture, and the package that opens those, asfound-phone-photos, {why}: unpack it beside asfound");

    private static IntPtr Resolve(string name, Assembly assembly, DllImportSearchPath? search) =>
        name.StartsWith("Magick.Native", StringComparison.Ordinal) ? _library : IntPtr.Zero;

    private static List<string> Usual()
    {
        var own = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
        var folders = new List<string> { Path.Combine(AppContext.BaseDirectory, FolderName) };

        // Someone without a home has no such folder; one below the working folder is not meant.
        if (Path.IsPathRooted(own)) folders.Add(Path.Combine(own, "asfound", FolderName));
        return folders;
    }
}
