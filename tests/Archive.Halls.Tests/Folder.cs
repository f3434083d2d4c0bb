namespace Archive.Halls.Tests;

/// <summary>Where the cases and fixtures are.</summary>
internal static class Folder
{
    internal static string OfProject { get; } = Find();

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !folder.EnumerateFiles("*.csproj").Any()) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the tests do not run inside their project's folder");
    }
}
