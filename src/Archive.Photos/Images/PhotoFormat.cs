namespace Archive.Photos.Images;

/// <summary>A kind of picture file that is taken, recognised by its content, never by its name.</summary>
public enum PhotoFormat
{
    /// <summary>JPEG (ISO/IEC 10918).</summary>
    Jpeg,

    /// <summary>PNG (ISO/IEC 15948).</summary>
    Png,

    /// <summary>TIFF 6.0, and its large form.</summary>
    Tiff,

    /// <summary>WebP (RFC 9649).</summary>
    WebP,
}

/// <summary>Tells files apart by their first bytes.</summary>
internal static class FileSignature
{
    /// <summary>How many bytes are looked at.</summary>
    public const int Length = 256;

    /// <summary>The format of a file.</summary>
    /// <param name="start">Its first bytes, at least one.</param>
    /// <exception cref="UnusablePhotoException">It is none that is taken; the reason says what it is, if that is known.</exception>
    public static PhotoFormat Detect(ReadOnlySpan<byte> start)
    {
        if (start.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF])) return PhotoFormat.Jpeg;
        if (start.StartsWith((ReadOnlySpan<byte>)[0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10])) return PhotoFormat.Png;
        if (start.StartsWith("II*\0"u8) || start.StartsWith("MM\0*"u8) || start.StartsWith("II+\0"u8) || start.StartsWith("MM\0+"u8))
            return PhotoFormat.Tiff;
        if (start.StartsWith("RIFF"u8) && start.Length >= 12 && start[8..].StartsWith("WEBP"u8)) return PhotoFormat.WebP;
        throw new UnusablePhotoException(PhotoError.Unreadable, $"is {Name(start)}, not a JPEG, PNG, TIFF or WebP picture");
    }

    private static string Name(ReadOnlySpan<byte> start)
    {
        if (start.StartsWith("version https://git-lfs"u8)) return "a Git LFS pointer without its picture (run `git lfs pull`)";
        if (start.StartsWith("GIF8"u8)) return "a GIF picture";
        if (start.StartsWith("BM"u8)) return "a BMP picture";
        if (start.StartsWith("%PDF"u8)) return "a PDF document";
        if (start.Length >= 12 && start[4..].StartsWith("ftyp"u8)) return Brand(start[8..12]);
        if (start.IndexOf("<svg"u8) >= 0) return "an SVG drawing";
        if (start.TrimStart("\uFEFF \t\r\n"u8).StartsWith("<"u8)) return "XML or HTML text";
        return start.IndexOfAnyInRange<byte>(0, 8) < 0 ? "text" : "a file of unknown type";
    }

    private static string Brand(ReadOnlySpan<byte> brand) =>
        brand.StartsWith("hei"u8) || brand.StartsWith("hev"u8) || brand.StartsWith("mif"u8) ? "a HEIC picture"
        : brand.StartsWith("avi"u8) ? "an AVIF picture"
        : "a video or similar file";
}
