namespace Archive.Preservation;

/// <summary>A bag in a ZIP file, read where it lies: nothing is unpacked. Several of its files may be read at a time.</summary>
internal sealed class PackedBag : BagContents
{
    private readonly PackedList _list;
    private readonly Dictionary<string, PackedEntry> _files;
    private readonly HashSet<string> _folders;

    private PackedBag(PackedList list, Dictionary<string, PackedEntry> files, IEnumerable<string> links, HashSet<string> folders)
        : base(files.ToDictionary(file => file.Key, file => file.Value.Size), links)
    {
        _list = list;
        _files = files;
        _folders = folders;
    }

    /// <summary>The bag in a folder of it.</summary>
    /// <param name="list">What is in the file; it stays open as long as the bag is read.</param>
    /// <param name="root">The folder, with the stroke behind it; empty where the bag lies at the top.</param>
    internal static PackedBag In(PackedList list, string root)
    {
        var files = new Dictionary<string, PackedEntry>(StringComparer.Ordinal);
        var folders = new HashSet<string>(StringComparer.Ordinal);
        var links = new HashSet<string>(StringComparer.Ordinal);
        foreach (var entry in list.Entries.Where(entry => entry.Name.StartsWith(root, StringComparison.Ordinal) && entry.Name.Length > root.Length))
        {
            var path = entry.Name[root.Length..];
            if (path.IndexOf('/', StringComparison.Ordinal) is > 0 and var end) folders.Add(path[..end]);
            if (entry.IsFolder) continue;
            if (entry.IsLink) links.Add(path);
            else files.TryAdd(path, entry);
        }

        return new PackedBag(list, files, links, folders);
    }

    // Asked of folders at the top alone.
    internal override bool HasFolder(string path) => _folders.Contains(path);

    internal override Stream Open(string path) => new PackedFile(_list.File, _files[path]);
}
