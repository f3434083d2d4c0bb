namespace Archive.Testing;

/// <summary>The repository on disk.</summary>
public static class Repository
{
    public static string Root { get; } = FindRoot();

    /// <summary>Names of the projects under <c>src/</c>, such as <c>Archive.Records</c>.</summary>
    public static string[] Projects { get; } =
        [.. Directory.GetFiles(Path.Combine(Root, "src"), "*.csproj", SearchOption.AllDirectories)
            .Select(project => Path.GetFileNameWithoutExtension(project)!)
            .Order(StringComparer.Ordinal)];

    /// <summary>The C# files of all projects and tests, without what is generated.</summary>
    public static IEnumerable<string> Sources =>
        from folder in (string[])["src", "tests"]
        from file in Directory.EnumerateFiles(Path.Combine(Root, folder), "*.cs", SearchOption.AllDirectories)
        let parts = Path.GetRelativePath(Root, file).Split(Path.DirectorySeparatorChar)
        where !parts.Contains("obj") && !parts.Contains("bin") && !parts.Contains("node_modules")
        select file;

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Archive.sln")))
            folder = folder.Parent ?? throw new InvalidOperationException("no Archive.sln above the tests");
        return folder.FullName;
    }
}
