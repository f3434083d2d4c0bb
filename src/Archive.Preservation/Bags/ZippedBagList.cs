using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Microsoft.Win32.SafeHandles;

namespace Archive.Preservation.Bags;

/// <summary>
/// What is in a ZIP file, compared with what a packed bag is: one folder, which is the bag. RFC 8493 says nothing of packing; the last word
/// on it is section 4 of the draft before it, draft-kunze-bagit-14.
/// </summary>
/// <param name="File">The file, open.</param>
/// <param name="Length">Its bytes.</param>
/// <param name="Entries">What is in it, in the order of its list.</param>
/// <param name="Wrong">In what its list and the rest of it disagree.</param>
/// <param name="Unreadable">Why it has no list that all unpackers read alike; null where it has one.</param>
public sealed record ZippedBagList(
    SafeFileHandle File,
    long Length,
    ImmutableArray<ZippedEntry> Entries,
    ImmutableArray<Diagnostic> Wrong,
    Diagnostic? Unreadable) : IDisposable
{
    /// <summary>Errors that are reported of one file.</summary>
    internal const int MostReported = 1000;

    // Records pack to a tenth or a twentieth, and pictures not at all; a packer of the usual kind cannot go below a 1032nd.
    private const long MostGrowth = 100, LeastSuspect = 1L << 30;

    /// <summary>Why it is not to be read: it has no list to be trusted, or would grow beyond measure; null where it is.</summary>
    public Diagnostic? Refusal() => Unreadable ?? Growth();

    /// <summary>The folder that is the bag, with the stroke behind it; empty where the bag is at the top.</summary>
    public string Root()
    {
        var names = Entries.Select(entry => entry.Name).ToHashSet(StringComparer.Ordinal);
        if (names.Contains(BagDeclaration.FileName)) return "";
        var tops = Entries.Where(entry => entry.Name.Contains('/', StringComparison.Ordinal) && ZippedName.Danger(entry.Name) is null)
            .Select(entry => Top(entry.Name))
            .Distinct(StringComparer.Ordinal)
            .ToList();
        return tops.Find(top => names.Contains(top + BagDeclaration.FileName)) ?? tops.FirstOrDefault() ?? "";
    }

    /// <summary>
    /// Reports what keeps it from being a packed bag, would do harm to anyone who unpacks it, or be unpacked to something else than was
    /// read here.
    /// </summary>
    /// <param name="root">The folder that is the bag.</param>
    internal IEnumerable<Diagnostic> Problems(string root)
    {
        var all = Shape(root).Concat(Wrong).Concat(Names(root)).Take(MostReported + 1).ToList();
        if (all.Count <= MostReported) return all;
        all[^1] = DiagnosticDescriptors.TooManyFaults.At(
            At(""), $"it has more than {MostReported} errors; others are not reported", "do not unpack it; ask the person who made it");
        return all;
    }

    public void Dispose() => File.Dispose();

    private IEnumerable<Diagnostic> Shape(string root)
    {
        if (root.Length == 0) yield return DiagnosticDescriptors.PackedShape.At(
            At(""), "the bag is at its top, not in a folder of its own", "unpack it into an empty folder, and audit that");
        foreach (var entry in Entries.Where(entry => !entry.Name.StartsWith(root, StringComparison.Ordinal)
            && ZippedName.Danger(entry.Name) is null))
        {
            yield return DiagnosticDescriptors.PackedShape.At(
                At(entry.Name),
                $"{entry.Name} is beside the bag",
                "a packed bag is one folder and nothing else; remove it, or pack the bag again");
        }
    }

    private IEnumerable<Diagnostic> Names(string root)
    {
        var tree = new ZippedTree();
        foreach (var entry in Entries)
        {
            var place = At(entry.Name);
            if (ZippedName.Danger(entry.Name) is { } danger)
            {
                yield return DiagnosticDescriptors.PathLeavesBag.At(
                    place, $"{entry.Name} {danger}", "it was not followed; do not unpack this file with a tool that would");
                continue;
            }

            if ((ZippedName.Change(entry.Name) ?? entry.Header.OtherReading()) is { } change)
            {
                yield return DiagnosticDescriptors.PackedNameChanges.At(
                    place,
                    $"{entry.Name} {change}",
                    "it would not be unpacked under the name that was verified; give it another name, and pack the bag again");
            }

            if (tree.Put(entry.Name) is { } wrong)
            {
                yield return DiagnosticDescriptors.PackedTwice.At(
                    place,
                    wrong,
                    "only one of the two remains after unpacking, and which one depends on the tool; pack the bag again from an intact folder");
            }

            if (entry.IsEncrypted) yield return DiagnosticDescriptors.PackedEncrypted.At(
                place,
                $"{entry.Name} is encrypted",
                "it cannot be verified without its password, which nobody will have in thirty years; pack the bag again without one");
            if (entry.IsLink && !entry.Name.StartsWith(root, StringComparison.Ordinal)) yield return DiagnosticDescriptors.BagLink.At(
                place, $"{entry.Name} is a link; a bag contains only files", "it was not followed");
            if ((entry.DoubtfulKind() ?? (entry.Header.HasDoubtfulField
                ? "has a field that makes some unpackers treat it as another type of file"
                : null)) is { } kind)
            {
                yield return DiagnosticDescriptors.PackedKind.At(place, $"{entry.Name} {kind}", "pack the bag again from an intact folder");
            }
        }
    }

    private Diagnostic? Growth()
    {
        var (packed, size) = (Entries.Sum(entry => (decimal)entry.Packed), Entries.Sum(entry => (decimal)entry.Size));
        if (packed > Length)
        {
            return DiagnosticDescriptors.PackedGrowth.At(
                At(""),
                "its files overlap: the same bytes would be unpacked again and again",
                "do not unpack it; ask the person who made it");
        }

        return size <= LeastSuspect || size <= (decimal)Length * MostGrowth ? null : DiagnosticDescriptors.PackedGrowth.At(
            At(""), string.Create(CultureInfo.InvariantCulture, $"it would unpack to {size:0} bytes, {size / Length:0} times its size"),
            "if you trust the person who made it and have the space, unpack it and audit the folder");
    }

    private static string Top(string name) => name[..(name.IndexOf('/', StringComparison.Ordinal) + 1)];

    private static SourceSpan At(string path) => new SourceText(path, "").Whole;
}
