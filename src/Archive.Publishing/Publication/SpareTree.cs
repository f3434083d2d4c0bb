using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Storage;

namespace Archive.Publishing.Publication;

/// <summary>
/// The folders of the tree that was the site before the present one. They are kept in the cache, and the next tree grows in them: to make
/// a folder for each page, and to delete it, is much of what a disk has to do for a publication.
/// </summary>
/// <remarks>
/// Only folders are kept: a file of the cache that is also the site's would change the site where it is damaged, and would take room where
/// the site is deleted. Whatever else is found among them is deleted, never followed. What lies at the root of a tree is not kept, names of
/// the owner among it.
/// </remarks>
/// <param name="kept">Full path of the folder that they are kept in between publications; null where there is none.</param>
/// <param name="next">Full path of the folder in which the new tree grows.</param>
public sealed class SpareTree(string? kept, string next)
{
    /// <summary>What the names of such folders begin with.</summary>
    internal const string Prefix = "spare-";

    private HashSet<string> _folders = [];

    // Then a folder of the old tree would lend its name to one that is written otherwise.
    private bool IgnoresCase => Path.Exists(Path.Combine(Path.GetDirectoryName(next)!, Path.GetFileName(next).ToUpperInvariant()));

    /// <summary>Makes the new tree's folder and moves into it what is kept.</summary>
    /// <exception cref="IOException">The folder cannot be made.</exception>
    internal void Take()
    {
        Directory.CreateDirectory(next);
        if (kept is null || !PrivateFolder.IsFolder(kept) || IgnoresCase) return;
        try
        {
            MoveFolders(kept, next);
            PrivateFolder.Delete(kept);
            var folders = new ConcurrentBag<string>();
            foreach (var planted in SiteListing.Read(next, folders).Keys) File.Delete(Path.Combine(next, planted));
            _folders = folders.ToHashSet(StringComparer.Ordinal);
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // What cannot be read here may not be deletable either: it goes back to where it is in nobody's way.
            Directory.CreateDirectory(kept);
            MoveFolders(next, kept);
            Drop(kept);
        }
    }

    /// <summary>Whether the new tree has a folder already.</summary>
    internal bool Has(string folder) => _folders.Contains(folder);

    /// <summary>Makes way for a file where the old tree had a folder.</summary>
    internal void MakeWay(string path)
    {
        if (_folders.Contains(path)) Directory.Delete(Path.Combine(next, path), recursive: true);
    }

    /// <summary>Deletes folders that the finished tree does not need.</summary>
    /// <param name="files">The files of the finished tree.</param>
    internal void Finish(ImmutableArray<PublishedFile> files)
    {
        if (_folders.Count == 0) return;
        foreach (var file in files)
        {
            for (var slash = file.Path.LastIndexOf('/'); slash > 0; slash = file.Path.LastIndexOf('/', slash - 1))
                _folders.Remove(file.Path[..slash]);
        }

        foreach (var folder in _folders.OrderByDescending(folder => folder.Length).Select(folder => Path.Combine(next, folder)))
        {
            if (Directory.Exists(folder)) Directory.Delete(folder);
        }
    }

    /// <summary>Keeps the folders of the old tree. What cannot be kept is left in its place.</summary>
    /// <param name="old">Full path of the tree that was the site.</param>
    /// <param name="files">Paths of its files.</param>
    internal void Keep(string old, IEnumerable<string> files)
    {
        if (kept is null) return;
        try
        {
            Parallel.ForEach(files, path => File.Delete(Path.Combine(old, path)));

            // One for each cache: those of sites that are no more would lie there for ever.
            foreach (var other in Directory.GetDirectories(Path.GetDirectoryName(kept)!, Prefix + "*")) PrivateFolder.Delete(other);
            Directory.CreateDirectory(kept);
            MoveFolders(old, kept);
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // There is no cache, or it is on another disk: the next tree is made from nothing.
            Drop(kept);
        }
    }

    // One by one, so that the root is a new folder each time: anyone who works in the old one finds it empty, as if it were deleted.
    private static void MoveFolders(string from, string to)
    {
        foreach (var folder in new DirectoryInfo(from).GetDirectories())
        {
            if (folder.LinkTarget is null && !folder.Name.StartsWith('.')) Directory.Move(folder.FullName, Path.Combine(to, folder.Name));
        }
    }

    private static void Drop(string folder)
    {
        try
        {
            PrivateFolder.Delete(folder);
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // It is never used as it is.
        }
    }
}
