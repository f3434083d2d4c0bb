using System.Diagnostics;
using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using System.Xml.Schema;
using Archive.Site.Permanence;
using Archive.Site.Tests.Pages;
using Archive.Storage.Output;
using Xunit;

namespace Archive.Site.Tests.Permanence;

/// <summary>
/// What pages and files say to programs, read by programs that are not ours: jsonld.js 9.0.0, Citation.js 0.9.0, and the schema of
/// sitemaps.org that npm's sitemap 9.0.1 carries.
/// </summary>
public class OutsideReadersTests
{
    private static readonly JsonSerializerOptions Names = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    [Fact]
    public void Every_page_is_understood_as_it_was_meant()
    {
        var pages = Station().Pages().Where(page => page.Value.Contains("ld+json", StringComparison.Ordinal)).OrderBy(
            page => page.Key, StringComparer.Ordinal).ToList();
        var read = Read([.. pages.Select(page => new PageSays(
            Of(page.Value, """<script type="application/ld\+json">(.*?)</script>"""),
            WebUtility.HtmlDecode(Of(page.Value, "<pre>(@misc.*?)</pre>")),
            WebUtility.HtmlDecode(Of(page.Value, """<pre>(\[\{&quot;id&quot;.*?)</pre>"""))))]);
        Assert.Equal(pages.Count, read.Length);
        Assert.True(pages.Count > 20);
        Assert.All(
            read, page => Assert.All(page.Terms, term => Assert.Matches("^(@|https://schema.org/|http://purl.org/dc/terms/)", term)));
        Assert.All(read, page => Assert.Equal(page.Csl, page.Bibtex));
        var frame = read[pages.FindIndex(page => page.Key == "frames/R1/index.html")];
        Assert.Equal("https://schema.org/ArchiveComponent", frame.Type);
        Assert.Equal(new Cited(
            "Frame R1, Receiver </script> & 100% {x} \\ ~ ^ _ $ # é 高周波 שולחן",
            "Trust of 100% {e.V.}",
            2026,
            "https://archive.example/sketch/frames/R1/"), frame.Csl);
    }

    [Fact]
    public void The_sitemap_is_valid_by_its_schema()
    {
        var schemas = new XmlSchemaSet();
        schemas.Add(null, Path.Combine(Sketch.Repository, "tests/Archive.Site.Tests/node_modules/sitemap/schema/sitemap.xsd"));
        var text = Text(PermanenceFiles.Create(Station().Record, []).Single(file => file.Path == "sitemap.xml"));
        Assert.Empty(Faults(text));
        Assert.NotEmpty(Faults(text.Replace("loc>", "lock>", StringComparison.Ordinal)));

        List<string> Faults(string xml)
        {
            var faults = new List<string>();
            XDocument.Parse(xml).Validate(schemas, (_, fault) => faults.Add(fault.Message));
            return faults;
        }
    }

    // sitemaps.org, "Sitemap file location": a sitemap speaks only of what lies below its own folder; an index names at most 50,000 of
    // them.
    [Fact]
    public void A_sitemap_speaks_of_what_lies_below_it()
    {
        XNamespace space = "http://www.sitemaps.org/schemas/sitemap/0.9";
        var many = Sketch.Of(
            ("archive.yaml", Statement),
            ("frames/m.yaml", string.Concat(Enumerable.Range(0, 50_001).Select(i => $"- {{id: M{i}, name: m}}\n"))));
        var files = PermanenceFiles.Create(many.Record, [])
            .Where(file => file.Path.Contains("sitemap", StringComparison.Ordinal))
            .ToDictionary(file => "https://archive.example/sketch/" + file.Path);
        var index = XDocument.Parse(Text(files["https://archive.example/sketch/sitemap.xml"])).Root!;
        Assert.Equal(space + "sitemapindex", index.Name);
        foreach (var part in index.Elements(space + "sitemap").Select(sitemap => sitemap.Element(space + "loc")!.Value))
        {
            var folder = part[..(part.LastIndexOf('/') + 1)];
            Assert.All(XDocument.Parse(Text(files[part])).Descendants(space + "loc"), address =>
                Assert.StartsWith(folder, address.Value, StringComparison.Ordinal));
        }
    }

    // The MUSTs of RFC 4287 that bear on what we write, each by its section.
    [Theory]
    [InlineData("")]
    [InlineData(
        "- {id: E-1, on: 2026-06-14, what: loaded, of: [R1], note: 'a & <b> \"c\"'}\n- {id: E-2, on: 2026-07, what: arrived, of: [R1]}\n- {id: E-3, on: 1984~, what: inspected, of: [R1]}\n- {id: E-4, on: 2026-07, what: stood, of: [R1]}\n")]
    public void The_feed_keeps_every_must(string events)
    {
        var sketch = Sketch.Of([("archive.yaml", Statement), ("frames/f.yaml", Frames), .. events.Length == 0
            ? Array.Empty<(string, string)>()
            : [("events/e.yaml", events)]]);
        XNamespace atom = "http://www.w3.org/2005/Atom";
        // 2: well-formed XML
        var feed = XDocument.Parse(Text(PermanenceFiles.Create(sketch.Record, []).Single(file => file.Path == "changes.atom"))).Root!;
        Assert.Equal(atom + "feed", feed.Name); // 2, 4.1.1: the root, in its namespace
        var entries = feed.Elements(atom + "entry").ToList();
        Assert.Equal(events.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length, entries.Count);

        Assert.NotEmpty(feed.Elements(atom + "author")); // 4.1.1: an author, unless every entry has one
        foreach (var once in (string[])["id", "title", "updated"]) Assert.Single(feed.Elements(atom + once)); // 4.1.1: exactly one
        // 4.1.1: at most one
        foreach (var most in (string[])["generator", "icon", "logo", "rights", "subtitle"])
            Assert.True(feed.Elements(atom + most).Count() <= 1);
        Assert.Single(feed.Elements(atom + "link"), link => link.Attribute("rel")?.Value == "self"); // 4.1.1: should have one
        foreach (var each in entries)
        {
            foreach (var once in (string[])["id", "title", "updated"]) Assert.Single(each.Elements(atom + once)); // 4.1.2: exactly one
            // 4.1.2: at most one
            foreach (var most in (string[])["content", "published", "rights", "source", "summary"])
                Assert.True(each.Elements(atom + most).Count() <= 1);
            // 4.1.2: without content an alternate
            Assert.Contains(each.Elements(atom + "link"), link => link.Attribute("rel")?.Value == "alternate");
        }

        foreach (var holder in entries.Append(feed))
        {
            // 4.1.1, 4.1.2: no two alternates of the same type and language.
            var alternates = holder.Elements(atom + "link")
                .Where(link => link.Attribute("rel") is null or { Value: "alternate" })
                .Select(link => (link.Attribute("type")?.Value, link.Attribute("hreflang")?.Value))
                .ToList();
            Assert.Equal(alternates.Distinct(), alternates);
        }

        Assert.All(feed.Descendants(atom + "author"), person => Assert.Single(person.Elements(atom + "name"))); // 3.2.1
        foreach (var text in feed.Descendants().Where(element => element.Name.LocalName is "title" or "summary" or "subtitle" or "rights"))
        {
            Assert.Contains(text.Attribute("type")?.Value, (string?[])[null, "text", "html", "xhtml"]); // 3.1.1
            if (text.Attribute("type")?.Value is null or "text") Assert.Empty(text.Elements()); // 3.1.1.1
        }

        // 3.3: RFC 3339, with a capital T, and a capital Z where there is no offset.
        Assert.All(feed.Descendants(atom + "updated"), moment =>
            Assert.Matches(@"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$", moment.Value));
        // 4.2.6: an absolute IRI
        Assert.All(feed.Descendants(atom + "id"), id => Assert.True(Uri.TryCreate(id.Value, UriKind.Absolute, out _)));
        // 4.2.6: one a thing
        Assert.Equal(
            feed.Descendants(atom + "id").Count(),
            feed.Descendants(atom + "id").Select(id => id.Value).Distinct(StringComparer.Ordinal).Count());
        // 4.2.7.1
        Assert.All(
            feed.Descendants(atom + "link"), link => Assert.True(Uri.TryCreate(link.Attribute("href")?.Value, UriKind.Absolute, out _)));
        Assert.All(feed.Descendants(atom + "link"), link => Assert.Matches("^[A-Za-z0-9.-]+$", link.Attribute("rel")!.Value)); // 4.2.7.2
        Assert.All(feed.DescendantsAndSelf(), element => Assert.Equal(atom, element.Name.Namespace)); // 6: nothing foreign
    }

    private const string Frames = "- {id: R1, name: \"Receiver </script> & 100% {x} \\\\ ~ ^ _ $ # é 高周波 שולחן\"}\n- {id: R2, name: Two}\n";
    private const string Statement =
        "title: \"A & B_1 \\\"quoted\\\"\"\nbase: https://archive.example/sketch/\ncustodian: \"Trust of 100% {e.V.}\"\nas_found: 2026-05-12/2026-05-16\nrights: {licence: CC-BY-4.0, credit: Trust}\n";

    private static Sketch Station() => Sketch.Of(("archive.yaml", Statement), ("frames/f.yaml", Frames));

    private static string Of(string page, string pattern) => Regex.Match(page, pattern, RegexOptions.Singleline).Groups[1].Value;

    private static PageRead[] Read(PageSays[] pages)
    {
        using var node = Process.Start(new ProcessStartInfo(
            "node", Path.Combine(Sketch.Repository, "tests/Archive.Site.Tests/Permanence/read-outside.js"))
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardInputEncoding = new UTF8Encoding(false),
            StandardOutputEncoding = Encoding.UTF8
        })!;
        var (said, told) = (node.StandardOutput.ReadToEndAsync(), node.StandardError.ReadToEndAsync());
        node.StandardInput.Write(JsonSerializer.Serialize(pages, Names));
        node.StandardInput.Close();
        node.WaitForExit();
        Assert.True(node.ExitCode == 0, told.Result);
        return JsonSerializer.Deserialize<PageRead[]>(said.Result, Names)!;
    }

    private static string Text(OutputFile file)
    {
        using var stream = new MemoryStream();
        ((StreamedFile)file).Write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private sealed record PageSays(string Linked, string Bibtex, string Csl);

    private sealed record PageRead(string[] Terms, string Type, Cited Bibtex, Cited Csl);

    private sealed record Cited(string Title, string Author, int Year, string Address);
}
