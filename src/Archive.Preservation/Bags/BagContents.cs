using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Archive.Preservation.Bags;

/// <summary>What a bag holds, wherever it lies: plain files with their sizes, and links, which are never followed.</summary>
/// <param name="sizes">Bytes of each plain file, by path.</param>
/// <param name="links">Paths of links.</param>
public abstract class BagContents(IEnumerable<KeyValuePair<string, long>> sizes, IEnumerable<string> links)
{
    /// <summary>Bytes of each plain file, by path.</summary>
    internal FrozenDictionary<string, long> Sizes { get; } = sizes.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Paths of links, ordinal.</summary>
    internal ImmutableArray<string> Links { get; } = [.. links.Order(StringComparer.Ordinal)];

    /// <summary>Paths of all plain files, ordinal.</summary>
    public ImmutableArray<string> Files => field.IsDefault ? field = [.. Sizes.Keys.Order(StringComparer.Ordinal)] : field;

    /// <summary>Opens one of its files, to be read from its beginning; several may be open at a time.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    internal abstract Stream Open(string path);

    /// <summary>Whether there is a folder, be it empty.</summary>
    internal abstract bool HasFolder(string path);

    /// <summary>The bytes of a small file.</summary>
    public byte[] Bytes(string path)
    {
        using var file = Open(path);
        using var bytes = new MemoryStream();
        file.CopyTo(bytes);
        return bytes.ToArray();
    }
}
