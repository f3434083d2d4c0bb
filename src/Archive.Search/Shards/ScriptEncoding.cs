using System.Buffers;
using System.Text;
using ICSharpCode.SharpZipLib.Zip.Compression;

namespace Archive.Search.Shards;

/// <summary>
/// Bytes as the text of a script: deflated, then two characters for each 13 bits. A browser inflates by itself
/// (<c>DecompressionStream</c>), from a folder as from a host.
/// </summary>
/// <remarks>
/// The deflater is a managed one: .NET's own takes other turns on other processors, and the same record must give the same bytes. The 91
/// characters are the printable ones of ASCII but the quote, the backslash and <c>&lt;</c>; 13 bits in two of them is 6.5 bits a byte,
/// where base 64 has 6.
/// </remarks>
internal static class ScriptEncoding
{
    // Level 9 took 5.8 s of processor time for 100,000 cables, level 6 3.2 s, for 1.4 % more bytes.
    private const int Level = 6;
    private const int BitsInPair = 13;
    private const string Alphabet = "!#$%&'()*+,-./0123456789:;=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_`abcdefghijklmnopqrstuvwxyz{|}~";

    /// <summary>Packs bytes into printable text.</summary>
    /// <param name="bytes">Any bytes.</param>
    public static string Pack(ReadOnlySpan<byte> bytes) => Text(Deflated(bytes));

    private static ArrayBufferWriter<byte> Deflated(ReadOnlySpan<byte> bytes)
    {
        var deflater = new Deflater(Level, noZlibHeaderOrFooter: true);
        deflater.SetInput(bytes.ToArray());
        deflater.Finish();
        var deflated = new ArrayBufferWriter<byte>(Math.Max(64, bytes.Length / 2));
        var part = new byte[1 << 14];
        while (!deflater.IsFinished) deflated.Write(part.AsSpan(0, deflater.Deflate(part)));
        return deflated;
    }

    private static string Text(ArrayBufferWriter<byte> bytes)
    {
        var text = new StringBuilder(bytes.WrittenCount * 16 / BitsInPair + 2);
        uint held = 0;
        var bits = 0;
        foreach (var octet in bytes.WrittenSpan)
        {
            held |= (uint)octet << bits;
            bits += 8;
            if (bits < BitsInPair) continue;
            Add(held & ((1 << BitsInPair) - 1));
            held >>= BitsInPair;
            bits -= BitsInPair;
        }

        if (bits > 0) Add(held);
        return text.ToString();

        void Add(uint pair) => text.Append(Alphabet[(int)(pair / 91)]).Append(Alphabet[(int)(pair % 91)]);
    }
}
