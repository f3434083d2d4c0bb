using AngleSharp.Html.Parser;
using Archive.Site.Data;
using Archive.Site.Tests.Pages;
using Xunit;

namespace Archive.Site.Tests.Data;

public sealed class DataPageTests
{
    private static readonly (string, string)[] Hall =
    [
        ("frames/f.yaml", "- {id: A-01, name: One}\n- {id: A-02, name: Two}\n"),
        ("photos/p.yaml", "- {id: P-1, file: p.jpg, shows: [A-01]}\n"),
    ];

    /// <summary>Each data file is on the page with what it holds; manifests are in the collection that the page links to.</summary>
    [Fact]
    public void Every_data_file_is_on_the_page()
    {
        var sketch = Sketch.Of(Hall);
        var page = sketch.Page("data/index.html");
        var linked = page.QuerySelectorAll("main a")
            .Select(link => new Uri(new Uri("file:///data/"), link.GetAttribute("href")!).AbsolutePath[1..])
            .ToHashSet(StringComparer.Ordinal);
        var files = DataFiles.Create(sketch.Contents.Basis, sketch.Contents.Plans).Select(file => file.Path).ToList();
        Assert.True(files.Count > 40);
        Assert.Superset(files.ToHashSet(StringComparer.Ordinal), linked);
        Assert.Superset(
            new HashSet<string> { "site.sha256", "ro-crate-metadata.json", "changes.atom", "sitemap.xml" }, linked);
        Assert.All(
            DataFiles.Tables(sketch.Contents.Basis, sketch.Contents.Plans),
            table => Assert.Contains(table.Means, page.Body!.TextContent, StringComparison.Ordinal));
        Assert.Contains("Cite this page", page.QuerySelector("#cite")!.ParentElement!.TextContent, StringComparison.Ordinal);
        Assert.Contains(page.QuerySelectorAll("footer a"), link => link.TextContent == "Data");
    }

    [Fact]
    public void Without_a_web_address_the_page_promises_no_more_than_there_is()
    {
        var page = Sketch.Of([.. Hall, ("archive.yaml", "title: A sketch\n")]).Page("data/index.html");
        Assert.DoesNotContain(
            page.QuerySelectorAll("main a"), link => link.GetAttribute("href")!.Contains("iiif", StringComparison.Ordinal));
        Assert.DoesNotContain(page.QuerySelectorAll("main a"), link => link.TextContent is "changes.atom" or "sitemap.xml");
        Assert.Contains("once archive.yaml states the web address", page.Body!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_list_of_records_links_to_its_table()
    {
        var pages = Sketch.Of(Hall).Pages();
        foreach (var folder in Archive.Records.Model.RecordFolders.All)
        {
            var list = new HtmlParser().ParseDocument(pages[$"{folder}/index.html"]);
            Assert.Contains(list.QuerySelectorAll("main a"), link => link.GetAttribute("href") == $"../data/{folder}.csv");
        }
    }
}
