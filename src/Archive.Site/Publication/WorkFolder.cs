namespace Archive.Site;

/// <summary>
/// The folder beside a site in which its successor is built: <c>.NAME.publishing</c> beside <c>NAME</c>, with <c>lock</c>, <c>next</c> (the new tree)
/// and, only where two folders cannot change places in one step, <c>old</c>. Whoever holds the lock may touch the site.
/// </summary>
/// <remarks>What a killed process left is put right by the next one that takes the lock: a site that was moved aside comes back, the rest is deleted.</remarks>
internal sealed class WorkFolder : IDisposable
{
    private readonly string _site;
    private readonly string _folder;
    private readonly FolderLock _lock;

    private WorkFolder(string site, string folder, FolderLock held)
    {
        _site = site;
        _folder = folder;
        _lock = held;
    }

    /// <summary>The new tree.</summary>
    internal string Next => Path.Combine(_folder, "next");

    private string Old => Path.Combine(_folder, "old");

    /// <summary>Whether a process is publishing into a site, or was killed while it did.</summary>
    /// <param name="site">Full path of the site's folder.</param>
    internal static bool IsLeftBeside(string site) => Directory.Exists(PathFor(site));

    /// <summary>Takes the lock and puts right what a killed process left.</summary>
    /// <param name="site">Full path of the site's folder.</param>
    /// <returns>The folder, or null while another process holds the lock.</returns>
    /// <exception cref="IOException">The folder beside the site cannot be made, or holds what is not ours.</exception>
    internal static WorkFolder? Take(string site)
    {
        var folder = PathFor(site);
        if (FolderLock.Take(folder) is not { } held) return null;
        var work = new WorkFolder(site, folder, held);
        try
        {
            if (Directory.EnumerateFileSystemEntries(folder).FirstOrDefault(entry => Path.GetFileName(entry) is not (FolderLock.FileName or "next" or "old")) is { } strange)
            {
                throw new IOException($"{folder} is where a site is made, but holds {Path.GetFileName(strange)}");
            }

            work.PutRight();
            return work;
        }
        catch
        {
            work.Dispose();
            throw;
        }
    }

    /// <summary>Puts the finished tree in the site's place in one step and deletes what stood there.</summary>
    internal void Swap()
    {
        if (!Directory.Exists(_site)) Directory.Move(Next, _site);
        else if (!NativeFolder.TryExchange(Next, _site))
        {
            Directory.Move(_site, Old);
            Directory.Move(Next, _site);
        }
    }

    /// <summary>Deletes what the swap left, after handing the owner's dot-folders on. What cannot be deleted now is left to the next run.</summary>
    internal void Clear()
    {
        try
        {
            PutRight();
        }
        catch (Exception exception) when (DiskTrouble.Is(exception))
        {
            // The site is in place either way.
        }
    }

    /// <summary>Lets the lock go; the folder goes with it unless something is left in it for the next run to put right.</summary>
    public void Dispose() => _lock.Dispose();

    private static string PathFor(string site) => Path.Combine(Path.GetDirectoryName(site)!, $".{Path.GetFileName(site)}.publishing");

    private void PutRight()
    {
        if (Directory.Exists(Old) && !Directory.Exists(_site)) Directory.Move(Old, _site);
        foreach (var left in (ReadOnlySpan<string>)[Next, Old])
        {
            if (!Directory.Exists(left)) continue;
            HandOn(left);
            Delete(left);
        }
    }

    private void HandOn(string from)
    {
        if (!Directory.Exists(_site)) return;
        foreach (var entry in Directory.EnumerateFileSystemEntries(from, ".*"))
        {
            var to = Path.Combine(_site, Path.GetFileName(entry));
            if (Path.Exists(to)) continue;
            if (Directory.Exists(entry)) Directory.Move(entry, to);
            else File.Move(entry, to);
        }
    }

    private static void Delete(string folder)
    {
        foreach (var part in Directory.EnumerateDirectories(folder))
        {
            if ((File.GetAttributes(part) & FileAttributes.ReparsePoint) != 0) continue;
            Parallel.ForEach(Directory.GetDirectories(part), below => Directory.Delete(below, recursive: true));
        }

        Directory.Delete(folder, recursive: true);
    }
}
