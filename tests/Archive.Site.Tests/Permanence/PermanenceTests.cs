using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Archive.Site.Layout;
using Archive.Site.Permanence;
using Archive.Site.Tests.Pages;
using Archive.Storage.Output;
using Xunit;

namespace Archive.Site.Tests.Permanence;

/// <summary>What makes a page citable and findable, for programs and people.</summary>
public class PermanenceTests
{
    private const string Frames = "- {id: R1, name: 'Receiver </script><b>one & 100% {x}'}\n- {id: R2, name: Gone, withdrawn: never was}\n";
    private const string Statement =
        "title: A & B_1\nbase: https://archive.example/sketch/\ncustodian: Trust of 100%\nas_found: 2026-05-12/2026-05-16\nrights: {licence: CC-BY-4.0, credit: Trust}\npeople: {hk: {name: H. Kessock, role: lead}}\n";

    [Fact]
    public void A_page_says_what_it_is_to_programs_and_no_text_ends_the_script()
    {
        var page = Station().Pages()["frames/R1/index.html"];
        var data = Assert.Single(Regex.Matches(page, """<script type="application/ld\+json">(.*?)</script>""")).Groups[1].Value;
        using var json = JsonDocument.Parse(data);
        Assert.Equal("https://schema.org", json.RootElement.GetProperty("@context")[0].GetString());
        // DCMI Metadata Terms' namespace
        Assert.Equal("http://purl.org/dc/terms/", json.RootElement.GetProperty("@context")[1].GetProperty("dcterms").GetString());
        Assert.Equal("https://archive.example/sketch/frames/R1/", json.RootElement.GetProperty("@id").GetString());
        Assert.Equal("R1", json.RootElement.GetProperty("dcterms:identifier").GetString());
        Assert.Equal("https://creativecommons.org/licenses/by/4.0/", json.RootElement.GetProperty("license").GetString());
        Assert.Equal("https://archive.example/sketch/", json.RootElement.GetProperty("isPartOf").GetProperty("@id").GetString());
        Assert.Contains("</script><b>one & 100%", json.RootElement.GetProperty("name").GetString(), StringComparison.Ordinal);
        using var home = JsonDocument.Parse(Regex.Match(Station().Pages()["index.html"], """ld\+json">(.*?)</script>""").Groups[1].Value);
        Assert.Equal(
            ("Dataset", "Trust of 100%"),
            (home.RootElement.GetProperty("@type").GetString(), home.RootElement.GetProperty("publisher").GetProperty("name").GetString()));
    }

    [Fact]
    public void A_page_is_cited_as_text_BibTeX_and_CSL()
    {
        var station = Station().Record.Statement;
        var cited = Citation.Create(station, "R1 50% & more_{}~^\\", "https://archive.example/sketch/frames/R1/");
        Assert.Equal(
            "Trust of 100%: “R1 50% & more_{}~^\\”, in A & B_1. As found 12 May 2026 to 16 May 2026. https://archive.example/sketch/frames/R1/",
            cited.Text);
        Assert.Equal(
            """
            @misc{sketch-frames-R1,
              author = {{Trust of 100\%}},
              title = {{R1 50\% \& more\_\{\}\textasciitilde{}\textasciicircum{}\textbackslash{}}},
              howpublished = {A \& B\_1},
              year = {2026},
              url = {https://archive.example/sketch/frames/R1/}
            }
            """.ReplaceLineEndings("\n"),
            cited.Bibtex);
        using var csl = JsonDocument.Parse(cited.Csl);
        var item = csl.RootElement[0];
        Assert.Equal(("webpage", "Trust of 100%", 2026), (
            item.GetProperty("type").GetString(),
            item.GetProperty("author")[0].GetProperty("literal").GetString(),
            item.GetProperty("issued").GetProperty("date-parts")[0][0].GetInt32()));
        Assert.DoesNotContain(
            "howpublished", Citation.Create(station, "", "https://archive.example/sketch/").Bibtex, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_page_with_a_lasting_address_can_be_cited() => Assert.All(
        Station().Pages().Where(page => page.Key != "404.html"
            && (!page.Key.StartsWith("labels/", StringComparison.Ordinal) || page.Key == "labels/index.html")),
        page => Assert.Contains("<summary>Cite this page</summary>", page.Value, StringComparison.Ordinal));

    [Fact]
    public void Without_an_address_nothing_is_claimed()
    {
        var sketch = Sketch.Of(("archive.yaml", "title: x\n"), ("frames/f.yaml", Frames));
        Assert.All(sketch.Pages().Values, page => Assert.DoesNotContain("ld+json", page, StringComparison.Ordinal));
        Assert.Equal(["ro-crate-metadata.json"], PermanenceFiles.Create(sketch.Record, []).Select(file => file.Path));
    }

    // RO-Crate 1.1: the root is found through conformsTo and about; whatever is referred to within is described.
    [Fact]
    public void The_crate_is_one_and_describes_what_it_names()
    {
        using var crate = JsonDocument.Parse(
            Text(PermanenceFiles.Create(Station().Record, ["data/frames.json", "data/frames.csv"]).First()));
        Assert.Equal("https://w3id.org/ro/crate/1.1/context", crate.RootElement.GetProperty("@context").GetString());
        var entities = crate.RootElement
            .GetProperty("@graph")
            .EnumerateArray()
            .ToDictionary(entity => entity.GetProperty("@id").GetString()!);
        var descriptor = entities["ro-crate-metadata.json"];
        Assert.Equal("https://w3id.org/ro/crate/1.1", descriptor.GetProperty("conformsTo").GetProperty("@id").GetString());
        var root = entities[descriptor.GetProperty("about").GetProperty("@id").GetString()!];
        Assert.Equal(("./", "Dataset", "A & B_1", "2026-05-16"), (
            root.GetProperty("@id").GetString(),
            root.GetProperty("@type").GetString(),
            root.GetProperty("name").GetString(),
            root.GetProperty("datePublished").GetString()));
        foreach (var named in root.EnumerateObject().SelectMany(property => References(property.Value)))
            Assert.Contains(named, entities.Keys);

        static IEnumerable<string> References(JsonElement value) => value.ValueKind switch
        {
            JsonValueKind.Array => value.EnumerateArray().SelectMany(References),
            JsonValueKind.Object => [value.GetProperty("@id").GetString()!],
            _ => [],
        };
    }

    [Fact]
    public void The_feed_tells_events_the_latest_first()
    {
        var sketch = Station(
            (
                "events/e.yaml",
                "- {id: E-1, on: 2026-06-14, what: loaded, of: [R1]}\n- {id: E-2, on: 2026-07, what: arrived, of: [R1], note: 'Well & <whole>'}\n- {id: E-3, on: 2026-06-20, what: inspected, of: [R1], withdrawn: a slip}\n"));
        var feed = XDocument.Parse(Text(PermanenceFiles.Create(sketch.Record, []).Single(file => file.Path == "changes.atom")));
        XNamespace atom = "http://www.w3.org/2005/Atom";

        // RFC 4287, 4.1.1: a feed has an id, a title, an updated, and an author.
        Assert.Equal("https://archive.example/sketch/", feed.Root!.Element(atom + "id")!.Value);
        Assert.Equal("2026-07-31T00:00:00Z", feed.Root.Element(atom + "updated")!.Value);
        Assert.NotNull(feed.Root.Element(atom + "author"));
        Assert.Equal(
            ["https://archive.example/sketch/events/E-2/", "https://archive.example/sketch/events/E-1/"],
            feed.Root.Elements(atom + "entry").Select(entry => entry.Element(atom + "id")!.Value));
        Assert.All(feed.Root.Elements(atom + "entry"), entry => Assert.True(
            DateTimeOffset.TryParse(entry.Element(atom + "updated")!.Value, System.Globalization.CultureInfo.InvariantCulture, out _)));
        Assert.Contains("Well & <whole>", feed.Root.Element(atom + "entry")!.Element(atom + "summary")!.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sitemap_lists_what_stands_and_splits_where_it_must()
    {
        XNamespace space = "http://www.sitemaps.org/schemas/sitemap/0.9";
        var small = XDocument.Parse(Text(PermanenceFiles.Create(Station().Record, []).Single(file => file.Path == "sitemap.xml")));
        var addresses = small.Root!.Elements(space + "url").Select(url => url.Element(space + "loc")!.Value).ToList();
        Assert.Contains("https://archive.example/sketch/frames/R1/", addresses);
        Assert.DoesNotContain("https://archive.example/sketch/frames/R2/", addresses);

        var many = Station(("frames/m.yaml", string.Concat(Enumerable.Range(0, 50_001).Select(i => $"- {{id: M{i}, name: m}}\n"))));
        var files = PermanenceFiles.Create(many.Record, []).Where(file => file.Path.Contains("sitemap", StringComparison.Ordinal)).ToList();
        Assert.Equal(["sitemap.xml", "sitemap-1.xml", "sitemap-2.xml"], files.Select(file => file.Path));
        Assert.Equal(2, XDocument.Parse(Text(files[0])).Root!.Elements(space + "sitemap").Count());
        var all = files.Skip(1).Select(file => XDocument.Parse(Text(file)).Root!.Elements(space + "url").Count()).ToList();
        Assert.Equal(50_000, all[0]); // sitemaps.org: at most so many in one file
        Assert.True(all[1] > 1);
    }

    private static Sketch Station(params (string Path, string Text)[] more) =>
        Sketch.Of([("archive.yaml", Statement), ("frames/f.yaml", Frames), .. more]);

    private static string Text(OutputFile file)
    {
        using var stream = new MemoryStream();
        ((StreamedFile)file).Write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
