using System.Buffers.Binary;
using Archive.Photos.Images;

namespace Archive.Photos.Metadata;

/// <summary>Takes a WebP apart (RFC 9649, 2.3 to 2.7): chunks, each with name, length and data, padded to an even length.</summary>
internal static class WebPPieces
{
    /// <summary>Bytes before the first chunk.</summary>
    public const int Start = 12;

    private const int FrameHead = 16;

    // RFC 9649, 2.7.1: the flags for animation, XMP and EXIF.
    private const byte Animation = 0x02, Notes = 0x0C;

    /// <summary>The flag that says that there is an EXIF block.</summary>
    public const byte Exif = 0x08;

    /// <summary>
    /// The pieces, first to last; of an animation the first frame, where that fills the canvas. The length that the start states is not
    /// what a stripped copy has.
    /// </summary>
    /// <param name="file">A WebP.</param>
    /// <exception cref="UnusablePhotoException">It is not built as a WebP, or its first frame is only part of the picture.</exception>
    /// <exception cref="IOException">It can't be read.</exception>
    public static IEnumerable<FilePiece> Read(Stream file)
    {
        yield return new FilePiece(PieceKind.Head, 0, Start);
        var head = new byte[8 + FrameHead];
        var end = Math.Min(file.Length, 8 + LengthAt(file, 4));
        var (isFirst, canvas) = (true, default(ReadOnlyMemory<byte>));
        for (var at = (long)Start; at + 8 <= end;)
        {
            var (name, length) = ChunkAt(file, at, end, head);
            switch (name)
            {
                case "VP8X":
                    canvas = head.AsMemory(12, 6).ToArray();
                    yield return new FilePiece(
                        PieceKind.Head,
                        at,
                        length,
                        8,
                        Instead: [.. head[..8], (byte)(head[8] & ~(Animation | Notes)), 0, 0, 0, .. canvas.Span]);
                    break;
                case "ANMF" when isFirst:
                    isFirst = false;
                    if (head.AsSpan(8, 6).IndexOfAnyExcept((byte)0) >= 0 || !head.AsSpan(14, 6).SequenceEqual(canvas.Span))
                        throw FilePiece.Built("its first frame is only part of the picture");
                    yield return new FilePiece(PieceKind.OtherPicture, at, 8 + FrameHead);
                    for (var within = at + 8 + FrameHead; within + 8 <= at + length;)
                    {
                        var (part, size) = ChunkAt(file, within, at + length, head);
                        yield return new FilePiece(
                            part is "ALPH" or "VP8 " or "VP8L" ? PieceKind.Picture : PieceKind.Other, within, size, 8);
                        within += size;
                    }

                    break;
                default:
                    yield return new FilePiece(KindOf(name), at, length, 8);
                    break;
            }

            at += length;
        }

        if (end < file.Length) yield return new FilePiece(PieceKind.Behind, end, file.Length - end);
    }

    private static PieceKind KindOf(string name) => name switch
    {
        "ICCP" or "ALPH" or "VP8 " or "VP8L" => PieceKind.Picture,
        "EXIF" => PieceKind.Exif,
        "XMP " => PieceKind.Xmp,
        "ANIM" or "ANMF" => PieceKind.OtherPicture,
        _ => PieceKind.Other,
    };

    private static (string Name, long Length) ChunkAt(Stream file, long at, long end, byte[] head)
    {
        file.Position = at;
        Array.Clear(head);
        if (file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) < 8) throw FilePiece.Built("it is cut off");
        var data = (long)BinaryPrimitives.ReadUInt32LittleEndian(head.AsSpan(4));
        var length = 8 + data + (data & 1);
        var name = System.Text.Encoding.ASCII.GetString(head, 0, 4);

        // Some writers leave out the last byte of padding.
        if (at + 8 + data > end || (name is "VP8X" && data != 10) || (name is "ANMF" && data < FrameHead))
            throw FilePiece.Built("it is cut off");
        return (name, Math.Min(length, end - at));
    }

    private static long LengthAt(Stream file, long at)
    {
        Span<byte> length = stackalloc byte[4];
        file.Position = at;
        return file.ReadAtLeast(length, 4, throwOnEndOfStream: false) < 4 ? 0 : BinaryPrimitives.ReadUInt32LittleEndian(length);
    }
}
