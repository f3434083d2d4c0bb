using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Archive.Markup.Links;
using Archive.Markup.Templates;
using Xunit;

namespace Archive.Site.Tests.Pages;

/// <summary>Record text never becomes markup, on any type of page.</summary>
public sealed class HostileRecordTests
{
    // A run of all that has ever broken out of a page, with a right-to-left override that is never closed.
    private const string Hostile =
        "x\"'><script>alert(1)</script><img src=x onerror=alert(2)>]]>{{ 7 * 7 }}&amp;<!--\u202E[a](javascript:alert(3))";

    private static readonly (string Path, string Text)[] Files = HostileArchive.With(Hostile);

    private static string AdjustsBase =>
        ContentSecurityPolicy.Base(Href.OfHost(new Uri("https://archive.example/"))).Html.Split("<script>")[1].Split("</script>")[0];

    [Fact]
    public void No_text_becomes_markup()
    {
        var parser = new HtmlParser();
        var pages = Sketch.Of(Files).Pages();
        foreach (var (path, text) in pages)
        {
            var document = parser.ParseDocument(text);

            // The one script without a file adjusts the base of the page for what is not there; it is ours exactly.
            var scripts = document.Scripts.Where(script => (path != "404.html" || script.TextContent != AdjustsBase)
                && script.Type != "application/ld+json");

            // Data is no program; it is whole, so nothing in it ended its element.
            Assert.All(document.Scripts.Where(script => script.Type == "application/ld+json"), data =>
                System.Text.Json.JsonDocument.Parse(data.TextContent).Dispose());
            Assert.All(scripts, script => Assert.Matches(@"^(\.\./)*assets/[a-z-]+\.js$", script.GetAttribute("src")));
            Assert.DoesNotContain(document.QuerySelectorAll("img"), image => image.GetAttribute("src") == "x");
            Assert.DoesNotContain(document.All.SelectMany(element => element.Attributes), attribute =>
                attribute.Name.StartsWith("on", StringComparison.Ordinal));
            Assert.DoesNotContain(document.QuerySelectorAll("[href]"), link =>
                link.GetAttribute("href")!.Contains("script:", StringComparison.OrdinalIgnoreCase));
            Assert.DoesNotContain(document.Descendants(), node => node.NodeType == NodeType.Comment);
            Assert.DoesNotContain("49", document.Title, StringComparison.Ordinal);
            Assert.Contains("alert(1)", document.Title, StringComparison.Ordinal);
        }

        Assert.True(pages.Count > 20, $"{pages.Count} pages");
    }

    [Theory]
    [InlineData("frames/F-1/index.html")]
    [InlineData("cables/C-1/index.html")]
    [InlineData("halls/h/index.html")]
    [InlineData("kinds/k/index.html")]
    [InlineData("displays/d/index.html")]
    [InlineData("schemes/s/index.html")]
    [InlineData("trays/T-1/index.html")]
    [InlineData("index.html")]
    public void The_text_is_shown_letter_for_letter(string path) =>
        Assert.Contains(
            "x\"'><script>alert(1)</script><img src=x onerror=alert(2)>]]>{{ 7 * 7 }}",
            Sketch.Of(Files).Page(path).Body!.TextContent,
            StringComparison.Ordinal);
}
