namespace Archive.Preservation.Tests;

/// <summary>Where these tests lie in the repository.</summary>
internal static class TestFolder
{
    internal static string Folder { get; } = Find();

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !folder.EnumerateFiles("*.csproj").Any()) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the tests do not run inside their project's folder");
    }
}
