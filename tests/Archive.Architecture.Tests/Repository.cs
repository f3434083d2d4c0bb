namespace Archive.Architecture.Tests;

/// <summary>The repository as it lies on the disk.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    /// <summary>Names of the rooms, such as <c>Archive.Records</c>: the projects under <c>src/</c>.</summary>
    public static string[] Projects { get; } =
        [.. Directory.GetFiles(Path.Combine(Root, "src"), "*.csproj", SearchOption.AllDirectories).Select(project => Path.GetFileNameWithoutExtension(project)!).Order(StringComparer.Ordinal)];

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Archive.sln"))) folder = folder.Parent ?? throw new InvalidOperationException("no Archive.sln above the tests");
        return folder.FullName;
    }
}
