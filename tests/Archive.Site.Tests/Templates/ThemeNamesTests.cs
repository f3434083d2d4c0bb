using Archive.Site.Tests.Pages;
using Xunit;

namespace Archive.Site.Tests.Templates;

/// <summary>The theme's README names all that a page gives to its template: what AF1003 sends a curator to.</summary>
public sealed class ThemeNamesTests
{
    /// <summary>To write the list again after a view model has changed: set <c>ASFOUND_WRITE</c> to 1 and run this test.</summary>
    [Fact]
    public void Every_name_that_a_page_gives_is_listed()
    {
        var path = Path.Combine(Sketch.Repository, "themes", "ledger", "README.md");
        var readme = File.ReadAllText(path);
        var expected = readme[..readme.IndexOf("## Pages\n", StringComparison.Ordinal)] + new ThemeNames().Sections();
        if (Environment.GetEnvironmentVariable("ASFOUND_WRITE") is "1") File.WriteAllText(path, expected);
        Assert.Equal(expected, File.ReadAllText(path), ignoreLineEndingDifferences: true);
    }
}
