using System.Collections.Immutable;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Markup.Templates;

/// <summary>What can stand in a theme's folder.</summary>
public enum ThemeEntryKind
{
    File,

    /// <summary>A link, wherever it leads.</summary>
    Link,

    /// <summary>A pipe, a device, a socket.</summary>
    Special,

    /// <summary>A folder that cannot be listed.</summary>
    Unreadable,
}

/// <summary>An entry of a theme's folder.</summary>
/// <param name="Path">Path below the folder that was listed, separated by <c>/</c>; empty for that folder itself.</param>
public readonly record struct ThemeEntry(string Path, ThemeEntryKind Kind);

/// <summary>
/// Lists folders of themes. A theme may come from a stranger: no link in it is followed, nothing in it is opened that is no file.
/// </summary>
public static class ThemeFiles
{
    /// <summary>All that stands below a folder, ordinal; names that begin with a dot are passed over.</summary>
    /// <param name="folder">Full path; there need not be anything.</param>
    public static ImmutableArray<ThemeEntry> Below(string folder)
    {
        var found = new List<ThemeEntry>();
        Look(new DirectoryInfo(folder), "", found);
        return [.. found.OrderBy(entry => entry.Path, StringComparer.Ordinal)];
    }

    private static void Look(FileSystemInfo entry, string path, List<ThemeEntry> found)
    {
        if (entry.LinkTarget is not null) found.Add(new ThemeEntry(path, ThemeEntryKind.Link));
        else if (entry is not DirectoryInfo folder)
            found.Add(new ThemeEntry(path, SpecialFile.KindOf(entry.FullName) is null ? ThemeEntryKind.File : ThemeEntryKind.Special));
        else if (folder.Exists)
        {
            try
            {
                foreach (var below in folder.EnumerateFileSystemInfos().Where(below => !below.Name.StartsWith('.')))
                    Look(below, path.Length == 0 ? below.Name : $"{path}/{below.Name}", found);
            }
            catch (Exception exception) when (DiskErrors.Is(exception))
            {
                found.Add(new ThemeEntry(path, ThemeEntryKind.Unreadable));
            }
        }
    }
}
