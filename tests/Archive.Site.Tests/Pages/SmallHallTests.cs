using AngleSharp.Html.Parser;
using Archive.Markup.Links;
using Archive.Records.Model;
using Archive.Storage.Output;
using Xunit;

namespace Archive.Site.Tests.Pages;

public sealed class SmallHallTests
{
    private readonly Sketch _sketch = SmallHall.Sketch();

    [Fact]
    public void Every_address_of_the_design_has_its_page()
    {
        var pages = _sketch.Pages().Keys.ToHashSet();
        string[] expected =
        [
            "index.html",
                "frames/R1-01/index.html",
                "frames/OLD-1/index.html",
                "frames/R1-03/index.html",
                "cables/C-1/index.html",
                "trays/T-1/index.html",
                "halls/origin/index.html",
                "photos/P-1/index.html",
                "schemes/print/index.html",
                "displays/light/index.html",
                "stories/s/index.html",
                "kinds/coax-75/index.html",
                "events/E-1/index.html",
                .. RecordFolders.All.Select(folder => $"{folder}/index.html"),
                "indexes/frames-by-module/index.html",
                "indexes/cables-by-label/index.html",
                "indexes/cables-by-pair/index.html",
                "indexes/cables-by-kind/index.html",
                "lacks/index.html",
                "plans/index.html",
                "search/index.html",
                "labels/index.html",
                "404.html",
            ];
        Assert.Empty(expected.Except(pages));
    }

    [Fact]
    public void What_many_lack_alike_is_said_once_and_a_tray_that_is_only_planned_owes_no_photo()
    {
        var sketch = Sketch.Of(
        [
            .. SmallHall.Files,
            ("archive.yaml", "title: A\nwanted_views: {tray: [above]}\n"),
            ("halls/new.yaml", "- {id: new, name: New}\n"),
            (
                "trays/new.yaml",
                "- {id: N-1, hall: new, path: [[0, 1200], [6000, 1200]]}\n- {id: T-2, hall: origin, path: [[0, 1300], [6000, 1300]]}\n"),
        ]);
        var page = sketch.Page("lacks/index.html");

        var views = page.QuerySelector("section:has(#views)")!;
        Assert.Equal(
            ("A photo from above", "T-1 T-2"),
            (views.QuerySelector("h3")!.TextContent, string.Join(' ', views.QuerySelectorAll("li a").Select(link => link.TextContent))));
        Assert.Equal(["C-2", "C-4"], page.QuerySelectorAll("section:has(#ends) .ids a").Select(link => link.TextContent));
    }

    [Fact]
    public void Every_link_between_pages_and_every_anchor_resolves()
    {
        Assert.Empty(Links.Faults(_sketch));
    }

    [Fact]
    public void A_frames_cables_come_by_position_with_their_far_ends()
    {
        var page = _sketch.Builders().Frames.View(_sketch.Record.Find<Frame>("R1-01")!, new PageLocation("frames/R1-01/index.html"));

        Assert.Equal(["C-1", "C-3", "C-2"], page.Cables.Select(row => row.Cable.Id));
        Assert.Equal(["S1/J3", "S1/J5", "S2"], page.Cables.Select(row => row.Ends[0].Local));
        Assert.Equal(["R1-02/S1/J4", "R1-02/S1/J6", "unknown"], page.Cables.Select(row => row.Ends[1].Text));
        Assert.Equal("../../frames/R1-02/index.html", page.Cables[0].Ends[1].Href.ToString());
        Assert.Equal([2, 1], page.Positions.Select(position => position.Cables));
    }

    [Fact]
    public void An_end_that_print_alone_gives_is_marked_as_derived()
    {
        var page = _sketch.Builders().Frames.View(_sketch.Record.Find<Frame>("R1-02")!, new PageLocation("frames/R1-02/index.html"));

        var row = page.Cables.Single(row => row.Cable.Id == "C-3");
        Assert.Equal("from label", row.Ends[0].Mark?.Word);
        Assert.Null(row.Ends[1].Mark);
    }

    [Fact]
    public void A_figure_says_what_it_rests_on_and_an_unknown_one_that_it_is_unknown()
    {
        var frames = _sketch.Builders().Frames;
        var known = frames.View(_sketch.Record.Find<Frame>("R1-01")!, new PageLocation("frames/R1-01/index.html"));
        var unknown = frames.View(_sketch.Record.Find<Frame>("R1-02")!, new PageLocation("frames/R1-02/index.html"));

        var weight = known.Facts.Single(fact => fact.Name == "Weight").Figure;
        Assert.Equal(("310 kg", "plate"), (weight.Text, weight.Mark?.Word));
        Assert.Equal("read from the rating plate by hk, 12 May 2026", weight.Mark!.Says);
        Assert.False(unknown.Facts.Single(fact => fact.Name == "Weight").Figure.IsKnown);
        Assert.Contains("its weight", unknown.Lacks);
    }

    [Fact]
    public void What_lies_over_another_is_told_on_both_pages()
    {
        var cables = _sketch.Builders().Cables;
        var over = cables.View(_sketch.Record.Find<Cable>("C-1")!, new PageLocation("cables/C-1/index.html"));
        var under = cables.View(_sketch.Record.Find<Cable>("C-2")!, new PageLocation("cables/C-2/index.html"));

        Assert.Equal("C-2", Assert.Single(over.LiesOver).Id);
        Assert.Equal("C-1", Assert.Single(under.LiesUnder).Id);
        Assert.Equal("18.3 m", over.Facts.Single(fact => fact.Name == "Length").Figure.Text);
        Assert.Equal("printed", over.Facts.Single(fact => fact.Name == "Length").Figure.Mark?.Word);
    }

    [Fact]
    public void A_former_id_forwards_and_a_withdrawn_record_says_why()
    {
        var pages = _sketch.Pages();

        Assert.Contains(
            "<meta http-equiv=\"refresh\" content=\"0; url=../../frames/R1-01/index.html\">",
            pages["frames/OLD-1/index.html"],
            StringComparison.Ordinal);
        Assert.Contains(
            "<link rel=\"canonical\" href=\"https://archive.example/sketch/frames/R1-01/\">",
            pages["frames/OLD-1/index.html"],
            StringComparison.Ordinal);
        Assert.Contains("never existed", pages["frames/R1-03/index.html"], StringComparison.Ordinal);
    }

    [Fact]
    public void A_site_with_errors_says_so_on_each_page()
    {
        var pages = SitePages.All(_sketch.Contents with { Errors = 3 })
            .OfType<RenderedFile>()
            .Where(file => file.Path.EndsWith(".html", StringComparison.Ordinal));

        Assert.All(pages, page => Assert.Contains(
            "Published with 3 errors", System.Text.Encoding.UTF8.GetString(page.Render().Bytes.Span), StringComparison.Ordinal));
    }

    [Fact]
    public void The_same_contents_give_the_same_pages()
    {
        var again = SmallHall.Sketch().Pages();

        Assert.All(_sketch.Pages(), page => Assert.Equal(page.Value, again[page.Key]));
    }

    [Fact]
    public void Every_page_has_one_heading_of_the_first_level_and_skips_none()
    {
        var parser = new HtmlParser();
        foreach (var (path, text) in _sketch.Pages())
        {
            var levels = parser.ParseDocument(
                text).QuerySelectorAll("h1, h2, h3, h4, h5, h6").Select(heading => heading.LocalName[1] - '0').ToList();
            Assert.True(levels.Count(level => level == 1) == 1 && levels[0] == 1, path);
            Assert.True(levels.Zip(levels.Skip(1)).All(pair => pair.Second <= pair.First + 1), $"{path}: {string.Join(' ', levels)}");
        }
    }

    [Fact]
    public void The_form_of_the_search_page_has_what_its_script_looks_for()
    {
        var page = _sketch.Page("search/index.html");

        Assert.All(
            new[] { "search-form", "search-words", "search-results", "search-status" }, id => Assert.NotNull(page.GetElementById(id)));
        Assert.True(page.GetElementById("search-form")!.HasAttribute("hidden"));
    }
}
