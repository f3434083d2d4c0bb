using System.Buffers.Binary;
using System.Text;

namespace Archive.Photos.Rights;

/// <summary>Writes rights as an IPTC block (IIM 4.2) in the wrapping that JPEG files carry it in (Photoshop image resource 0x0404): what
/// older programs of newspapers and agencies read, where newer ones read <see cref="XmpPacket"/>.</summary>
internal static class IptcBlock
{
    // The longest that IIM 4.2 allows each data set of record 2, in bytes.
    private const int TitleBytes = 64;
    private const int NameBytes = 32;
    private const int CopyrightBytes = 128;

    /// <summary>The block.</summary>
    /// <param name="rights">What is to be said.</param>
    /// <returns>Null if nothing is to be said.</returns>
    public static byte[]? Write(PhotoRights rights)
    {
        using var sets = new MemoryStream();
        Put(sets, 2, 5, Cut(rights.Title, TitleBytes));
        Put(sets, 2, 80, Cut(rights.Creator, NameBytes));
        Put(sets, 2, 110, Cut(rights.Credit, NameBytes));

        // An address cut off leads nowhere: it is said whole (in XMP always) or not at all.
        var source = Encoding.UTF8.GetBytes(XmpPacket.Plain(rights.Source) ?? "");
        if (source.Length <= NameBytes) Put(sets, 2, 115, source);
        Put(sets, 2, 116, Cut(XmpPacket.Copyright(rights), CopyrightBytes));
        if (sets.Length == 0) return null;

        using var all = new MemoryStream();
        Put(all, 1, 90, "\u001b%G"u8); // The text is UTF-8 (ISO 2022).
        Put(all, 2, 0, [0, 4]); // Record version 4
        sets.WriteTo(all);
        return Wrapped(all.ToArray());
    }

    private static byte[] Wrapped(byte[] sets)
    {
        var length = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(length, sets.Length);
        byte[] padding = sets.Length % 2 == 0 ? [] : [0];
        return [.. "Photoshop 3.0\0"u8, .. "8BIM"u8, 4, 4, 0, 0, .. length, .. sets, .. padding];
    }

    private static void Put(MemoryStream to, byte record, byte number, ReadOnlySpan<byte> text)
    {
        if (text.IsEmpty) return;
        to.Write([0x1C, record, number, (byte)(text.Length >> 8), (byte)text.Length]);
        to.Write(text);
    }

    // Cut between letters, never within one.
    private static byte[] Cut(string? text, int most)
    {
        var plain = XmpPacket.Plain(text) ?? "";
        var bytes = new List<byte>();
        Span<byte> letter = stackalloc byte[4];
        foreach (var rune in plain.EnumerateRunes())
        {
            var length = rune.EncodeToUtf8(letter);
            if (bytes.Count + length > most) break;
            bytes.AddRange(letter[..length]);
        }

        return [.. bytes];
    }
}
