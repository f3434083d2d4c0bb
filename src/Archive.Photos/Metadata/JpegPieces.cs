using System.Buffers.Binary;
using Archive.Photos.Images;

namespace Archive.Photos.Metadata;

/// <summary>
/// Takes a JPEG apart (ISO/IEC 10918-1, annex B): segments, each with a marker and its length, and coded pixels behind each start of a
/// scan.
/// </summary>
internal static class JpegPieces
{
    private const int Block = 1 << 16;
    private const int StartOfScan = 0xDA, EndOfImage = 0xD9, Comment = 0xFE, FirstApp = 0xE0, LastApp = 0xEF;

    // Enough to tell an application's segment by its name.
    private const int Longest = 40;

    // JFIF 1.02: version, density and its unit, and no thumbnail. 16 bytes behind the marker.
    private const int JfifLength = 18;

    /// <summary>The pieces, first to last.</summary>
    /// <param name="file">A JPEG, or a part of one as TIFF holds it.</param>
    /// <exception cref="UnusablePhotoException">It is not built as a JPEG.</exception>
    /// <exception cref="IOException">It can't be read.</exception>
    public static IEnumerable<FilePiece> Read(Stream file)
    {
        var start = new byte[Longest];
        yield return new FilePiece(PieceKind.Head, 0, 2);
        for (var at = 2L; ;)
        {
            var marker = MarkerAt(file, ref at);
            if (marker == EndOfImage)
            {
                yield return new FilePiece(PieceKind.Picture, at, 2);
                if (IsMore(file, at + 2)) yield return new FilePiece(PieceKind.Behind, at + 2, file.Length - at - 2);
                yield break;
            }

            if (marker is 0x01 or (>= 0xD0 and <= 0xD8)) throw FilePiece.Built("its segments are out of order");
            file.Position = at + 2;
            var read = file.ReadAtLeast(start, Longest, throwOnEndOfStream: false);
            if (read < 2) throw FilePiece.Built("it is cut off");
            var length = 2L + BinaryPrimitives.ReadUInt16BigEndian(start);
            if (length < 4 || at + length > file.Length) throw FilePiece.Built("it is cut off");
            var body = start.AsMemory(2, Math.Max(0, (int)Math.Min(read, length - 2) - 2));
            yield return Segment(marker, at, length, body.Span);
            at += length;
            if (marker != StartOfScan) continue;
            var end = EndOfScan(file, at);
            yield return new FilePiece(PieceKind.Picture, at, end - at);
            at = end;
        }
    }

    private static FilePiece Segment(int marker, long at, long length, ReadOnlySpan<byte> body)
    {
        if (marker == Comment) return new FilePiece(PieceKind.Comment, at, length, 4);
        if (marker is < FirstApp or > LastApp)
            return new FilePiece(marker is >= 0xF0 and <= 0xFD ? PieceKind.Other : PieceKind.Picture, at, length);
        return (marker - FirstApp) switch
        {
            0 when body.StartsWith("JFIF\0"u8) && body.Length >= 12 => Jfif(at, length, body),
            0 when body.StartsWith("JFXX\0"u8) => new FilePiece(PieceKind.Thumbnail, at, length),
            1 when body.StartsWith("Exif\0"u8) => new FilePiece(PieceKind.Exif, at, length, 10),
            1 when body.StartsWith("http://ns.adobe.com/x"u8) => new FilePiece(PieceKind.Xmp, at, length, 4),
            2 when body.StartsWith("ICC_PROFILE\0"u8) => new FilePiece(PieceKind.Picture, at, length),
            2 when body.StartsWith("MPF\0"u8) => new FilePiece(PieceKind.OtherPicture, at, length),
            13 => new FilePiece(PieceKind.Resources, at, length, 4),
            14 when body.StartsWith("Adobe"u8) && length == 16 => new FilePiece(PieceKind.Picture, at, length),
            14 when body.StartsWith("Adobe"u8) && length > 16 =>
                new FilePiece(PieceKind.Picture, at, length, Instead: [0xFF, 0xEE, 0, 14, .. body[..12]]),
            _ => new FilePiece(PieceKind.Other, at, length, 4),
        };
    }

    private static FilePiece Jfif(long at, long length, ReadOnlySpan<byte> body) => length == JfifLength
        ? new FilePiece(PieceKind.Head, at, length)
        : new FilePiece(PieceKind.Head, at, length, Instead: [0xFF, 0xE0, 0, 16, .. body[..12], 0, 0]);

    // Any number of 0xFF may stand before a marker (B.1.1.2).
    private static int MarkerAt(Stream file, ref long at)
    {
        file.Position = at;
        if (file.ReadByte() != 0xFF) throw FilePiece.Built("its segments are out of order");
        int marker;
        while ((marker = file.ReadByte()) == 0xFF) at++;
        return marker > 0 ? marker : throw FilePiece.Built("it is cut off");
    }

    // Within coded pixels 0xFF is followed by 0, or by a restart marker, or by more of its kind (B.1.1.5).
    private static long EndOfScan(Stream file, long at)
    {
        var buffer = new byte[Block];
        while (true)
        {
            file.Position = at;
            var read = file.ReadAtLeast(buffer, Block, throwOnEndOfStream: false);
            if (read < 2) throw FilePiece.Built("it is cut off");
            var from = 0;
            while (from < read - 1)
            {
                var next = buffer.AsSpan(from, read - 1 - from).IndexOf((byte)0xFF);
                if (next < 0) break;
                from += next;
                var follows = buffer[from + 1];
                if (follows is not (0 or 0xFF or (>= 0xD0 and <= 0xD7))) return at + from;
                from += follows == 0xFF ? 1 : 2;
            }

            at += Math.Max(from, read - 1);
        }
    }

    // Zeros that fill a block of a card say nothing.
    private static bool IsMore(Stream file, long at)
    {
        var buffer = new byte[Block];
        file.Position = at;
        for (int read; (read = file.Read(buffer, 0, Block)) > 0;)
        {
            if (buffer.AsSpan(0, read).IndexOfAnyExcept((byte)0) >= 0) return true;
        }

        return false;
    }
}
