using Archive.Storage;

namespace Archive.Publishing.Publication;

/// <summary>
/// The private folder beside a site in which its successor is built, with <c>lock</c>, <c>next</c> (the new tree) and, only where two
/// folders cannot change places in one step, <c>old</c>. Anyone who holds the lock may touch the site.
/// </summary>
/// <remarks>
/// What a killed process left is put right by the next one that takes the lock: a site that was moved aside comes back, the rest is
/// deleted.
/// </remarks>
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

    /// <summary>Where the folder of a site is.</summary>
    /// <param name="site">Full path of the site's folder.</param>
    internal static string PathFor(string site) => PrivateFolder.Beside(site, "publishing");

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
            if (Directory.EnumerateFileSystemEntries(folder)
                .FirstOrDefault(entry => Path.GetFileName(entry) is not (FolderLock.FileName or "next" or "old")) is { } strange)
            {
                throw new IOException($"{folder} is a work folder for publishing, but contains {Path.GetFileName(strange)}");
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

    /// <summary>
    /// Puts the finished tree in the site's place. Each step of the sequence is done when the next one is asked for; the process may be
    /// killed after any of them: the site is the old one or the new one, with its owner's entries.
    /// </summary>
    /// <param name="spare">Keeps the old tree's folders where the two trees change places.</param>
    /// <param name="files">Paths of the old tree's files.</param>
    internal IEnumerable<string> Exchange(SpareTree spare, IEnumerable<string> files)
    {
        if (!Directory.Exists(_site))
        {
            Directory.Move(Next, _site);
            yield return "moved";
            yield break;
        }

        OwnerEntries.CopyTo(_site, Next);
        yield return "owner's entries copied";
        if (NativeFolder.TryExchange(Next, _site))
        {
            yield return "exchanged";
            OwnerEntries.GiveBack(Next, _site);
            yield return "owner's folders given back";
            spare.Keep(Next, files);
            yield return "old tree's folders kept";
            yield break;
        }

        Directory.Move(_site, Old);
        yield return "moved aside";
        Directory.Move(Next, _site);
        yield return "moved";
    }

    /// <summary>Deletes what the exchange left. What cannot be deleted now is left to the next run.</summary>
    internal void Clear()
    {
        try
        {
            PutRight();
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // The site is in place either way.
        }
    }

    /// <summary>Lets the lock go; the folder goes with it unless something is left in it for the next run to put right.</summary>
    public void Dispose() => _lock.Dispose();

    private void PutRight()
    {
        if (Directory.Exists(Old) && !Directory.Exists(_site)) Directory.Move(Old, _site);
        foreach (var left in (ReadOnlySpan<string>)[Next, Old])
        {
            if (!Path.Exists(left)) continue;
            if (PrivateFolder.IsFolder(left) && Directory.Exists(_site)) OwnerEntries.MoveMissing(left, _site);
            PrivateFolder.Delete(left);
        }
    }
}
