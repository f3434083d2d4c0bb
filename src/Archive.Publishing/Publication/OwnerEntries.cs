using Archive.Storage;

namespace Archive.Publishing.Publication;

/// <summary>
/// Names at a site's root that begin with a dot are its owner's: <c>.git</c>, <c>.well-known</c>, <c>.htaccess</c>. A new tree gets all of
/// them before it takes the site's place, so that they are in the site at every moment.
/// </summary>
internal static class OwnerEntries
{
    /// <summary>Gives the owner's files of a site second names in another tree, at the same places; a link stays a link.</summary>
    /// <param name="site">Full path of the site.</param>
    /// <param name="next">Full path of the tree.</param>
    /// <exception cref="IOException">One of them cannot be copied.</exception>
    internal static void CopyTo(string site, string next)
    {
        foreach (var entry in In(site)) Copy(entry, Path.Combine(next, entry.Name));
    }

    /// <summary>
    /// Puts the owner's own folders back in the place of their copies, each in one step: a process that works in one goes on in it.
    /// </summary>
    /// <param name="left">Full path of the tree that was the site.</param>
    /// <param name="site">Full path of the site.</param>
    internal static void GiveBack(string left, string site)
    {
        foreach (var own in In(left).Where(entry => PrivateFolder.IsFolder(entry.FullName)))
        {
            var copy = Path.Combine(site, own.Name);
            try
            {
                if (PrivateFolder.IsFolder(copy)) NativeFolder.TryExchange(own.FullName, copy);
            }
            catch (IOException)
            {
                // The copy has the same files.
            }
        }
    }

    /// <summary>Moves what appeared in the old tree while the new one took its place.</summary>
    /// <param name="left">Full path of the tree that was the site.</param>
    /// <param name="site">Full path of the site.</param>
    internal static void MoveMissing(string left, string site)
    {
        foreach (var entry in In(left))
        {
            var to = Path.Combine(site, entry.Name);
            if (Path.Exists(to)) continue;
            if (PrivateFolder.IsFolder(entry.FullName)) Directory.Move(entry.FullName, to);
            else File.Move(entry.FullName, to);
        }
    }

    private static FileSystemInfo[] In(string folder) =>
        [.. new DirectoryInfo(folder).EnumerateFileSystemInfos().Where(entry => entry.Name.StartsWith('.'))];

    private static void Copy(FileSystemInfo entry, string to)
    {
        if (Path.Exists(to)) return;
        if (entry is DirectoryInfo { LinkTarget: null } folder)
        {
            Directory.CreateDirectory(to);
            Parallel.ForEach(folder.EnumerateFileSystemInfos(), below => Copy(below, Path.Combine(to, below.Name)));
            if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(to, folder.UnixFileMode);
        }
        else if (!NativeFolder.TryLink(entry.FullName, to))
        {
            if (entry.LinkTarget is { } target) File.CreateSymbolicLink(to, target);
            else File.Copy(entry.FullName, to);
        }
    }
}
