using System.Buffers.Binary;
using Archive.Photos.Images;

namespace Archive.Photos.Metadata;

/// <summary>
/// An EXIF block that says only what is needed to show a picture as it was meant: how it lies, and whether its colours are Adobe RGB.
/// </summary>
internal static class SparseExif
{
    private const ushort OrientationTag = 0x0112, ExifPointer = 0x8769, InteroperabilityPointer = 0xA005, IndexTag = 1;
    private const ushort Ascii = 2, Short = 3, Long = 4;

    /// <summary>The block (EXIF 2.32, 4.6), without the name that JPEG has before it.</summary>
    /// <param name="orientation">How the stored picture lies.</param>
    /// <param name="isAdobeRgb">Whether its colours are those of Adobe RGB, said by nothing else (DCF 2.0: "R03").</param>
    /// <returns>Null if nothing needs to be said.</returns>
    public static byte[]? Create(Orientation orientation, bool isAdobeRgb)
    {
        var isTurned = orientation != Orientation.TopLeft;
        if (!isTurned && !isAdobeRgb) return null;
        var block = new List<byte>([.. "II*\0"u8, 8, 0, 0, 0]);
        List<byte[]> entries = [];
        if (isTurned) entries.Add(Entry(OrientationTag, Short, 1, (uint)orientation));
        var second = (uint)(8 + 6 + (12 * (entries.Count + 1)));
        if (isAdobeRgb) entries.Add(Entry(ExifPointer, Long, 1, second));
        Directory(entries);
        if (isAdobeRgb)
        {
            Directory([Entry(InteroperabilityPointer, Long, 1, second + 6 + 12)]);
            Directory([Entry(IndexTag, Ascii, 4, BinaryPrimitives.ReadUInt32LittleEndian("R03\0"u8))]);
        }

        return [.. block];

        void Directory(List<byte[]> of) => block.AddRange([(byte)of.Count, 0, .. of.SelectMany(entry => entry), 0, 0, 0, 0]);
    }

    private static byte[] Entry(ushort tag, ushort type, uint count, uint value)
    {
        var entry = new byte[12];
        BinaryPrimitives.WriteUInt16LittleEndian(entry, tag);
        BinaryPrimitives.WriteUInt16LittleEndian(entry.AsSpan(2), type);
        BinaryPrimitives.WriteUInt32LittleEndian(entry.AsSpan(4), count);
        BinaryPrimitives.WriteUInt32LittleEndian(entry.AsSpan(8), value);
        return entry;
    }
}
