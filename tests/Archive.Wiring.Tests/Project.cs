namespace Archive.Wiring.Tests;

/// <summary>This project as it lies on the disk.</summary>
internal static class Project
{
    public static string Folder { get; } = Find();

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !folder.EnumerateFiles("*.csproj").Any()) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the tests do not run inside their project's folder");
    }
}
