namespace Archive.Preservation.Tests;

/// <summary>A folder that is gone after the test.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    internal string Root { get; } = Directory.CreateTempSubdirectory("keep-").FullName;

    internal string this[string below] => Path.Combine(Root, below);

    internal void Write(string path, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(this[path])!);
        File.WriteAllText(this[path], text);
    }

    /// <summary>Copies a folder's files into it.</summary>
    internal void Take(string from)
    {
        foreach (var file in Directory.GetFiles(from, "*", SearchOption.AllDirectories))
        {
            var to = this[Path.GetRelativePath(from, file)];
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }
    }

    public void Dispose() => Directory.Delete(Root, recursive: true);
}
