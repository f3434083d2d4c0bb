using System.Collections.Immutable;
using System.IO.Enumeration;
using Archive.Preservation.Fixity;
using Archive.Records.Reading;

namespace Archive.Preservation.Bags;

/// <summary>Everything that lies in a folder.</summary>
internal sealed class BagFolder : BagContents
{
    private BagFolder(string root, Dictionary<string, long> sizes, List<string> links, List<(string Path, string Kind)> special)
        : base(sizes, links)
    {
        Root = root;
        Special = [.. special.OrderBy(file => file.Path, StringComparer.Ordinal)];
    }

    /// <summary>Pipes, devices and sockets, with what each is; they are never opened.</summary>
    internal ImmutableArray<(string Path, string Kind)> Special { get; }

    /// <summary>Full path of the folder.</summary>
    internal string Root { get; }

    /// <summary>Sweeps a folder.</summary>
    /// <param name="root">Full path; it may itself be reached through a link.</param>
    /// <exception cref="IOException">A folder in it cannot be listed.</exception>
    internal static BagFolder List(string root)
    {
        var options = new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = 0, IgnoreInaccessible = false };
        var entries = new FileSystemEnumerable<(string Path, bool IsFolder, bool IsLink, long Size)>(root, Entry, options)
        {
            ShouldRecursePredicate = (ref FileSystemEntry entry) => !IsLink(ref entry),
        };
        var sizes = new Dictionary<string, long>(StringComparer.Ordinal);
        var links = new List<string>();
        var special = new List<(string, string)>();
        foreach (var (path, isFolder, isLink, size) in entries)
        {
            if (isLink) links.Add(path);
            // none of them has a size
            else if (!isFolder && size == 0 && SpecialFile.KindOf(Path.Combine(root, path)) is { } kind) special.Add((path, kind));
            else if (!isFolder) sizes[path] = size; // two names that are not UTF-8 may read as one
        }

        return new BagFolder(root, sizes, links, special);

        (string, bool, bool, long) Entry(ref FileSystemEntry entry)
        {
            var path = Path.GetRelativePath(root, entry.ToFullPath()).Replace(Path.DirectorySeparatorChar, '/');
            var isLink = IsLink(ref entry);
            return (path, entry.IsDirectory, isLink, isLink || entry.IsDirectory ? 0 : entry.Length);
        }

        static bool IsLink(ref FileSystemEntry entry) => (entry.Attributes & FileAttributes.ReparsePoint) != 0;
    }

    /// <summary>Full path of one of its files.</summary>
    internal string FullPath(string path) => Path.Combine(Root, path.Replace('/', Path.DirectorySeparatorChar));

    internal override Stream Open(string path) => FileDigester.Open(FullPath(path));

    internal override bool HasFolder(string path) => Directory.Exists(FullPath(path)) && !Links.Contains(path);
}
