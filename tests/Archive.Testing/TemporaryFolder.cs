namespace Archive.Testing;

/// <summary>A folder that is deleted when the test ends.</summary>
public sealed class TemporaryFolder : IDisposable
{
    public string Root { get; } = Directory.CreateTempSubdirectory("asfound-test-").FullName;

    public string this[string below] => Path.Combine(Root, below);

    public void Write(string path, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(this[path])!);
        File.WriteAllText(this[path], text);
    }

    /// <summary>Copies a folder's files into it.</summary>
    public void Take(string from)
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
