using System.Text.RegularExpressions;
using Xunit;

namespace Archive.Site.Tests;

/// <summary>The theme's README names all that a page gives to its template: what AF1003 sends a curator to.</summary>
public sealed class ThemeNamesTests
{
    public static TheoryData<string> Pages => [.. typeof(PageView).Assembly.GetExportedTypes().Where(type => type.IsSubclassOf(typeof(PageView))).Select(type => type.Name)];

    [Theory]
    [MemberData(nameof(Pages))]
    public void Every_name_that_a_page_gives_is_listed(string page)
    {
        var readme = File.ReadAllText(Path.Combine(Repository(), "themes", "ledger", "README.md"));
        var section = Regex.Match(readme, $@"^### {page}\n(.*?)(?=^##|\z)", RegexOptions.Singleline | RegexOptions.Multiline).Value;
        var names = typeof(PageView).Assembly.GetType($"Archive.Site.{page}")!.GetProperties()
            .Where(property => property.DeclaringType!.Name == page && property.Name != "EqualityContract")
            .Select(property => Regex.Replace(property.Name, "(?<!^)([A-Z])", "_$1").ToLowerInvariant());
        Assert.All(names, name => Assert.Contains($"| `{name}` |", section, StringComparison.Ordinal));
    }

    private static string Repository()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Archive.sln"))) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("no repository above the tests");
    }
}
