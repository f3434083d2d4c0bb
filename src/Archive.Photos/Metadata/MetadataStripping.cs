using System.Buffers.Binary;
using Archive.Photos.Images;

namespace Archive.Photos.Metadata;

/// <summary>
/// Writes a copy of a picture file that holds its pixels as they are coded, its colours and how it lies, and nothing else.
/// </summary>
/// <remarks>No pixel is decoded. What is written is read back (<see cref="Verify"/>).</remarks>
internal static class MetadataStripping
{
    /// <summary>Writes the copy.</summary>
    /// <param name="file">The original.</param>
    /// <param name="exif">What is to be said of it in EXIF (<see cref="SparseExif"/>); null for nothing.</param>
    /// <param name="to">Where to; from its beginning.</param>
    /// <exception cref="UnusablePhotoException">It cannot be taken apart.</exception>
    /// <exception cref="IOException">It can't be read or written.</exception>
    public static void Write(FileStream file, PhotoFormat format, byte[]? exif, Stream to)
    {
        switch (format)
        {
            case PhotoFormat.Jpeg:
                WriteBetween(JpegPieces.Read(file), file, exif is null ? null : JpegExif(exif), to);
                break;
            case PhotoFormat.Png:
                WriteBetween(PngPieces.Read(file), file, exif is null ? null : PngChunk.Write("eXIf"u8, exif), to);
                break;
            case PhotoFormat.Tiff:
                TiffCopy.Write(file, to);
                break;
            case PhotoFormat.Heic or PhotoFormat.Avif:
                throw new UnusablePhotoException(
                    PhotoError.Unreadable, "is a HEIC or AVIF picture, of which no copy without its metadata is made");
            default:
                WriteWebP(file, exif, to);
                break;
        }
    }

    /// <summary>Reads a copy back.</summary>
    /// <param name="path">Full path of the copy.</param>
    /// <param name="original">What the original's header says.</param>
    /// <param name="exif">What was to be said of it in EXIF.</param>
    /// <exception cref="UnusablePhotoException">It holds more than it should, or is not the original's picture.</exception>
    /// <exception cref="IOException">It can't be read.</exception>
    public static void Verify(string path, PhotoHeader original, byte[]? exif)
    {
        var copy = ImageReader.Read(path);
        if ((copy.Format, copy.Width, copy.Height, copy.Orientation, copy.Pictures) != (
            original.Format, original.Width, original.Height, original.Orientation, 1))
        {
            throw FilePiece.Built("the copy does not read back like the original");
        }

        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16);
        var isClean = original.Format == PhotoFormat.Tiff
            ? new TiffFile(file).Directories().ToList() is [var only] && only.Entries.All(entry => TiffCopy.IsShown(entry.Tag))
            : Pieces(file, original.Format).All(piece => piece.IsKept || (piece.Kind == PieceKind.Exif
                && exif is not null
                && piece.Content(file) is { } said
                && said.AsSpan().SequenceEqual(exif)));
        if (!isClean) throw FilePiece.Built("the copy still contains more than the picture");
    }

    /// <summary>The pieces of a file that is no TIFF.</summary>
    /// <exception cref="UnusablePhotoException">It is not built as its format needs it.</exception>
    public static IEnumerable<FilePiece> Pieces(Stream file, PhotoFormat format) => format switch
    {
        PhotoFormat.Jpeg => JpegPieces.Read(file),
        PhotoFormat.Png => PngPieces.Read(file),
        _ => WebPPieces.Read(file),
    };

    // Behind the head, before anything else.
    private static void WriteBetween(IEnumerable<FilePiece> pieces, Stream file, byte[]? exif, Stream to)
    {
        var isSaid = exif is null;
        foreach (var piece in pieces.Where(piece => piece.IsKept))
        {
            if (!isSaid && piece.Kind != PieceKind.Head)
            {
                to.Write(exif);
                isSaid = true;
            }

            piece.CopyTo(file, to);
        }
    }

    private static void WriteWebP(FileStream file, byte[]? exif, Stream to)
    {
        foreach (var piece in WebPPieces.Read(file).Where(piece => piece.IsKept))
        {
            if (exif is not null && piece.Instead is { } head)
                piece.CopyTo(file, to, [.. head[..8], (byte)(head[8] | WebPPieces.Exif), .. head[9..]]);
            else piece.CopyTo(file, to);
            if (to.Position % 2 == 1) to.WriteByte(0);
        }

        Span<byte> length = stackalloc byte[4];
        if (exif is not null)
        {
            BinaryPrimitives.WriteInt32LittleEndian(length, exif.Length);
            to.Write("EXIF"u8);
            to.Write(length);
            to.Write(exif);
        }

        BinaryPrimitives.WriteUInt32LittleEndian(length, (uint)(to.Length - 8));
        to.Position = 4;
        to.Write(length);
    }

    private static byte[] JpegExif(byte[] exif)
    {
        var length = 2 + 6 + exif.Length;
        return [0xFF, 0xE1, (byte)(length >> 8), (byte)length, .. "Exif\0\0"u8, .. exif];
    }
}
