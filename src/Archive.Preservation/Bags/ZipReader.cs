using System.Buffers.Binary;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Microsoft.Win32.SafeHandles;

namespace Archive.Preservation.Bags;

/// <summary>
/// Reads what is in a ZIP file (PKWARE's APPNOTE.TXT 6.3.10), and holds the two accounts that the file gives against each other: the list
/// at its end, and the header before each file's data. Some unpackers go by the one, some by the other, and some by what comes first; only
/// a file whose headers agree, and that has nothing beside what is listed, is the same to all of them.
/// </summary>
public static class ZipReader
{
    private const int ListedLength = 46, LocalLength = 30, LongestDescriptor = 24, NoData = -1;

    /// <param name="zip">Its full path.</param>
    /// <exception cref="InvalidDataException">It is no ZIP file, or a damaged one.</exception>
    /// <exception cref="EndOfStreamException">It is shorter than it says.</exception>
    public static ZippedBagList Read(string zip)
    {
        var file = File.OpenHandle(zip, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        try
        {
            var length = RandomAccess.GetLength(file);
            if (ZipEnd.Find(file, length, out var unreadable) is not { } end) return new ZippedBagList(file, length, [], [], unreadable);
            var entries = Listed(file, end);
            if (entries.Count != end.Count)
            {
                unreadable = DiagnosticDescriptors.PackedListContradicts.At(
                    Whole(""),
                    string.Create(CultureInfo.InvariantCulture, $"its list has {entries.Count} files, but its end record says {end.Count}"),
                    "unpackers would find different files in it; get it from another copy, or ask the person who packed it");
            }

            var wrong = new List<Diagnostic>();
            for (var i = 0; i < entries.Count; i++) entries[i] = WithData(file, entries[i], end.ListAt, wrong);
            wrong.AddRange(Between(file, entries, end).Take(ZippedBagList.MostReported));
            return new ZippedBagList(file, length, [.. entries], [.. wrong], unreadable);
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    private static List<ZippedEntry> Listed(SafeFileHandle file, ZipEnd end)
    {
        using var list = new BufferedStream(new ZipSection(file, end.ListAt, end.ListEnd - end.ListAt), 1 << 16);
        var entries = new List<ZippedEntry>();
        var fixedPart = new byte[ListedLength];
        while (list.ReadAtLeast(fixedPart, ListedLength, throwOnEndOfStream: false) is > 0 and var read)
        {
            if (read < ListedLength || !fixedPart.AsSpan().StartsWith("PK\x01\x02"u8))
                throw new InvalidDataException("its list of files is damaged");
            var (name, extra, comment) = (new byte[U16(fixedPart, 28)], new byte[U16(fixedPart, 30)], new byte[U16(fixedPart, 32)]);
            list.ReadExactly(name);
            list.ReadExactly(extra);
            list.ReadExactly(comment);
            var offset = (long)U32(fixedPart, 42);
            var header = new ZipHeader(
                U16(fixedPart, 8),
                U16(fixedPart, 10),
                U32(fixedPart, 16),
                U32(fixedPart, 20),
                U32(fixedPart, 24),
                name,
                extra).Resolved(ref offset)
                ?? throw new InvalidDataException("its list of files does not give the size of one of them");
            if (U16(fixedPart, 34) is not (0 or ushort.MaxValue)) throw new InvalidDataException("it is a part of a file in several parts");
            entries.Add(new ZippedEntry(header.Name, header, offset, NoData, fixedPart[5], U32(fixedPart, 38)));
        }

        return entries;
    }

    // With where its packed bytes lie, by the header before them.
    private static ZippedEntry WithData(SafeFileHandle file, ZippedEntry entry, long listAt, List<Diagnostic> wrong)
    {
        var local = new byte[LocalLength];
        if (entry.HeaderAt <= listAt - LocalLength) ZipSection.ReadExactly(file, entry.HeaderAt, local);
        if (!local.AsSpan().StartsWith("PK\x03\x04"u8)) return Tell("nowhere");
        var (name, extra) = (new byte[U16(local, 26)], new byte[U16(local, 28)]);
        var dataAt = entry.HeaderAt + LocalLength + name.Length + extra.Length;
        if (dataAt + entry.Packed > listAt) return Tell("with more bytes than there are");
        ZipSection.ReadExactly(file, entry.HeaderAt + LocalLength, name);
        ZipSection.ReadExactly(file, entry.HeaderAt + LocalLength + name.Length, extra);
        var header = new ZipHeader(U16(local, 6), U16(local, 8), U32(local, 14), U32(local, 18), U32(local, 22), name, extra);
        var differences = string.Join(", ", entry.Header.Differences(header));
        var otherwise = differences.Length > 0
            ? $"with another {differences}"
            : header.OtherReading() != entry.Header.OtherReading()
            ? "with another name in an extra field"
            : header.HasDoubtfulField && !entry.Header.HasDoubtfulField
            ? "with another type in an extra field"
            : null;
        var found = entry with { DataAt = dataAt };
        if (otherwise is null) return found;
        Tell(otherwise);
        return found;

        ZippedEntry Tell(string how)
        {
            if (wrong.Count < ZippedBagList.MostReported)
            {
                wrong.Add(DiagnosticDescriptors.PackedHeadersDiffer.At(
                    Whole(entry.Name),
                    $"{entry.Name} is in the list, but before its data {how}",
                    "some unpackers use one, some the other, and write different files; pack the bag again from an intact folder"));
            }

            return entry;
        }
    }

    // What lies between files, before the first and behind the last; nothing may, but descriptors.
    private static IEnumerable<Diagnostic> Between(SafeFileHandle file, List<ZippedEntry> entries, ZipEnd end)
    {
        var at = 0L;
        ZippedEntry? before = null;
        foreach (var entry in entries.Where(entry => entry.DataAt != NoData).OrderBy(entry => entry.HeaderAt))
        {
            if (Wrong(entry.HeaderAt) is { } wrong) yield return wrong;
            (before, at) = (entry, Math.Max(at, entry.DataAt + entry.Packed));
        }

        if (Wrong(end.ListAt) is { } last) yield return last;

        Diagnostic? Wrong(long next)
        {
            var gap = next - at;
            var name = before?.Name ?? "";
            if (gap < 0) return Hidden(name, $"what follows {name} overlaps it");
            if (before is not { HasDescriptor: true } described) return gap == 0 ? null : Hidden(name, before is null
                ? $"bytes before its first file belong to no file ({gap} in all)"
                : $"bytes after {name} belong to no file ({gap} in all)");
            var bytes = new byte[gap is > 0 and <= LongestDescriptor ? gap : 0];
            ZipSection.ReadExactly(file, at, bytes);
            return described.Header.IsDescriptor(bytes)
                ? null
                : Hidden(
                    name,
                    $"after {name}, instead of its size and CRC as its headers say, {(gap == 1 ? "there is 1 other byte" : $"there are {gap} other bytes")}");
        }

        static Diagnostic Hidden(string name, string what) =>
            DiagnosticDescriptors.PackedHidden.At(
                Whole(name), what, "some unpackers read what others skip; pack the bag again from an intact folder");
    }

    private static int U16(byte[] bytes, int at) => BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(at));

    private static uint U32(byte[] bytes, int at) => BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(at));

    private static SourceSpan Whole(string path) => new SourceText(path, "").Whole;
}
