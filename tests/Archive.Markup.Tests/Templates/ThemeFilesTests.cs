using Archive.Markup.Templates;
using Xunit;

namespace Archive.Markup.Tests.Templates;

/// <summary>What of a folder is a theme's. The folder may be anybody's, or a whole disk.</summary>
public sealed class ThemeFilesTests : IDisposable
{
    private readonly DirectoryInfo _themes = Directory.CreateTempSubdirectory("asfound-themes-");

    public void Dispose() => _themes.Delete(recursive: true);

    [Fact]
    public void Only_templates_and_assets_of_each_theme_are_listed()
    {
        foreach (var path in new[]
        {
            "ledger/templates/page.html", "ledger/assets/fonts/a.woff2", "ledger/README.md", "ledger/node_modules/x/y.js", "letter.txt",
            ".hidden/assets/a.css", "home/someone/assets/a.css", "plain/assets/a.css",
        })
        {
            Put(path);
        }

        Assert.Equal(
            ["ledger/assets/fonts/a.woff2", "ledger/templates/page.html", "plain/assets/a.css"],
            ThemeFiles.OfAll(_themes.FullName).Select(entry => entry.Path));
        Assert.Equal(
            ["assets/fonts/a.woff2", "templates/page.html"],
            ThemeFiles.Of(Path.Combine(_themes.FullName, "ledger")).Select(entry => entry.Path));
        Assert.Empty(ThemeFiles.OfAll(Path.Combine(_themes.FullName, "nowhere")));
    }

    [Fact]
    public void Links_are_listed_and_not_followed()
    {
        if (OperatingSystem.IsWindows()) return;
        Put("plain/assets/a.css");
        Directory.CreateSymbolicLink(Path.Combine(_themes.FullName, "stolen"), "/etc");
        Directory.CreateDirectory(Path.Combine(_themes.FullName, "sly"));
        Directory.CreateSymbolicLink(Path.Combine(_themes.FullName, "sly", "assets"), "/etc");
        Assert.Equal(
            [("stolen", ThemeEntryKind.Link), ("plain/assets/a.css", ThemeEntryKind.File), ("sly/assets", ThemeEntryKind.Link)],
            ThemeFiles.OfAll(_themes.FullName).Select(entry => (entry.Path, entry.Kind)));
        Assert.Equal(
            [new ThemeEntry("", ThemeEntryKind.Link)], ThemeFiles.OfAll(Path.Combine(_themes.FullName, "stolen")));
    }

    private void Put(string path)
    {
        var full = Path.Combine(_themes.FullName, path);
        Directory.CreateDirectory(Path.GetDirectoryName(full)!);
        File.WriteAllText(full, "x");
    }
}
