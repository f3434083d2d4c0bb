using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Xunit;

namespace Archive.Site.Tests;

/// <summary>Record text never becomes markup, on any type of page.</summary>
public sealed class HostileRecordTests
{
    // A run of all that has ever broken out of a page, with a right-to-left override that is never closed.
    private const string Hostile = "x\"'><script>alert(1)</script><img src=x onerror=alert(2)>]]>{{ 7 * 7 }}&amp;<!--\u202E[a](javascript:alert(3))";

    private static readonly string Yaml = "\"" + Hostile.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal) + "\"";

    private static readonly (string Path, string Text)[] Files =
    [
        ("archive.yaml", $"title: {Yaml}\ncustodian: {Yaml}\nbase: https://archive.example/\nrights: {{licence: CC-BY-4.0, credit: {Yaml}}}\npeople: {{hk: {{name: {Yaml}, role: {Yaml}}}}}\nabout: {Yaml}\n"),
        ("frames/f.yaml", $"""
            - id: F-1
              name: {Yaml}
              module: {Yaml}
              weight: {"{"}is: 310 kg, from: told, by: hk, note: {Yaml}{"}"}
              positions: [{"{"}id: S1, holds: {Yaml}, note: {Yaml}, from_floor: 300 mm, height: 200 mm{"}"}]
              about: {Yaml}
              condition: {Yaml}
              note: {Yaml}
              found: {"{"}by: hk{"}"}
            - id: F-2
              withdrawn: {Yaml}
            """),
        ("kinds/k.yaml", $"- {{id: k, name: {Yaml}, family: power, about: {Yaml}}}\n"),
        ("cables/c.yaml", $"- {{id: C-1, kind: k, label: {Yaml}, ends: [{{at: F-1/S1/J1, connector: {Yaml}, label: {Yaml}, note: {Yaml}}}], fate: leave, reason: {Yaml}, note: {Yaml}, lies_in: [T-1]}}\n"),
        ("trays/t.yaml", $"- {{id: T-1, name: {Yaml}, hall: h, path: [[0, 0], [1000, 0]], note: {Yaml}, size: 450 x 100 mm, height: 2 m}}\n"),
        ("halls/h.yaml", $"""
            - id: h
              name: {Yaml}
              as_found: true
              outline: [[0, 0], [8000, 0], [8000, 6000]]
              openings: [{"{"}name: {Yaml}, from: [0, 0], to: [1000, 0]{"}"}]
              obstacles: [{"{"}name: {Yaml}, outline: [[1, 1], [9, 1], [9, 9]]{"}"}]
              rows: [{"{"}id: {Yaml}, at: [1000, 2000], runs: east, faces: south, frames: [F-1]{"}"}]
              about: {Yaml}
            """),
        ("schemes/s.yaml", $"- {{id: s, name: {Yaml}, reads: '^(?<row>.*)$', means: ['{{row}}'], tables: {{row: {{{Yaml}: F-1}}}}, confusions: [{Yaml}], examples: {{{Yaml}: [F-1]}}, note: {Yaml}}}\n"),
        ("displays/d.yaml", $"- {{id: d, name: {Yaml}, about: {Yaml}, needs: [{{any: 1, of: {{module: {Yaml}}}}}]}}\n"),
        ("photos/p.yaml", $"- {{id: P-1, file: a.jpg, caption: {Yaml}, shows: [F-1, {Yaml}], regions: [{{box: [0, 0, 1, 1], note: {Yaml}}}], redact: [{{box: [0, 0, 1, 1], why: {Yaml}}}]}}\n"),
        ("events/e.yaml", $"- {{id: E-1, on: 2026-06-14, what: loaded, of: [F-1], to: {{hall: h, place: {Yaml}}}, by: [hk], note: {Yaml}}}\n"),
        ("stories/s.md", $"---\ntitle: {Yaml}\n---\n# {Hostile}\n\n{Hostile}\n\n| a |\n|---|\n| {Hostile} |\n"),
    ];

    private static string MendsBase => File.ReadAllText(Path.Combine(Sketch.Repository, "themes/ledger/templates/layout.html")).Split("<script>")[1].Split("</script>")[0];

    [Fact]
    public void No_text_becomes_markup()
    {
        var parser = new HtmlParser();
        var pages = Sketch.Of(Files).Pages();
        foreach (var (path, text) in pages)
        {
            var document = parser.ParseDocument(text);

            // The one script without a file mends the base of the page for what is not there; it is the theme's, letter for letter.
            var scripts = document.Scripts.Where(script => (path != "404.html" || script.TextContent != MendsBase) && script.Type != "application/ld+json");

            // Data is no program; it is whole, so nothing in it ended its element.
            Assert.All(document.Scripts.Where(script => script.Type == "application/ld+json"), data => System.Text.Json.JsonDocument.Parse(data.TextContent).Dispose());
            Assert.All(scripts, script => Assert.Matches(@"^(\.\./)*assets/[a-z-]+\.js$", script.GetAttribute("src")));
            Assert.DoesNotContain(document.QuerySelectorAll("img"), image => image.GetAttribute("src") == "x");
            Assert.DoesNotContain(document.All.SelectMany(element => element.Attributes), attribute => attribute.Name.StartsWith("on", StringComparison.Ordinal));
            Assert.DoesNotContain(document.QuerySelectorAll("[href]"), link => link.GetAttribute("href")!.Contains("script:", StringComparison.OrdinalIgnoreCase));
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
        Assert.Contains("x\"'><script>alert(1)</script><img src=x onerror=alert(2)>]]>{{ 7 * 7 }}", Sketch.Of(Files).Page(path).Body!.TextContent, StringComparison.Ordinal);
}
