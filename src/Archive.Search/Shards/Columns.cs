using System.Buffers;
using System.Text;

namespace Archive.Search.Shards;

/// <summary>A column of a block: like stands by like, which packs best.</summary>
internal sealed class BlockColumn
{
    private readonly ArrayBufferWriter<byte> _bytes = new();

    /// <summary>What was written.</summary>
    public ReadOnlySpan<byte> Bytes => _bytes.WrittenSpan;

    /// <summary>Adds a byte.</summary>
    /// <param name="value">0 to 255.</param>
    public void Byte(int value)
    {
        _bytes.GetSpan(1)[0] = (byte)value;
        _bytes.Advance(1);
    }

    /// <summary>Adds a number: seven bits a byte, lowest first, the eighth set on all but the last.</summary>
    /// <param name="value">At least 0.</param>
    public void Number(int value)
    {
        for (; value >= 0x80; value >>= 7) Byte((value & 0x7F) | 0x80);
        Byte(value);
    }

    /// <summary>Adds text as UTF-8.</summary>
    public void Text(ReadOnlySpan<char> text) => Encoding.UTF8.GetBytes(text, _bytes);

    /// <summary>Columns one after the other, each behind its length.</summary>
    public static byte[] Block(params ReadOnlySpan<BlockColumn> columns)
    {
        var lengths = new BlockColumn();
        foreach (var column in columns) lengths.Number(column.Bytes.Length);
        var block = new ArrayBufferWriter<byte>();
        block.Write(lengths.Bytes);
        foreach (var column in columns) block.Write(column.Bytes);
        return block.WrittenSpan.ToArray();
    }
}
