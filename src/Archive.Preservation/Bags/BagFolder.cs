using System.Collections.Frozen;
using System.Collections.Immutable;
using System.IO.Enumeration;

namespace Archive.Preservation;

/// <summary>Everything that lies in a folder: plain files with their sizes, and links, which are never followed.</summary>
/// <param name="Root">Full path of the folder.</param>
/// <param name="Sizes">Bytes of each plain file, by path.</param>
/// <param name="Links">Paths of links, ordinal.</param>
internal sealed record BagFolder(string Root, FrozenDictionary<string, long> Sizes, ImmutableArray<string> Links)
{
    /// <summary>Paths of all plain files, ordinal.</summary>
    internal ImmutableArray<string> Files { get; } = [.. Sizes.Keys.Order(StringComparer.Ordinal)];

    /// <summary>Sweeps a folder.</summary>
    /// <param name="root">Full path; it may itself be reached through a link.</param>
    /// <exception cref="IOException">A folder in it cannot be listed.</exception>
    internal static BagFolder Of(string root)
    {
        var options = new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = 0, IgnoreInaccessible = false };
        var entries = new FileSystemEnumerable<(string Path, bool IsFolder, bool IsLink, long Size)>(root, Entry, options)
        {
            ShouldRecursePredicate = (ref FileSystemEntry entry) => !IsLink(ref entry),
        };
        var sizes = new Dictionary<string, long>(StringComparer.Ordinal);
        var links = new List<string>();
        foreach (var (path, isFolder, isLink, size) in entries)
        {
            if (isLink) links.Add(path);
            else if (!isFolder) sizes.Add(path, size);
        }

        return new BagFolder(root, sizes.ToFrozenDictionary(StringComparer.Ordinal), [.. links.Order(StringComparer.Ordinal)]);

        (string, bool, bool, long) Entry(ref FileSystemEntry entry)
        {
            var path = Path.GetRelativePath(root, entry.ToFullPath()).Replace(Path.DirectorySeparatorChar, '/');
            var isLink = IsLink(ref entry);
            return (path, entry.IsDirectory, isLink, isLink || entry.IsDirectory ? 0 : entry.Length);
        }

        static bool IsLink(ref FileSystemEntry entry) => (entry.Attributes & FileAttributes.ReparsePoint) != 0;
    }

    /// <summary>Full path of one of its files.</summary>
    /// <param name="path">Its path.</param>
    internal string FullPath(string path) => Path.Combine(Root, path.Replace('/', Path.DirectorySeparatorChar));

    /// <summary>The bytes of a small file. What has no length is not opened: it may be a pipe that nobody writes to.</summary>
    /// <param name="path">Its path.</param>
    internal byte[] Bytes(string path) => Sizes[path] == 0 ? [] : File.ReadAllBytes(FullPath(path));
}
