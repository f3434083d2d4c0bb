using System.Buffers.Binary;

namespace Archive.Photos.Images;

/// <summary>Writes a chunk of a PNG (ISO/IEC 15948, 5.3): length, name, data, checksum.</summary>
internal static class PngChunk
{
    /// <summary>A chunk.</summary>
    /// <param name="name">Its name: four ASCII letters.</param>
    public static byte[] Write(ReadOnlySpan<byte> name, ReadOnlySpan<byte> data)
    {
        var chunk = new byte[12 + data.Length];
        BinaryPrimitives.WriteInt32BigEndian(chunk, data.Length);
        name.CopyTo(chunk.AsSpan(4));
        data.CopyTo(chunk.AsSpan(8));
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(8 + data.Length), Checksum(chunk.AsSpan(4, 4 + data.Length)));
        return chunk;
    }

    // ISO/IEC 15948, annex D.
    private static uint Checksum(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++) crc = (crc >> 1) ^ ((crc & 1) == 0 ? 0 : 0xEDB88320);
        }

        return ~crc;
    }
}
