using System.Buffers.Binary;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Microsoft.Win32.SafeHandles;

namespace Archive.Preservation.Bags;

/// <summary>Where the list of a ZIP file lies, by the records at the file's end (PKWARE's APPNOTE.TXT 6.3.10, 4.3.14 to 4.3.16).</summary>
/// <param name="ListAt">Where the list begins.</param>
/// <param name="ListEnd">Where it ends, which is where the first of those records begins.</param>
/// <param name="Count">How many files it has.</param>
internal readonly record struct ZipEnd(long ListAt, long ListEnd, long Count)
{
    private const int EndLength = 22, LocatorLength = 20, Zip64Length = 56, LongestComment = ushort.MaxValue;

    /// <summary>
    /// Finds the list. Unpackers look for its end in ways of their own: it is taken only where all of them find the same.
    /// </summary>
    /// <param name="length">Its bytes.</param>
    /// <param name="wrong">Why it is not taken.</param>
    /// <exception cref="InvalidDataException">The file has no such record: it is no ZIP file, or was cut short.</exception>
    internal static ZipEnd? Find(SafeFileHandle file, long length, out Diagnostic? wrong)
    {
        var tail = new byte[(int)Math.Min(length, EndLength + LongestComment)];
        ZipSection.ReadExactly(file, length - tail.Length, tail);
        var last = tail.AsSpan().LastIndexOf("PK\x05\x06"u8);
        if (last < 0 || tail.Length - last < EndLength) throw new InvalidDataException("it does not end with a list of its files");
        var fitting = 0;
        for (var at = 0; tail.AsSpan(at).IndexOf("PK\x05\x06"u8) is >= 0 and var found; at += found + 4)
        {
            var record = tail.AsSpan(at + found);
            if (record.Length >= EndLength && EndLength + U16(record, 20) == record.Length) fitting++;
        }

        var end = tail.AsSpan(last);
        wrong = null;
        var behind = end.Length - EndLength - U16(end, 20);
        if (behind < 0 && fitting == 0) throw new InvalidDataException("it ends within its end record");
        // what comes through a pipe is filled up to a whole block
        if (fitting == 0 && !end[^behind..].ContainsAnyExcept((byte)0)) fitting = 1;
        else if (behind != 0) wrong = fitting > 0 ? TwoEnds() : Hidden($"bytes after its end record belong to no file ({behind} in all)");
        else if (fitting > 1) wrong = TwoEnds();
        return wrong is null ? Read(file, end, length - end.Length, out wrong) : null;
    }

    private static ZipEnd? Read(SafeFileHandle file, ReadOnlySpan<byte> end, long endAt, out Diagnostic? wrong)
    {
        var (count, size, at, listEnd) = ((long)U16(end, 10), (long)U32(end, 12), (long)U32(end, 16), endAt);
        if (Zip64(file, endAt) is { } locator)
        {
            var recordAt = (long)BinaryPrimitives.ReadUInt64LittleEndian(locator.AsSpan(8));
            var record = new byte[Zip64Length];
            if (U32(locator, 4) != 0 || U32(locator, 16) > 1 || recordAt < 0 || recordAt > endAt - LocatorLength - Zip64Length)
                return Contradiction("its zip64 locator leads nowhere", out wrong);
            ZipSection.ReadExactly(file, recordAt, record);
            if (!record.AsSpan().StartsWith("PK\x06\x06"u8)
                || (long)BinaryPrimitives.ReadUInt64LittleEndian(record.AsSpan(4)) != endAt - LocatorLength - recordAt - 12)
            {
                return Contradiction("its zip64 end record is not where its locator leads", out wrong);
            }

            var (count64, size64, at64) = (I64(record, 32), I64(record, 40), I64(record, 48));
            if (U32(record, 16) != 0 || U32(record, 20) != 0 || I64(record, 24) != count64)
                return Contradiction("it is a part of a file in several parts", out wrong);
            if (!Agrees(count, count64, ushort.MaxValue)
                || !Agrees(U16(end, 8), count64, ushort.MaxValue)
                || !Agrees(size, size64, uint.MaxValue)
                || !Agrees(at, at64, uint.MaxValue))
            {
                return Contradiction("its two end records, one of them zip64, do not agree", out wrong);
            }

            (count, size, at, listEnd) = (count64, size64, at64, recordAt);
        }
        else if (U16(end, 4) != 0 || U16(end, 6) != 0 || U16(end, 8) != U16(end, 10))
        {
            return Contradiction("it is a part of a file in several parts", out wrong);
        }

        if (at < 0 || size < 0 || at > listEnd || size > listEnd) return Contradiction("its list of files is outside of it", out wrong);
        wrong = at + size == listEnd ? null : Hidden(
            "its list of files does not end where its end record begins: there are bytes before the first file or around the list");
        return wrong is null ? new ZipEnd(at, listEnd, count) : null;
    }

    private static byte[]? Zip64(SafeFileHandle file, long endAt)
    {
        if (endAt < LocatorLength) return null;
        var locator = new byte[LocatorLength];
        ZipSection.ReadExactly(file, endAt - LocatorLength, locator);
        return locator.AsSpan().StartsWith("PK\x06\x07"u8) ? locator : null;
    }

    // All ones say: see the longer record.
    private static bool Agrees(long field, long value, long allOnes) => field == allOnes || field == value;

    private static int U16(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt16LittleEndian(bytes[at..]);

    private static uint U32(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt32LittleEndian(bytes[at..]);

    private static long I64(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadInt64LittleEndian(bytes[at..]);

    private static ZipEnd? Contradiction(string why, out Diagnostic wrong)
    {
        wrong = DiagnosticDescriptors.PackedListContradicts.At(
            new SourceText("", "").Whole,
            why,
            "unpackers would find different files in it; get it from another copy, or ask the person who packed it");
        return null;
    }

    private static Diagnostic TwoEnds()
    {
        Contradiction("it has two end records, and some unpackers read the one, some the other", out var wrong);
        return wrong;
    }

    private static Diagnostic Hidden(string why) =>
        DiagnosticDescriptors.PackedHidden.At(
            new SourceText("", "").Whole, why, "some unpackers read what others skip; pack the bag again from an intact folder");
}
