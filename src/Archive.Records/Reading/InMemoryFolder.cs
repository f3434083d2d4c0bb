using System.Collections.Immutable;
using System.Text;
using Archive.Records.Model;

namespace Archive.Records.Reading;

/// <summary>An archive's folder in memory, for tests and trials. Immutable: <see cref="With(string, string)"/> gives another.</summary>
public sealed class InMemoryFolder : IArchiveFolder
{
    private readonly ImmutableSortedDictionary<string, byte[]> _files;

    private InMemoryFolder(ImmutableSortedDictionary<string, byte[]> files) => _files = files;

    /// <summary>A folder without files.</summary>
    public static InMemoryFolder Empty { get; } = new(ImmutableSortedDictionary.Create<string, byte[]>(StringComparer.Ordinal));

    public ImmutableArray<string> Files => [.. _files.Keys.Where(ArchivePath.IsOfRecord)];

    /// <summary>The same folder with a text file more, in UTF-8.</summary>
    /// <param name="path">Its path, separated by <c>/</c>.</param>
    public InMemoryFolder With(string path, string text) => With(path, Encoding.UTF8.GetBytes(text));

    /// <summary>The same folder with a file more.</summary>
    /// <param name="path">Its path, separated by <c>/</c>.</param>
    public InMemoryFolder With(string path, byte[] bytes) => new(_files.SetItem(path, bytes));

    public (byte[]? Bytes, string? Why) Read(string path, long limit) =>
        !_files.TryGetValue(path, out var bytes)
            ? (null, "there is no such file")
            : bytes.LongLength > limit
            ? (null, null)
            : (bytes, null);

    public PathResult Follow(string fromFile, string written) => ArchivePath.Resolve(fromFile, written) switch
    {
        null => new PathResult(PathStatus.Leaves, null),
        { } path => new PathResult(_files.ContainsKey(path) ? PathStatus.Exists : PathStatus.Missing, path),
    };

    /// <summary>Null: nothing of it is on a disk.</summary>
    /// <param name="path">A path within the archive.</param>
    public string? FullPath(string path) => null;
}
