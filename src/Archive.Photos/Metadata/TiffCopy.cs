using System.Buffers.Binary;
using System.Collections.Frozen;
using Archive.Photos.Images;

namespace Archive.Photos.Metadata;

/// <summary>
/// Copies the first picture of a TIFF: its pixels as they are packed, and what is needed to show them as they were meant.
/// </summary>
internal static class TiffCopy
{
    private const int Compression = 259, StripOffsets = 273, StripSizes = 279, TileOffsets = 324, TileSizes = 325, JpegTables = 347;
    private const ushort Long = 4, Long8 = 16;
    private const int JpegInside = 7;

    // Larger tables than these no picture that is taken here has.
    private const int MostParts = 1 << 22, LargestValue = 64 << 20, LargestJpegPart = 256 << 20;

    // TIFF 6.0: size, kind and order of samples, tables, colours, resolution, how the picture lies; 34675 is the ICC profile.
    private static readonly FrozenSet<int> Shown = new[]
    {
        256, 257, 258, 259, 262, 266, 273, 274, 277, 278, 279, 280, 281, 282, 283, 284, 290, 291, 292, 293, 296, 301, 317, 318, 319,
            320, 321, 322, 323, 324, 325,
            332, 334, 336, 338, 339, 340, 341, 342, 347, 529, 530, 531, 532, 34675,
        }.ToFrozenSet();

    // None, fax, LZW, JPEG, deflate, PackBits, LZMA and Zstandard hold pixels and nothing else, but for JPEG, which is taken apart.
    private static readonly FrozenSet<ulong> Plain = new ulong[] { 1, 2, 3, 4, 5, JpegInside, 8, 32773, 32946, 34925, 50000 }.ToFrozenSet();

    /// <summary>Whether an entry is needed to show the picture.</summary>
    public static bool IsShown(int tag) => Shown.Contains(tag);

    /// <summary>Writes the copy: byte order and size of offsets are the original's.</summary>
    /// <param name="file">A TIFF.</param>
    /// <param name="to">Where to; from its beginning.</param>
    /// <exception cref="UnusablePhotoException">It is not built as a TIFF, or its pixels are packed in a way that may hold notes
    /// too.</exception>
    /// <exception cref="IOException">It can't be read or written.</exception>
    public static void Write(FileStream file, Stream to)
    {
        var tiff = new TiffFile(file);
        var picture = tiff.Directories().FirstOrDefault() ?? throw FilePiece.Built("its first directory cannot be read");
        var packing = picture.Number(Compression) ?? 1;
        if (!Plain.Contains(packing))
            throw FilePiece.Built($"its pixels are compressed in a way that can contain metadata (compression {packing})");
        var (offsets, sizes) = picture.Entry(TileOffsets) is not null ? (TileOffsets, TileSizes) : (StripOffsets, StripSizes);
        var (from, lengths) = (Numbers(tiff, picture, offsets), Numbers(tiff, picture, sizes));
        if (from.Length != lengths.Length
            || lengths.Any(length => length > (ulong)tiff.Length)
            || lengths.Aggregate(0UL, (sum, length) => sum + length) > (ulong)tiff.Length)
        {
            throw FilePiece.Built("its tables of pixels are damaged");
        }

        new Writer(tiff, to).Write(picture, packing == JpegInside, (offsets, from), (sizes, lengths), file);
    }

    private static ulong[] Numbers(TiffFile tiff, TiffDirectory picture, int tag) =>
        picture.Entry(tag) is { } entry && tiff.Numbers(entry, MostParts) is { } numbers
            ? numbers
            : throw FilePiece.Built("its tables of pixels are damaged");

    private sealed class Writer(TiffFile tiff, Stream to)
    {
        public void Write(
            TiffDirectory picture, bool isJpeg, (int Tag, ulong[] Values) offsets, (int Tag, ulong[] Values) sizes, FileStream file)
        {
            to.Write(new byte[tiff.IsLarge ? 16 : 8]);
            var (places, lengths) = (new ulong[offsets.Values.Length], new ulong[offsets.Values.Length]);
            for (var i = 0; i < places.Length; i++)
            {
                Align();
                places[i] = (ulong)to.Position;
                Part(file, (long)offsets.Values[i], (long)sizes.Values[i], isJpeg);
                lengths[i] = (ulong)to.Position - places[i];
            }

            // A directory's entries are in order of their tags (section 2).
            var entries = picture.Entries.Where(entry => IsShown(entry.Tag)).DistinctBy(entry => entry.Tag).OrderBy(entry => entry.Tag)
                .Select(entry => entry.Tag == offsets.Tag
                    ? Entry(entry.Tag, places)
                    : entry.Tag == sizes.Tag
                    ? Entry(entry.Tag, lengths)
                    : Entry(entry, isJpeg)).ToList();
            Align();
            var directory = (ulong)to.Position;
            Number((ulong)entries.Count, tiff.IsLarge ? 8 : 2);
            foreach (var entry in entries) to.Write(entry);
            Number(0, Wide);
            to.Position = 0;
            to.Write(tiff.IsBigEndian ? "MM"u8 : "II"u8);
            Number(tiff.IsLarge ? 43u : 42u, 2);
            if (tiff.IsLarge) Number(8, 4);
            Number(directory, Wide);
        }

        private int Wide => tiff.IsLarge ? 8 : 4;

        private void Part(FileStream file, long at, long length, bool isJpeg)
        {
            if (at + length > file.Length || at < 0) throw FilePiece.Built("its tables of pixels are damaged");
            if (!isJpeg)
            {
                new FilePiece(PieceKind.Picture, at, length).CopyTo(file, to);
                return;
            }

            if (length > LargestJpegPart) throw FilePiece.Built("its pixels are stored in blocks that are too large");
            Jpeg(new FilePiece(PieceKind.Picture, at, length).Whole(file), to);
        }

        private static void Jpeg(byte[] part, Stream to)
        {
            if (part.Length == 0) return;
            using var whole = new MemoryStream(part, writable: false);
            foreach (var piece in JpegPieces.Read(whole).Where(piece => piece.IsKept)) piece.CopyTo(whole, to);
        }

        private byte[] Entry(ushort tag, ulong[] values)
        {
            using var bytes = new MemoryStream();
            foreach (var value in values) Number(value, Wide, bytes);
            return Entry(tag, tiff.IsLarge ? Long8 : Long, (ulong)values.Length, bytes.ToArray());
        }

        private byte[] Entry(TiffEntry entry, bool isJpeg)
        {
            if (tiff.Bytes(entry, LargestValue) is not { } bytes) throw FilePiece.Built("its first directory is damaged");
            if (!isJpeg || entry.Tag != JpegTables) return Entry(entry.Tag, entry.Type, entry.Count, bytes);
            using var tables = new MemoryStream();
            Jpeg(bytes, tables);
            return Entry(entry.Tag, entry.Type, (ulong)tables.Length, tables.ToArray());
        }

        private byte[] Entry(ushort tag, ushort type, ulong count, byte[] bytes)
        {
            using var entry = new MemoryStream();
            Number(tag, 2, entry);
            Number(type, 2, entry);
            Number(count, Wide, entry);
            if (bytes.Length > Wide)
            {
                Align();
                Number((ulong)to.Position, Wide, entry);
                to.Write(bytes);
            }
            else
            {
                entry.Write(bytes);
                entry.Write(new byte[Wide - bytes.Length]);
            }

            return entry.ToArray();
        }

        // Values begin on an even place (section 2).
        private void Align()
        {
            if (to.Position % 2 == 1) to.WriteByte(0);
        }

        private void Number(ulong value, int bytes, Stream? into = null)
        {
            if (bytes < 8 && value >> (8 * bytes) != 0) throw FilePiece.Built("it would be larger than its format allows");
            Span<byte> number = stackalloc byte[8];
            if (tiff.IsBigEndian) BinaryPrimitives.WriteUInt64BigEndian(number, value);
            else BinaryPrimitives.WriteUInt64LittleEndian(number, value);
            (into ?? to).Write(tiff.IsBigEndian ? number[(8 - bytes)..] : number[..bytes]);
        }
    }
}
