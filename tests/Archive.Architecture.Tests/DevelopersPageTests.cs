using System.Text.RegularExpressions;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>DEVELOPERS.md names only what is there, and so do the paths in README.md and SECURITY.md: a newcomer goes by them.</summary>
public sealed partial class DevelopersPageTests
{
    // They say what a name looks like.
    private static readonly string[] Forms = ["Diagnostics/Pages/AFnnnn.md", "FRAME/POSITION/PORT"];

    [Fact]
    public void Every_type_member_and_path_that_the_page_names_exists()
    {
        var page = File.ReadAllText(Path.Combine(Repository.Root, "DEVELOPERS.md"));
        var words = Repository.Sources.SelectMany(file => Word().Matches(File.ReadAllText(file)).Select(word => word.Value))
            .Concat(Repository.Sources.Select(file => Path.GetFileNameWithoutExtension(file)))
            .Concat(Directory.GetFiles(Repository.Root, "*.csproj", SearchOption.AllDirectories)
                .SelectMany(file => Path.GetFileNameWithoutExtension(file).Split('.')))
            .ToHashSet(StringComparer.Ordinal);
        var files = Repository.Sources.Concat(Directory.GetFiles(Repository.Root))
            .Select(file => Path.GetFileName(file))
            .ToHashSet(StringComparer.Ordinal);
        var names = Names().Matches(page).Select(name => name.Groups[1].Value).Distinct(StringComparer.Ordinal).ToList();
        Assert.True(names.Count > 50);
        Assert.DoesNotContain(names.Except(Forms), name => !Exists(name));

        bool Exists(string name) =>
            name.Contains('/', StringComparison.Ordinal)
                ? Places(name).Any(place => Path.Exists(Path.Combine(Repository.Root, place)))
                : files.Contains(name) || name.Split('.').All(words.Contains);
    }

    [Theory]
    [InlineData("README.md")]
    [InlineData("SECURITY.md")]
    public void Every_path_that_a_page_names_exists(string page)
    {
        var text = File.ReadAllText(Path.Combine(Repository.Root, page));
        var paths = Paths().Matches(text).Select(path => path.Groups[1].Value).Distinct(StringComparer.Ordinal).ToList();
        Assert.NotEmpty(paths);
        Assert.DoesNotContain(paths, path => !Path.Exists(Path.Combine(Repository.Root, path)));
    }

    // `Plans/Warnings` stands for src/Archive.Plans/Warnings; a type may follow without its ending.
    private static IEnumerable<string> Places(string name) =>
        from start in (string[])["", "src/", "src/Archive."]
        from end in (string[])["", ".cs"]
        select start + name.TrimEnd('/') + end;

    [GeneratedRegex(@"`((?:[A-Z][A-Za-z0-9]*|src|tests|themes)(?:[./][A-Za-z0-9.-]+)*/?)`")]
    private static partial Regex Names();

    // In code spans and in links; a path that is made by a run is not looked for.
    [GeneratedRegex(@"[`(]((?:src|tests|themes|\.ci|\.github)/[A-Za-z0-9./_-]+)[`)]")]
    private static partial Regex Paths();

    [GeneratedRegex(@"\b[A-Z][A-Za-z0-9]+\b")]
    private static partial Regex Word();
}
