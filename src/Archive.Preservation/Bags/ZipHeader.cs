using System.Buffers.Binary;
using System.Text;

namespace Archive.Preservation.Bags;

/// <summary>
/// What one of the two headers of a file in a ZIP file says: the one in the list, or the one before its data (APPNOTE.TXT, 4.3.7 and
/// 4.3.12).
/// </summary>
/// <param name="Flags">General purpose flags.</param>
/// <param name="Method">How it is packed: 0 stored, 8 deflated.</param>
/// <param name="Crc">The CRC-32 of the file.</param>
/// <param name="Packed">Bytes that it takes in the ZIP file.</param>
/// <param name="Size">Bytes that it has unpacked.</param>
/// <param name="Extra">Further fields.</param>
public readonly record struct ZipHeader(int Flags, int Method, uint Crc, long Packed, long Size, byte[] NameBytes, byte[] Extra)
{
    private const int EncryptedFlag = 1, StrongFlag = 1 << 6, MaskedFlag = 1 << 13, Utf8Flag = 1 << 11, DescriptorFlag = 1 << 3;
    private const int Zip64Field = 0x0001, UnicodePath = 0x7075, AesField = 0x9901, StrongField = 0x0017;

    // "Experimental" of libarchive, and ASi's for Unix: both state what kind of file it is, whatever the header says.
    private const int ExperimentalField = 0x6C78, UnixField = 0x756E;

    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    /// <summary>Whether CRC and sizes may follow the data instead.</summary>
    internal bool HasDescriptor => (Flags & DescriptorFlag) != 0;

    internal bool IsEncrypted => (Flags & (EncryptedFlag | StrongFlag | MaskedFlag)) != 0
        || Method == 99
        || Field(AesField) is not null
        || Field(StrongField) is not null;

    /// <summary>
    /// Whether further fields make another file of it to some unpackers: they state its kind, or one that is followed is there twice.
    /// </summary>
    internal bool HasDoubtfulField =>
        Field(ExperimentalField) is not null || Field(UnixField) is not null || Fields(Zip64Field) > 1 || Fields(UnicodePath) > 1;

    /// <summary>Its name as text, where that is the same everywhere; else as well as it can be read.</summary>
    internal string Name => Decode(NameBytes, out var text) ? text : Encoding.Latin1.GetString(NameBytes);

    /// <summary>Why its name reads otherwise elsewhere; null where it does not.</summary>
    internal string? OtherReading()
    {
        if (!Decode(NameBytes, out var name)) return "is not written in UTF-8";
        if ((Flags & Utf8Flag) == 0 && !Ascii.IsValid(NameBytes)) return "is not marked as UTF-8, so some unpackers read it differently";
        if (Field(UnicodePath) is not { } field) return null;

        // One byte of version, four of a checksum of the name; the other name.
        return field.Length >= 5 && field.AsSpan(5).SequenceEqual(NameBytes)
            ? null
            : $"has the name {(field.Length >= 5 && Decode(field[5..], out var other) ? other : "something else")} in another field, which some unpackers use";
    }

    /// <summary>
    /// This header with sizes from its zip64 field where the plain ones are all ones; null where that field does not have them.
    /// </summary>
    /// <param name="offset">Where the data are said to lie; all ones are resolved too.</param>
    internal ZipHeader? Resolved(ref long offset)
    {
        var field = Field(Zip64Field) ?? [];
        var at = 0;
        return Next(Size, out var size) && Next(Packed, out var packed) && Next(offset, out offset)
            ? this with { Size = size, Packed = packed }
            : null;

        bool Next(long plain, out long value)
        {
            value = plain;
            if (plain != uint.MaxValue) return true;
            if (field.Length < at + 8) return false;
            value = BinaryPrimitives.ReadInt64LittleEndian(field.AsSpan(at));
            at += 8;
            return value >= 0;
        }
    }

    /// <summary>In what the header before the data differs from this one of the list: words such as <c>name</c>.</summary>
    /// <param name="local">The header before the data, as it is written.</param>
    internal IEnumerable<string> Differences(ZipHeader local)
    {
        var nowhere = 0L;
        if (!NameBytes.AsSpan().SequenceEqual(local.NameBytes)) yield return "name";
        if (Flags != local.Flags) yield return "flags";
        if (Method != local.Method) yield return "method";

        // Where a descriptor follows the data, the header before them may leave all of it open; and one of a file that grew beyond 4 GiB
        // has no room for its sizes.
        if (local.Resolved(ref nowhere) is not { } resolved)
        {
            if (!local.HasDescriptor) yield return "size";
            resolved = local with { Size = Size, Packed = Packed };
        }

        var isOpen = HasDescriptor && local.HasDescriptor;
        if (resolved.Crc != Crc && !(isOpen && resolved.Crc == 0)) yield return "CRC";
        if ((resolved.Size != Size && !(isOpen && resolved.Size == 0)) || (resolved.Packed != Packed && !(isOpen && resolved.Packed == 0)))
            yield return "size";
    }

    /// <summary>
    /// Whether the bytes between a file's data and what follows them are a descriptor that agrees with this header (APPNOTE.TXT, 4.3.9).
    /// </summary>
    internal bool IsDescriptor(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length is 16 or 24)
        {
            if (!bytes.StartsWith("PK\x07\x08"u8)) return false;
            bytes = bytes[4..];
        }

        if (bytes.Length is not (12 or 20) || BinaryPrimitives.ReadUInt32LittleEndian(bytes) != Crc) return false;
        return bytes.Length == 12
            ? (BinaryPrimitives.ReadUInt32LittleEndian(bytes[4..]), BinaryPrimitives.ReadUInt32LittleEndian(bytes[8..])) == (Packed, Size)
            : (BinaryPrimitives.ReadInt64LittleEndian(bytes[4..]), BinaryPrimitives.ReadInt64LittleEndian(bytes[12..])) == (Packed, Size);
    }

    private byte[]? Field(int id) => AllFields().FirstOrDefault(field => field.Id == id).Bytes;

    private int Fields(int id) => AllFields().Count(field => field.Id == id);

    private IEnumerable<(int Id, byte[] Bytes)> AllFields()
    {
        for (var at = 0; at + 4 <= Extra.Length;)
        {
            var (id, length) =
                (BinaryPrimitives.ReadUInt16LittleEndian(Extra.AsSpan(at)), BinaryPrimitives.ReadUInt16LittleEndian(Extra.AsSpan(at + 2)));
            at += 4;
            if (at + length > Extra.Length) yield break;
            yield return (id, Extra[at..(at + length)]);
            at += length;
        }
    }

    private static bool Decode(byte[] bytes, out string text)
    {
        try
        {
            text = Strict.GetString(bytes);
            return true;
        }
        catch (DecoderFallbackException)
        {
            text = "";
            return false;
        }
    }
}
