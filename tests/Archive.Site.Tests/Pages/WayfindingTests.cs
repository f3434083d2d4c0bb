using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Archive.Halls.Trays;
using Archive.Records.Model;
using Archive.Site.Layout;
using Xunit;

namespace Archive.Site.Tests.Pages;

/// <summary>Nobody gets lost: where one is, what a thing is, what comes before and after it.</summary>
public sealed class WayfindingTests
{
    private static readonly Dictionary<string, string> Pages = SmallHall.Sketch().Pages();

    private static IDocument Page(string path) => new HtmlParser().ParseDocument(Pages[path]);

    [Theory]
    [InlineData("frames/index.html", "Frames", "page")]
    [InlineData("frames/R1-01/index.html", "Frames", "true")]
    [InlineData("indexes/frames-by-module/index.html", "Frames", "true")]
    [InlineData("cables/C-1/index.html", "Cables", "true")]
    [InlineData("plans/reach/index.html", "Plans", "true")]
    [InlineData("now/index.html", "Now", "page")]
    [InlineData("trays/T-1/index.html", "Trays", "true")]
    [InlineData("lacks/index.html", "Still to record", "page")]
    [InlineData("index.html", "", "")]
    public void The_head_marks_the_section(string path, string section, string current)
    {
        var marked = Page(path).QuerySelectorAll(".running [aria-current]");
        Assert.Equal(section, string.Concat(marked.Select(link => link.TextContent)));
        Assert.All(marked, link => Assert.Equal(current, link.GetAttribute("aria-current")));
    }

    [Fact]
    public void Every_page_leads_to_every_list_and_to_the_search()
    {
        foreach (var (path, html) in Pages)
        {
            var head = new HtmlParser().ParseDocument(html).QuerySelector(".running");
            if (head is null || path.Contains("/labels/", StringComparison.Ordinal)) continue;
            var links = head.QuerySelectorAll("a").Select(link => link.TextContent).ToList();
            Assert.Empty(new[] { "Frames", "Cables", "Photos", "Halls", "Trays", "Units", "Events", "Still to record" }.Except(links));
            Assert.EndsWith("search/index.html", head.QuerySelector("form[role=search]")!.GetAttribute("action"), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("frames/R1-01/index.html", "Frames / R1-01")]
    [InlineData("cables/C-1/index.html", "Cables / C-1")]
    [InlineData("halls/origin/index.html", "Halls / The hall")]
    [InlineData("plans/reach/index.html", "Plans / Which cables reach")]
    public void The_trail_ends_in_the_pages_own_name(string path, string trail)
    {
        var parts = Page(path).QuerySelectorAll(".trail li");
        Assert.Equal(trail, string.Join(" / ", parts.Select(part => part.TextContent)));
        Assert.Equal("page", parts[^1].GetAttribute("aria-current"));
    }

    [Theory]
    [InlineData("frames/R1-01/index.html", "Frame R1-01 First frame", "Frame R1-01, First frame")]
    [InlineData("cables/C-1/index.html", "Cable C-1 From R1-01 to R1-02", "Cable C-1 from R1-01 to R1-02")]
    [InlineData("trays/T-1/index.html", "Tray T-1 Behind row 1", "Tray T-1, behind row 1")]
    [InlineData("photos/P-1/index.html", "Photo P-1 R1-01 and C-1, front", "Photo P-1, R1-01 and C-1, front")]
    [InlineData("events/E-1/index.html", "Event E-1 Loaded", "E-1: loaded, 14 June 2026")]
    public void A_heading_says_what_a_thing_is(string path, string heading, string title)
    {
        var page = Page(path);
        Assert.Equal(heading, page.QuerySelector("h1")!.TextContent);
        Assert.Equal(title + " · A sketch", page.Title);
    }

    [Fact]
    public void A_cable_leads_to_its_neighbours_on_each_shelf_and_in_each_tray()
    {
        var page = Page("cables/C-1/index.html");
        Assert.Equal(["On this shelf: next C-3"], page.QuerySelectorAll("#end-1 .along").Select(line => line.TextContent));
        Assert.Empty(page.QuerySelectorAll("#end-2 .along[rel=prev]"));

        // C-1 lies over C-2: the lower layer comes first.
        Assert.Equal(["T-1: previous C-2"], page.QuerySelectorAll(".stops li").Select(stop => stop.TextContent));
        Assert.Equal("../../cables/C-2/index.html", page.QuerySelector(".stops a[rel=prev]")!.GetAttribute("href"));
        Assert.Equal(["T-1: next C-1"], Page("cables/C-2/index.html").QuerySelectorAll(".stops li").Select(stop => stop.TextContent));
    }

    [Fact]
    public void The_shelf_ends_with_the_shelf_and_a_harness_is_not_its_own_neighbour()
    {
        var sketch = Sketch.Of(
            ("frames/f.yaml", "- {id: A, positions: [{id: S1, ports: [J1..J9]}, {id: S2, ports: [J1..J9]}]}\n- {id: B}\n"),
            ("cables/c.yaml", """
                - {id: C-1, ends: [{at: A/S1/J10}, {at: B/X}]}
                - {id: C-2, ends: [{at: A/S1/J2}, {at: A/S1/J3}, {at: A/S2/J1}]}
                - {id: C-3, ends: [{at: A/S1/J1}, {at: B/Y}]}
                - {id: C-4, ends: [{at: A/S2/J2}, {at: B/Z}]}
                """));
        IEnumerable<string> Along(string cable) => sketch.Page($"cables/{cable}/index.html").QuerySelectorAll(".along")
            .Select(line => line.TextContent);

        Assert.Equal(["On this shelf: next C-2"], Along("C-3"));
        Assert.Equal(
            ["On this shelf: previous C-3, next C-1", "On this shelf: previous C-3, next C-1", "On this shelf: next C-4"], Along("C-2"));
        Assert.Equal(["On this shelf: previous C-2"], Along("C-1"));
        Assert.Equal(["On this shelf: previous C-2"], Along("C-4"));
    }

    // Frames of 600 x 600 mm, from (1000, 1400) to (2200, 2000), their fronts to the south.
    [Theory]
    [InlineData("[[900, 1700], [2300, 1700]]", "above row 1")]
    [InlineData("[[900, 1450], [2300, 1450]]", "above the rear of row 1")]
    [InlineData("[[900, 1960], [2300, 1960]]", "above the front of row 1")]
    [InlineData("[[900, 1200], [2300, 1200]]", "behind row 1")]
    [InlineData("[[900, 2500], [2300, 2500]]", "in front of row 1")]
    [InlineData("[[900, 2700], [2300, 2700]]", "")]
    [InlineData("[[1500, 0], [1500, 5000]]", "across row 1")]
    [InlineData("[[500, 0], [500, 5000]]", "past the west end of row 1")]
    [InlineData("[[3000, 5000], [3000, 0], [2900, 0]]", "past the east end of row 1")]
    [InlineData("[[7000, 0], [7000, 5000]]", "")]
    [InlineData("[[0, 1700], [900, 1700]]", "leading to row 1")]
    public void A_tray_hangs_where_someone_in_the_hall_would_say(string path, string place)
    {
        var sketch = Sketch.Of(
        [
            .. SmallHall.Files.Where(file => file.Path != "trays/t.yaml"),
            ("trays/t.yaml", $"- {{id: T-1, hall: origin, path: {path}, height: 2700 mm}}\n"),
        ]);
        var layout = sketch.Contents.HallLayouts.AsFound!;
        Assert.Equal(place, TrayPlace.Describe(layout, sketch.Record.Find<Tray>("T-1")!));
    }

    [Fact]
    public void A_tray_that_passes_several_rows_names_them()
    {
        var sketch = Sketch.Of(
            ("frames/f.yaml", string.Concat("ABCDE".Select(id => $"- {{id: {id}, size: 600 x 600 x 2000 mm}}\n"))),
            ("halls/h.yaml", """
                - id: origin
                  as_found: true
                  rows:
                    - {id: row-1, at: [1000, 2000], runs: east, faces: south, frames: [A]}
                    - {id: row-2, at: [1000, 4000], runs: east, faces: south, frames: [B]}
                    - {id: row-3, at: [1000, 6000], runs: east, faces: south, frames: [C]}
                    - {id: row-4, at: [300, 8000], runs: east, faces: south, frames: [D]}
                """),
            ("trays/t.yaml", """
                - {id: T-1, hall: origin, path: [[500, 0], [500, 9000]]}
                - {id: T-2, hall: origin, path: [[1300, 0], [1300, 5000]]}
                """));
        var layout = sketch.Contents.HallLayouts.AsFound!;
        Assert.Equal(
            ["past the west ends of row 1, row 2 and row 3", "across row 1 and row 2"],
            sketch.Record.Trays.Select(tray => TrayPlace.Describe(layout, tray)));
    }

    [Theory]
    [InlineData("index.html", "")]
    [InlineData("404.html", "")]
    [InlineData("cables/index.html", "cables")]
    [InlineData("indexes/cables-by-pair/2/index.html", "cables")]
    [InlineData("indexes/photos/2/index.html", "photos")]
    [InlineData("plans/reach/boathouse/frames/index.html", "plans")]
    public void A_path_lies_in_a_section(string path, string section) => Assert.Equal(section, SiteViewBuilder.SectionOf(path));
}
