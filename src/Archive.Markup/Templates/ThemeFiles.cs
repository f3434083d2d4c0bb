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
public sealed record ThemeEntry(string Path, ThemeEntryKind Kind);

/// <summary>
/// Lists folders of themes. A theme may come from a stranger: no link in it is followed, nothing in it is opened that is no file.
/// </summary>
public static class ThemeFiles
{
    // All that a theme is made of; nothing else in its folder is looked at.
    private static readonly string[] Parts = ["templates", "assets"];

    /// <summary>The templates and assets of a theme, ordinal; names that begin with a dot are passed over.</summary>
    /// <param name="theme">Full path; there need not be anything.</param>
    public static ImmutableArray<ThemeEntry> Of(string theme) => Below(theme, below => Parts.Contains(below.Name, StringComparer.Ordinal));

    /// <summary>The templates and assets of all themes in a folder, as of one.</summary>
    /// <param name="themes">Full path. It may be a whole disk, named by mistake: what is no part of a theme is not looked into.</param>
    public static ImmutableArray<ThemeEntry> OfAll(string themes) =>
    [
        .. Below(themes, below => below.LinkTarget is not null),
        .. Directories(themes).SelectMany(name =>
            Of(Path.Combine(themes, name)).Select(entry => entry with { Path = $"{name}/{entry.Path}".TrimEnd('/') })),
    ];

    private static ImmutableArray<ThemeEntry> Below(string folder, Func<FileSystemInfo, bool> isWanted)
    {
        var found = new List<ThemeEntry>();
        Look(new DirectoryInfo(folder), "", found, isWanted);
        return [.. found.OrderBy(entry => entry.Path, StringComparer.Ordinal)];
    }

    private static List<string> Directories(string themes)
    {
        try
        {
            if (new DirectoryInfo(themes) is not { LinkTarget: null, Exists: true } folder) return [];
            return [.. folder.EnumerateDirectories()
                .Where(below => below.LinkTarget is null && !below.Name.StartsWith('.'))
                .Select(below => below.Name)
                .Order(StringComparer.Ordinal)];
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return []; // Listed as unreadable by whoever looks at the folder itself.
        }
    }

    private static void Look(FileSystemInfo entry, string path, List<ThemeEntry> found, Func<FileSystemInfo, bool> isWanted)
    {
        if (entry.LinkTarget is not null) found.Add(new ThemeEntry(path, ThemeEntryKind.Link));
        else if (entry is not DirectoryInfo folder)
            found.Add(new ThemeEntry(path, SpecialFile.KindOf(entry.FullName) is null ? ThemeEntryKind.File : ThemeEntryKind.Special));
        else if (folder.Exists)
        {
            try
            {
                foreach (var below in folder.EnumerateFileSystemInfos().Where(below => !below.Name.StartsWith('.') && isWanted(below)))
                    Look(below, path.Length == 0 ? below.Name : $"{path}/{below.Name}", found, static _ => true);
            }
            catch (Exception exception) when (DiskErrors.Is(exception))
            {
                found.Add(new ThemeEntry(path, ThemeEntryKind.Unreadable));
            }
        }
    }
}
