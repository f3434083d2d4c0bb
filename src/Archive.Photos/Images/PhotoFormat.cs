using System.Buffers.Binary;

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

    /// <summary>HEIC: HEVC in HEIF (ISO/IEC 23008-12). Its pixels are decoded by an optional package.</summary>
    Heic,

    /// <summary>AVIF: AV1 in HEIF.</summary>
    Avif,
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
        if (IsRaw(start)) throw Raw();
        if (start.StartsWith("II*\0"u8) || start.StartsWith("MM\0*"u8) || start.StartsWith("II+\0"u8) || start.StartsWith("MM\0+"u8))
            return PhotoFormat.Tiff;
        if (start.StartsWith("RIFF"u8) && start.Length >= 12 && start[8..].StartsWith("WEBP"u8)) return PhotoFormat.WebP;
        if (HeifBrand(start) is { } heif) return heif;
        throw new UnusablePhotoException(PhotoError.Unreadable, $"is {Name(start)}, not a JPEG, PNG, TIFF, WebP, HEIC or AVIF picture");
    }

    /// <summary>Why a camera's raw file is no photo of the record.</summary>
    public static UnusablePhotoException Raw() => new(
        PhotoError.Raw,
        "is a RAW picture, which is not developed: record the JPEG that the camera wrote with it, and name this file as its `raw`");

    // What cameras write that does not begin as a TIFF: from memory.
    private static bool IsRaw(ReadOnlySpan<byte> start) => (start.Length >= 12 && start[4..].StartsWith("ftypcrx "u8))
        || (start.StartsWith("II*\0"u8) && start.Length >= 10 && start[8..].StartsWith("CR"u8))
        || start.StartsWith("FUJIFILMCCD-RAW"u8) || start.StartsWith("IIRO"u8) || start.StartsWith("IIRS"u8)
        || start.StartsWith("MMOR"u8) || start.StartsWith("IIU\0"u8);

    private static string Name(ReadOnlySpan<byte> start)
    {
        if (start.StartsWith("version https://git-lfs"u8)) return "a Git LFS pointer without its picture (run `git lfs pull`)";
        if (start.StartsWith("GIF8"u8)) return "a GIF picture";
        if (start.StartsWith("BM"u8)) return "a BMP picture";
        if (start.StartsWith("%PDF"u8)) return "a PDF document";
        if (start.Length >= 12 && start[4..].StartsWith("ftyp"u8)) return "a video or similar file";
        if (start.IndexOf("<svg"u8) >= 0) return "an SVG drawing";
        if (start.TrimStart("\uFEFF \t\r\n"u8).StartsWith("<"u8)) return "XML or HTML text";
        return start.IndexOfAnyInRange<byte>(0, 8) < 0 ? "text" : "a file of unknown type";
    }

    // ISO/IEC 14496-12, 4.3: the main brand, a version, then all brands whose rules the file keeps.
    private static PhotoFormat? HeifBrand(ReadOnlySpan<byte> start)
    {
        if (start.Length < 16 || !start[4..].StartsWith("ftyp"u8)) return null;
        var isHeic = false;
        var end = (int)Math.Clamp(BinaryPrimitives.ReadUInt32BigEndian(start), 16, (uint)start.Length);
        for (var at = 8; at + 4 <= end; at += 4)
        {
            var brand = start.Slice(at, 4);
            if (at == 12) continue;
            if (brand.SequenceEqual("avif"u8)) return PhotoFormat.Avif;
            isHeic |= brand.StartsWith("hei"u8) || brand.StartsWith("hev"u8) || brand.SequenceEqual("mif1"u8);
        }

        return isHeic ? PhotoFormat.Heic : null;
    }
}
