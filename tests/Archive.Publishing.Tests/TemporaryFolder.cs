namespace Archive.Publishing.Tests;

/// <summary>A folder that is deleted when the test ends.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    internal string Path { get; } = Directory.CreateTempSubdirectory("asfound-").FullName;

    internal string this[string below] => System.IO.Path.Combine(Path, below);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
