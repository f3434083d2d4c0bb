using System.Collections.Immutable;
using System.Globalization;
using System.IO.Compression;
using Archive.Diagnostics;

namespace Archive.Preservation;

/// <summary>What a ZIP file says of one thing in it.</summary>
/// <param name="Number">Its place in the list.</param>
/// <param name="Name">Its name as it is written.</param>
/// <param name="Packed">Bytes that it takes in the file.</param>
/// <param name="Size">Bytes that it would have unpacked.</param>
/// <param name="Mode">What Unix makes of it; 0 where that is not said.</param>
/// <param name="IsEncrypted">Whether it wants a password.</param>
internal readonly record struct PackedEntry(int Number, string Name, long Packed, long Size, int Mode, bool IsEncrypted)
{
    // The kinds of file of Unix, as stat(2) gives them.
    private const int Kinds = 0xF000, Plain = 0x8000, Folder = 0x4000;

    internal bool IsFolder => Name.EndsWith('/');

    /// <summary>Whether it is neither file nor folder: a link, a pipe, a device.</summary>
    internal bool IsLink => (Mode & Kinds) is not (0 or Plain or Folder);

    internal static PackedEntry Of(ZipArchiveEntry entry, int number) => Math.Min(entry.Length, entry.CompressedLength) < 0
        ? throw new InvalidDataException("a file in it has less than no length")
        : new(number, entry.FullName, entry.CompressedLength, entry.Length, (entry.ExternalAttributes >> 16) & 0xFFFF, entry.IsEncrypted);
}

/// <summary>
/// What is in a ZIP file, held against what a packed bag is: one folder, which is the bag. RFC 8493 says nothing of packing; the last word on it
/// is section 4 of the draft before it, draft-kunze-bagit-14.
/// </summary>
/// <param name="Zip">Full path of the file.</param>
/// <param name="Length">Its bytes.</param>
/// <param name="Reader">Reads it.</param>
/// <param name="Entries">What is in it, in the file's order.</param>
internal sealed record PackedList(string Zip, long Length, ZipArchive Reader, ImmutableArray<PackedEntry> Entries)
{
    // Records pack to a tenth or a twentieth, and pictures not at all; a packer of the usual kind cannot go below a 1032nd.
    private const long MostGrowth = 100, LeastSuspect = 1L << 30;

    /// <summary>Why it is not to be read: it would grow beyond measure; null where it would not.</summary>
    internal Diagnostic? Growth()
    {
        var (packed, size) = (Entries.Sum(entry => (decimal)entry.Packed), Entries.Sum(entry => (decimal)entry.Size));
        if (packed > Length)
        {
            return Faults.PackedGrowth.At(At(""), "its files take more room than it has: one stretch of it is unpacked again and again", "do not unpack it; ask whoever made it");
        }

        return size <= LeastSuspect || size <= (decimal)Length * MostGrowth ? null : Faults.PackedGrowth.At(
            At(""), string.Create(CultureInfo.InvariantCulture, $"it would unpack to {size:0} bytes, {size / Length:0} times its own"),
            "if you trust its maker and have the room, unpack it and audit the folder");
    }

    /// <summary>The folder that is the bag, with the stroke behind it; empty where the bag lies at the top.</summary>
    internal string Root()
    {
        if (Entries.Any(entry => entry.Name == BagDeclaration.FileName)) return "";
        var tops = Entries.Where(entry => entry.Name.Contains('/', StringComparison.Ordinal) && BagPath.Danger(entry.Name) is null).Select(entry => Top(entry.Name)).Distinct(StringComparer.Ordinal).ToList();
        return tops.Find(top => Entries.Any(entry => entry.Name == top + BagDeclaration.FileName)) ?? tops.FirstOrDefault() ?? "";
    }

    /// <summary>Tells what keeps it from being a packed bag, or would do harm to whoever unpacks it.</summary>
    /// <param name="root">The folder that is the bag.</param>
    internal IEnumerable<Diagnostic> Faulty(string root)
    {
        if (root.Length == 0) yield return Faults.PackedShape.At(At(""), "the bag lies at its top, not in a folder of its own", "unpack it into an empty folder, and audit that");
        var first = new Dictionary<string, string>(StringComparer.Ordinal);
        var folders = Entries.SelectMany(entry => Folders(entry.Name)).ToHashSet(StringComparer.Ordinal);
        foreach (var entry in Entries)
        {
            if (Danger(entry.Name) is { } why)
            {
                yield return Faults.PathLeavesBag.At(At(entry.Name), $"{entry.Name} {why}", "it was not followed; do not unpack this file with a tool that would");
                continue;
            }

            if (!entry.Name.StartsWith(root, StringComparison.Ordinal)) yield return Faults.PackedShape.At(At(entry.Name), $"{entry.Name} lies beside the bag", "a packed bag is one folder and nothing else; take it out, or pack the bag anew");
            var name = entry.Name.TrimEnd('/');
            if (!entry.IsFolder && folders.Contains(name)) yield return Faults.PackedTwice.At(At(name), $"{name} is packed as a file and as a folder", "it cannot be unpacked; pack the bag anew from where it is whole");
            if (first.TryAdd(BagPath.Fold(name), name) || (entry.IsFolder && first[BagPath.Fold(name)] == name)) continue;
            var other = first[BagPath.Fold(name)];
            yield return Faults.PackedTwice.At(
                At(name), name == other ? $"{name} is packed twice" : $"{name} and {other} are one name to some systems",
                "whoever unpacks it keeps one of the two, and which one depends on the tool; pack the bag anew from where it is whole");
        }
    }

    /// <summary>Why a name must not be unpacked, on whatever system; null where it stays in its folder.</summary>
    /// <param name="name">The name.</param>
    internal static string? Danger(string name) =>
        BagPath.Danger(name) ?? (name.Contains('\\', StringComparison.Ordinal) ? "is written with a backslash, which leads into a folder on some systems" : null);

    /// <summary>The folders that a name leads through.</summary>
    /// <param name="name">The name.</param>
    internal static IEnumerable<string> Folders(string name)
    {
        for (var at = name.IndexOf('/', StringComparison.Ordinal); at >= 0; at = name.IndexOf('/', at + 1)) yield return name[..at];
    }

    private static string Top(string name) => name[..(name.IndexOf('/', StringComparison.Ordinal) + 1)];

    private static SourceSpan At(string path) => new SourceText(path, "").Whole;
}
