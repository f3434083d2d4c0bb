namespace Archive.Preservation.Bags;

/// <summary>A bag in a ZIP file, read where it lies: nothing is unpacked. Several of its files may be read at a time.</summary>
public sealed class ZippedBag : BagContents
{
    private readonly ZippedBagList _list;
    private readonly Dictionary<string, ZippedEntry> _files;
    private readonly HashSet<string> _folders;

    private ZippedBag(ZippedBagList list, Dictionary<string, ZippedEntry> files, IEnumerable<string> links, HashSet<string> folders)
        : base(files.ToDictionary(file => file.Key, file => file.Value.Size), links)
    {
        _list = list;
        _files = files;
        _folders = folders;
    }

    /// <summary>The bag in a folder of it.</summary>
    /// <param name="list">What is in the file; it stays open as long as the bag is read.</param>
    /// <param name="root">The folder, with the stroke behind it; empty where the bag is at the top.</param>
    public static ZippedBag In(ZippedBagList list, string root)
    {
        var files = new Dictionary<string, ZippedEntry>(StringComparer.Ordinal);
        var folders = new HashSet<string>(StringComparer.Ordinal);
        var links = new HashSet<string>(StringComparer.Ordinal);
        foreach (var entry in list.Entries.Where(entry => entry.Name.StartsWith(root, StringComparison.Ordinal)
            && entry.Name.Length > root.Length))
        {
            var path = entry.Name[root.Length..];
            if (path.IndexOf('/', StringComparison.Ordinal) is > 0 and var end) folders.Add(path[..end]);
            if (entry.IsFolder) continue;
            if (entry.IsLink) links.Add(path);
            else files.TryAdd(path, entry);
        }

        return new ZippedBag(list, files, links, folders);
    }

    // Asked of folders at the top alone.
    internal override bool HasFolder(string path) => _folders.Contains(path);

    internal override Stream Open(string path) => new ZippedFile(_list.File, _files[path]);
}
