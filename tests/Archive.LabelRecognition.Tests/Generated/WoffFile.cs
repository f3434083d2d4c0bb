using System.Buffers.Binary;
using System.IO.Compression;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>Unpacks a web font. WOFF File Format 1.0 (W3C Recommendation, 2012): each table is compressed with zlib.</summary>
internal static class WoffFile
{
    private const int HeaderLength = 44;
    private const int EntryLength = 20;

    internal static byte[] Unpack(byte[] woff)
    {
        if (U32(0) != 0x774F4646) throw new ArgumentException("not WOFF", nameof(woff));
        var count = BinaryPrimitives.ReadUInt16BigEndian(woff.AsSpan(12));
        var font = new MemoryStream();
        var start = 12 + (16 * count);
        var tables = new MemoryStream();
        font.Write(woff, 4, 4);
        var power = (int)Math.Log2(count);
        foreach (var number in (int[])[count, 16 << power, power, (16 * count) - (16 << power)]) Write(font, number, 2);
        for (var at = 0; at < count; at++)
        {
            var entry = HeaderLength + (at * EntryLength);
            var (offset, packed, length) = ((int)U32(entry + 4), (int)U32(entry + 8), (int)U32(entry + 12));
            font.Write(woff, entry, 4);
            font.Write(woff, entry + 16, 4);
            Write(font, start + (int)tables.Length, 4);
            Write(font, length, 4);
            var source = new MemoryStream(woff, offset, packed);
            if (packed == length) source.CopyTo(tables);
            else using (var table = new ZLibStream(source, CompressionMode.Decompress)) table.CopyTo(tables);
            while (tables.Length % 4 != 0) tables.WriteByte(0);
        }

        tables.WriteTo(font);
        return font.ToArray();

        uint U32(int at) => BinaryPrimitives.ReadUInt32BigEndian(woff.AsSpan(at));

        static void Write(Stream stream, int number, int bytes)
        {
            for (var at = bytes - 1; at >= 0; at--) stream.WriteByte((byte)(number >> (8 * at)));
        }
    }
}
