using System.Buffers.Binary;
using System.IO.Compression;
using System.IO.Hashing;
using System.Text;

namespace Archive.Preservation.Tests;

/// <summary>
/// One file of a ZIP file that is written byte by byte. What the header before the data says is what the list says, but where a test says
/// otherwise.
/// </summary>
internal sealed record SketchEntry(byte[] Name, byte[] Bytes)
{
    internal SketchEntry(string name, byte[] bytes)
        : this(Encoding.UTF8.GetBytes(name), bytes) => Flags = name.All(char.IsAscii) ? 0 : 0x800;

    internal int Flags { get; init; }

    internal int Method { get; init; }

    /// <summary>The packed bytes, where they are not what the method makes of the file.</summary>
    internal byte[]? Packed { get; init; }

    internal uint? Crc { get; init; }

    internal int? Size { get; init; }

    internal byte[] Extra { get; init; } = [];

    internal int Host { get; init; } = 3;

    internal uint Attributes { get; init; } = 0x81A4u << 16;

    internal byte[]? LocalName { get; init; }

    internal int? LocalFlags { get; init; }

    internal int? LocalMethod { get; init; }

    internal uint? LocalCrc { get; init; }

    internal int? LocalSize { get; init; }

    internal byte[] LocalExtra { get; init; } = [];

    /// <summary>What follows the data; a right descriptor where the flags ask for one.</summary>
    internal byte[]? Descriptor { get; init; }

    /// <summary>Bytes that follow the file and belong to none.</summary>
    internal byte[] Behind { get; init; } = [];

    /// <summary>Whether only the list names it, with the data of the file before it.</summary>
    internal bool IsShared { get; init; }

    internal byte[] Data() => Packed ?? (Method == 8 ? Deflate(Bytes) : Bytes);

    internal uint TrueCrc => Crc ?? Crc32.HashToUInt32(Bytes);

    internal int TrueSize => Size ?? Bytes.Length;

    internal static byte[] Deflate(byte[] bytes)
    {
        using var to = new MemoryStream();
        using (var deflate = new DeflateStream(to, CompressionLevel.Optimal, leaveOpen: true)) deflate.Write(bytes);
        return to.ToArray();
    }

    internal static byte[] Field(int id, params byte[] bytes) => [.. ZipSketch.U16(id), .. ZipSketch.U16(bytes.Length), .. bytes];
}

/// <summary>ZIP files by hand (APPNOTE.TXT, 4.3), so that they can be as no packer would write them.</summary>
internal sealed class ZipSketch
{
    internal List<SketchEntry> Entries { get; } = [];

    internal byte[] Before { get; set; } = [];

    internal byte[] Behind { get; set; } = [];

    internal byte[] Comment { get; set; } = [];

    internal int? Count { get; set; }

    /// <summary>What the zip64 end record says: files, length of the list, where it begins.</summary>
    internal Func<long, long, long, (long Count, long Length, long At)>? Zip64 { get; set; }

    internal bool HasSentinels { get; set; }

    internal byte[] Write()
    {
        using var zip = new MemoryStream();
        var list = new MemoryStream();
        zip.Write(Before);
        var at = 0L;
        foreach (var entry in Entries)
        {
            if (!entry.IsShared)
            {
                at = zip.Position;
                WriteLocal(zip, entry);
            }

            WriteListed(list, entry, at);
        }

        var (listAt, count) = (zip.Position, Count ?? Entries.Count);
        zip.Write(list.ToArray());
        if (Zip64 is { } said)
        {
            var recordAt = zip.Position;
            var (count64, length, where) = said(count, list.Length, listAt);
            zip.Write([
                .. "PK\x06\x06"u8,
                .. U64(44),
                .. U16(45),
                .. U16(45),
                .. U32(0),
                .. U32(0),
                .. U64(count64),
                .. U64(count64),
                .. U64(length),
                .. U64(where)
            ]);
            zip.Write([.. "PK\x06\x07"u8, .. U32(0), .. U64(recordAt), .. U32(1)]);
        }

        zip.Write([
            .. "PK\x05\x06"u8,
            .. U32(0),
            .. U16(HasSentinels ? 0xFFFF : count),
            .. U16(HasSentinels ? 0xFFFF : count),
            .. U32(HasSentinels ? uint.MaxValue : (uint)list.Length),
            .. U32(HasSentinels ? uint.MaxValue : (uint)listAt),
            .. U16(Comment.Length),
            .. Comment,
            .. Behind
        ]);
        return zip.ToArray();
    }

    internal static byte[] U16(int value)
    {
        var bytes = new byte[2];
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, (ushort)value);
        return bytes;
    }

    internal static byte[] U32(uint value)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, value);
        return bytes;
    }

    internal static byte[] U64(long value)
    {
        var bytes = new byte[8];
        BinaryPrimitives.WriteInt64LittleEndian(bytes, value);
        return bytes;
    }

    /// <summary>The header before the data, and the data.</summary>
    internal static void WriteLocal(Stream to, SketchEntry entry)
    {
        var (data, name, isOpen) = (entry.Data(), entry.LocalName ?? entry.Name, (entry.Flags & 8) != 0);
        to.Write([
            .. "PK\x03\x04"u8,
            .. U16(20),
            .. U16(entry.LocalFlags ?? entry.Flags),
            .. U16(entry.LocalMethod ?? entry.Method),
            .. U16(0),
            .. U16(0x21)
        ]);
        to.Write([
            .. U32(entry.LocalCrc ?? (isOpen ? 0 : entry.TrueCrc)),
            .. U32(isOpen ? 0 : (uint)data.Length),
            .. U32((uint)(entry.LocalSize ?? (isOpen ? 0 : entry.TrueSize)))
        ]);
        to.Write([.. U16(name.Length), .. U16(entry.LocalExtra.Length), .. name, .. entry.LocalExtra, .. data]);
        if (isOpen) to.Write(entry.Descriptor ?? Descriptor(entry));
        to.Write(entry.Behind);
    }

    internal static byte[] Descriptor(SketchEntry entry) =>
        [
            .. "PK\x07\x08"u8,
            .. U32(entry.TrueCrc),
            .. U32((uint)entry.Data().Length),
            .. U32((uint)entry.TrueSize)
        ];

    private static void WriteListed(Stream to, SketchEntry entry, long at) => to.Write(
        [
            .. "PK\x01\x02"u8,
            20,
            (byte)entry.Host,
            .. U16(20),
            .. U16(entry.Flags),
            .. U16(entry.Method),
            .. U16(0),
            .. U16(0x21),
            .. U32(entry.TrueCrc),
            .. U32((uint)entry.Data().Length),
            .. U32((uint)entry.TrueSize),
            .. U16(entry.Name.Length),
            .. U16(entry.Extra.Length),
            .. U16(0),
            .. U16(0),
            .. U16(0),
            .. U32(entry.Attributes),
            .. U32((uint)at),
            .. entry.Name,
            .. entry.Extra
        ]);
}
