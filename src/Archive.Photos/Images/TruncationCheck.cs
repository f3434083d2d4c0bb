using System.Buffers.Binary;

namespace Archive.Photos.Images;

/// <summary>Tells originals that were cut off on their way, by how their format says that it ends: no pixel is decoded.</summary>
/// <remarks>What a decoder would refuse for another reason is left to it. TIFF says nowhere how long it is.</remarks>
internal static class TruncationCheck
{
    private const int Block = 1 << 16;

    /// <summary>
    /// Whether a file stops before its picture does. Reads a JPEG through once, of the others only what stands at the joints.
    /// </summary>
    /// <param name="path">Full path.</param>
    /// <exception cref="IOException">It can't be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static bool Is(string path, PhotoFormat format)
    {
        if (format == PhotoFormat.Tiff) return false;
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, Block);
        return format switch
        {
            PhotoFormat.Jpeg => !ReachesScan(file) || !HoldsEndOfImage(file),
            PhotoFormat.Png => !HoldsLastChunk(file),
            _ => !HoldsItsLength(file),
        };
    }

    // ISO/IEC 10918-1, B.1.1: markers, each with its length, up to the first scan. Thumbnails lie within segments, which are stepped over.
    private static bool ReachesScan(FileStream file)
    {
        Span<byte> length = stackalloc byte[2];
        file.Position = 2;
        while (file.ReadByte() is 0xFF)
        {
            int marker;
            do marker = file.ReadByte();
            while (marker == 0xFF);
            if (marker < 0 || file.ReadAtLeast(length, 2, throwOnEndOfStream: false) < 2) return false;
            file.Position += Math.Max(0, BinaryPrimitives.ReadUInt16BigEndian(length) - 2);
            if (marker == 0xDA) return true;
        }

        return file.Position < file.Length;
    }

    // Within coded pixels 0xFF is never followed by 0xD9: that is the end of the image (B.1.1.5, table B.1).
    private static bool HoldsEndOfImage(FileStream file)
    {
        var buffer = new byte[Block];
        var kept = 0;
        while (file.Read(buffer, kept, Block - kept) is > 0 and var read)
        {
            var held = buffer.AsSpan(0, kept + read);
            if (held.IndexOf((ReadOnlySpan<byte>)[0xFF, 0xD9]) >= 0) return true;
            buffer[0] = held[^1];
            kept = 1;
        }

        return false;
    }

    // ISO/IEC 15948, 5.3: length, type, data, checksum; the last chunk is IEND.
    private static bool HoldsLastChunk(FileStream file)
    {
        Span<byte> head = stackalloc byte[8];
        file.Position = 8;
        while (file.ReadAtLeast(head, 8, throwOnEndOfStream: false) == 8)
        {
            if (head[4..].SequenceEqual("IEND"u8)) return true;
            file.Position += BinaryPrimitives.ReadUInt32BigEndian(head) + 4L;
        }

        return false;
    }

    // RFC 9649, 2.4: the length of all that is behind it.
    private static bool HoldsItsLength(FileStream file)
    {
        Span<byte> head = stackalloc byte[8];
        return file.ReadAtLeast(head, 8, throwOnEndOfStream: false) == 8
            && file.Length - 8 >= BinaryPrimitives.ReadUInt32LittleEndian(head[4..]);
    }
}
