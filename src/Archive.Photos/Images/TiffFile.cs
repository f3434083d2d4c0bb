using System.Buffers.Binary;
using System.Collections.Immutable;

namespace Archive.Photos.Images;

/// <summary>
/// Reads the structure of a TIFF (TIFF 6.0, section 2) or of its large form (BigTIFF, as libtiff writes it): directories and their entries.
/// No pixel is decoded.
/// </summary>
/// <remarks>Never throws because of what the file holds: what is outside it is not there.</remarks>
internal sealed class TiffFile
{
    private const int MostDirectories = 10_000;

    private readonly FileStream _file;

    /// <summary>Reads the file's head.</summary>
    /// <param name="file">The file, open; its position is moved.</param>
    /// <exception cref="IOException">It can't be read.</exception>
    public TiffFile(FileStream file)
    {
        _file = file;
        Span<byte> head = stackalloc byte[16];
        Read(0, head);
        IsBigEndian = head[0] == (byte)'M';
        IsLarge = U16(head[2..]) == 43;
        FirstDirectory = IsLarge ? U64(head[8..]) : U32(head[4..]);
    }

    /// <summary>Whether the highest byte of a number comes first.</summary>
    public bool IsBigEndian { get; }

    /// <summary>Whether it is a BigTIFF, with offsets of 64 bits.</summary>
    public bool IsLarge { get; }

    /// <summary>Its length in bytes.</summary>
    public long Length => _file.Length;

    /// <summary>
    /// Whether it is what a camera's sensor saw: a DNG (tag 50706), or a file whose first picture is only a small one of another within it.
    /// </summary>
    public static bool IsRaw(FileStream file)
    {
        const int DngVersion = 50706, NewSubfileType = 254, SubDirectories = 330;
        return new TiffFile(file).Directories().FirstOrDefault() is { } first
            && (Has(DngVersion) || (((first.Number(NewSubfileType) ?? 0) & 1) != 0 && Has(SubDirectories)));

        bool Has(int tag) => first.Entries.Any(entry => entry.Tag == tag);
    }

    private ulong FirstDirectory { get; }

    private int EntrySize => IsLarge ? 20 : 12;

    /// <summary>The directories of the main chain, in order; ends where the chain leads out of the file or back into itself.</summary>
    /// <exception cref="IOException">It can't be read.</exception>
    public IEnumerable<TiffDirectory> Directories()
    {
        var seen = new HashSet<ulong>();
        for (var at = FirstDirectory; at != 0 && seen.Count < MostDirectories && seen.Add(at);)
        {
            if (DirectoryAt(at, out var next) is not { } directory) yield break;
            yield return directory;
            at = next;
        }
    }

    /// <summary>The bytes of an entry's values.</summary>
    /// <param name="most">The most bytes that are of use.</param>
    /// <returns>Null if they are outside the file, or are more.</returns>
    /// <exception cref="IOException">It can't be read.</exception>
    public byte[]? Bytes(TiffEntry entry, int most)
    {
        var size = SizeOf(entry.Type);
        if (size == 0 || entry.Count > (ulong)(most / size)) return null;
        var bytes = new byte[(int)entry.Count * size];
        if (bytes.Length <= entry.Field.Length) entry.Field.AsSpan(0, bytes.Length).CopyTo(bytes);
        else if (!Read(IsLarge ? U64(entry.Field.AsSpan()) : U32(entry.Field.AsSpan()), bytes)) return null;
        return bytes;
    }

    /// <summary>An entry's values as numbers.</summary>
    /// <param name="most">The most that are of use.</param>
    /// <returns>Null if they are no whole numbers, are outside the file, or are more.</returns>
    /// <exception cref="IOException">It can't be read.</exception>
    public ulong[]? Numbers(TiffEntry entry, int most)
    {
        if (entry.Type is not (1 or 3 or 4 or 13 or 16 or 18)
            || entry.Count > (ulong)most
            || Bytes(entry, most * 8) is not { } bytes) return null;
        var size = SizeOf(entry.Type);
        return [.. Enumerable.Range(0, bytes.Length / size).Select(i => Number(bytes.AsSpan(i * size, size)))];
    }

    /// <summary>Reads bytes.</summary>
    /// <param name="at">Where the first lies.</param>
    /// <param name="bytes">Where they go.</param>
    /// <returns>Whether all are there.</returns>
    public bool Read(ulong at, Span<byte> bytes)
    {
        if (at > (ulong)Length || (ulong)bytes.Length > (ulong)Length - at) return false;
        _file.Position = (long)at;
        return _file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false) == bytes.Length;
    }

    /// <summary>Bytes that a value of a type takes; 0 of an unknown type.</summary>
    /// <param name="type">The type (TIFF 6.0, section 2; 13 and 16 to 18 as libtiff has them).</param>
    public static int SizeOf(int type) => type switch
    {
        1 or 2 or 6 or 7 => 1,
        3 or 8 => 2,
        4 or 9 or 11 or 13 => 4,
        5 or 10 or 12 or 16 or 17 or 18 => 8,
        _ => 0,
    };

    private TiffDirectory? DirectoryAt(ulong at, out ulong next)
    {
        next = 0;
        Span<byte> number = stackalloc byte[8];
        var wide = IsLarge ? 8 : 2;
        if (!Read(at, number[..wide])) return null;
        var count = IsLarge ? U64(number) : U16(number);
        if (count > ushort.MaxValue) return null;
        var entries = new byte[(int)count * EntrySize];
        if (!Read(at + (ulong)wide, entries)) return null;
        if (Read(at + (ulong)(wide + entries.Length), number[..(IsLarge ? 8 : 4)])) next = IsLarge ? U64(number) : U32(number);
        var read = ImmutableArray.CreateBuilder<TiffEntry>((int)count);
        for (var i = 0; i < entries.Length; i += EntrySize)
        {
            var entry = entries.AsSpan(i, EntrySize);
            read.Add(
                new TiffEntry(U16(entry), U16(entry[2..]), IsLarge ? U64(entry[4..]) : U32(entry[4..]), [.. entry[(IsLarge ? 12 : 8)..]]));
        }

        return new TiffDirectory(this, read.MoveToImmutable());
    }

    private ulong Number(ReadOnlySpan<byte> bytes) => bytes.Length switch
    {
        1 => bytes[0],
        2 => U16(bytes),
        4 => U32(bytes),
        _ => U64(bytes),
    };

    private ushort U16(ReadOnlySpan<byte> bytes) =>
        IsBigEndian ? BinaryPrimitives.ReadUInt16BigEndian(bytes) : BinaryPrimitives.ReadUInt16LittleEndian(bytes);

    private uint U32(ReadOnlySpan<byte> bytes) =>
        IsBigEndian ? BinaryPrimitives.ReadUInt32BigEndian(bytes) : BinaryPrimitives.ReadUInt32LittleEndian(bytes);

    private ulong U64(ReadOnlySpan<byte> bytes) =>
        IsBigEndian ? BinaryPrimitives.ReadUInt64BigEndian(bytes) : BinaryPrimitives.ReadUInt64LittleEndian(bytes);
}

/// <summary>A directory: what is said of one picture.</summary>
/// <param name="File">The file that it stands in.</param>
/// <param name="Entries">What is said, in the file's order.</param>
internal sealed record TiffDirectory(TiffFile File, ImmutableArray<TiffEntry> Entries)
{
    // Of what a number is asked for here there is one a band at most.
    private const int MostNumbers = 256;

    /// <returns>Null if there is none.</returns>
    public TiffEntry? Entry(int tag) => Entries.FirstOrDefault(entry => entry.Tag == tag);

    /// <summary>The first number of an entry.</summary>
    /// <returns>Null if there is none.</returns>
    public ulong? Number(int tag) => Entry(tag) is { } entry && File.Numbers(entry, MostNumbers) is [var number, ..] ? number : null;
}

/// <summary>What a directory says of one thing.</summary>
/// <param name="Type">The type of its values.</param>
/// <param name="Field">The values where they fit in, else where they lie.</param>
internal sealed record TiffEntry(ushort Tag, ushort Type, ulong Count, ImmutableArray<byte> Field);
