using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Preservation.Bags;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Preservation.Sealing;

/// <summary>An original of the record.</summary>
/// <param name="Path">Its path in the archive.</param>
/// <param name="From">Full path of the file that is read: where <paramref name="Path"/> is a link within the archive, of what it leads
/// to.</param>
internal readonly record struct Original(string Path, string From);

/// <summary>The files of an archive as a bag can hold them.</summary>
internal static class SealedOriginals
{
    /// <summary>Finds them, and those that no bag could hold.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="zip">Whether the bag is packed.</param>
    internal static (ImmutableArray<Original> Files, ImmutableArray<Diagnostic> Faults) Find(ArchiveFolder folder, bool zip)
    {
        var files = ImmutableArray.CreateBuilder<Original>(folder.Files.Length);
        var diagnostics = ImmutableArray.CreateBuilder<Diagnostic>();
        foreach (var path in folder.Files)
        {
            var (from, why) = Look(folder, path);
            why ??= BagPath.Danger(Sealer.Record + path);
            var unpacked = zip && why is null ? ZippedName.Danger(Sealer.Record + path) ?? ZippedName.Change(Sealer.Record + path) : null;
            if (unpacked is not null) diagnostics.Add(DiagnosticDescriptors.NotSealable.At(
                new SourceText(path, "").Whole,
                $"{path} {unpacked}: it would not be unpacked as it was packed",
                "rename it, or seal without --zip"));
            else if (why is null) files.Add(new Original(path, from));
            else diagnostics.Add(DiagnosticDescriptors.NotSealable.At(
                new SourceText(path, "").Whole,
                $"{path} {why}, so it cannot be in a bag",
                "correct its name, replace it with a plain file, or put a dot at the start of its name to keep it out of the record"));
        }

        return (files.DrainToImmutable(), diagnostics.DrainToImmutable());
    }

    private static (string From, string? Why) Look(ArchiveFolder folder, string path)
    {
        var file = new FileInfo(folder.FullPath(path));
        if (file.LinkTarget is null) return (file.FullName, file.Exists ? null : "has a name that is not written in UTF-8, or is gone");
        if (RealPath.Resolve(file.FullName) is not { } end || !File.Exists(end)) return (file.FullName, "is a link that leads to no file");
        return (end, end.StartsWith((RealPath.Resolve(folder.Root) ?? folder.Root) + Path.DirectorySeparatorChar, StringComparison.Ordinal)
            ? null
            : "is a link that leads out of the archive");
    }
}
