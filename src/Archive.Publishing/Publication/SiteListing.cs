using System.Collections.Concurrent;
using System.IO.Enumeration;
using Archive.Records.Reading;

namespace Archive.Publishing.Publication;

/// <summary>All files in a site's folder by path, with size and time; no file is opened.</summary>
internal static class SiteListing
{
    /// <summary>Names at the root that begin with a dot belong to the owner and are skipped.</summary>
    /// <param name="folder">Full path of the folder.</param>
    /// <param name="folders">Receives the paths of all folders.</param>
    /// <returns>Size and last writing of each file by path; size -1 for what is no plain file.</returns>
    internal static ConcurrentDictionary<string, (long Size, long ModifiedTicks)> Read(
        string folder, ConcurrentBag<string>? folders = null)
    {
        var found = new ConcurrentDictionary<string, (long, long)>(StringComparer.Ordinal);
        var roots = new List<string>();
        foreach (var entry in Entries(folder, prefix: "", recurse: false))
        {
            if (entry.Path.StartsWith('.')) continue;
            if (entry.IsFolder) Add(roots, entry.Path);
            else found[entry.Path] = (entry.Size, entry.Ticks);
        }

        // A root folder such as cables/ may hold nearly everything: the second level is what is shared out.
        var parts = new List<string>(roots.Count);
        foreach (var root in roots)
        {
            foreach (var entry in Entries(Path.Combine(folder, root), root + "/", recurse: false))
            {
                if (entry.IsFolder) Add(parts, entry.Path);
                else found[entry.Path] = (entry.Size, entry.Ticks);
            }
        }

        Parallel.ForEach(parts, part =>
        {
            foreach (var entry in Entries(Path.Combine(folder, part), part + "/", recurse: true))
            {
                if (entry.IsFolder) folders?.Add(entry.Path);
                else found[entry.Path] = (entry.Size, entry.Ticks);
            }
        });
        return found;

        void Add(List<string> toVisit, string path)
        {
            toVisit.Add(path);
            folders?.Add(path);
        }
    }

    private static FileSystemEnumerable<(string Path, bool IsFolder, long Size, long Ticks)> Entries(
        string folder, string prefix, bool recurse)
    {
        var options = new EnumerationOptions { RecurseSubdirectories = recurse, AttributesToSkip = 0, IgnoreInaccessible = false };
        return new FileSystemEnumerable<(string, bool, long, long)>(folder, Entry, options)
        {
            ShouldRecursePredicate = (ref FileSystemEntry entry) => !IsLink(ref entry)
        };

        (string, bool, long, long) Entry(ref FileSystemEntry entry)
        {
            var below = entry.Directory.Length > folder.Length
                ? string.Concat(entry.Directory[(folder.Length + 1)..], "/", entry.FileName)
                : entry.FileName.ToString();
            var path = prefix + (Path.DirectorySeparatorChar == '/' ? below : below.Replace(Path.DirectorySeparatorChar, '/'));
            if (IsLink(ref entry)) return (path, false, -1, 0);
            if (entry.IsDirectory) return (path, true, 0, 0);

            // Pipes and devices say that they are empty; to open one is to wait for ever.
            return (path, false, entry.Length == 0 && SpecialFile.KindOf(entry.ToFullPath()) is not null
                ? -1
                : entry.Length, entry.LastWriteTimeUtc.UtcTicks);
        }

        static bool IsLink(ref FileSystemEntry entry) => (entry.Attributes & FileAttributes.ReparsePoint) != 0;
    }
}
