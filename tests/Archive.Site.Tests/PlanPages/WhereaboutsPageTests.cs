using Archive.Site.Tests.Pages;
using Xunit;

namespace Archive.Site.Tests.PlanPages;

public sealed class WhereaboutsPageTests
{
    private static readonly Sketch Sketch = Sketch.Of(
        ("frames/f.yaml", "[{id: A, name: First}, {id: B}, {id: C}, {id: D}]"),
        ("halls/h.yaml", "[{id: old, name: Old hall, as_found: true}, {id: store, name: The store}]"),
        ("events/e.yaml", """
            - {id: E-1, on: 2026-06-01, what: loaded, of: [A, B, C], to: {hall: old, place: first load}}
            - {id: E-2, on: 2026-06-02, what: arrived, of: [A, C], to: {hall: store, place: bay 1}}
            - {id: E-3, on: 2026-06-03, what: damaged, of: [C]}
            """));

    [Fact]
    public void What_went_the_same_way_stands_together_and_nothing_is_left_out()
    {
        var page = Sketch.Page("plans/whereabouts/index.html");
        Assert.Equal(
            "Events are recorded for 3 of 4 frames and cables; all others are as found.", page.QuerySelector(".lead p")!.TextContent);
        Assert.Equal(["B", "A First", "C"], page.QuerySelectorAll(".ways tbody th").Select(cell => cell.TextContent));
        Assert.Equal(
            ["Loaded, but never arrived 1", "In The store 2"],
            page.QuerySelectorAll(".facts > div").Select(line => $"{line.Children[0].TextContent} {line.Children[1].TextContent.Trim()}"));

        var together = Sketch.Of(
            ("frames/f.yaml", "[{id: A}, {id: B}, {id: C}]"),
            ("cables/c.yaml", "[{id: C-1}]"),
            ("boxes/b.yaml", "[{id: X-1, name: One}, {id: X-2, name: Two}]"),
            (
                "events/e.yaml",
                "[{id: E-1, on: 2026-06-01, what: inspected, of: [A, C]}, {id: E-2, on: 2026-06-02, what: inspected, of: [B, X-1]}]"))
                .Page("plans/whereabouts/index.html");
        Assert.Equal(
            "Events are recorded for 3 of 4 frames and cables, and for 1 box; all others are as found.",
            together.QuerySelector(".lead p")!.TextContent);
        Assert.Equal(["A, C", "B, X-1 One"], together.QuerySelectorAll(".ways tbody th").Select(cell => cell.TextContent));
        Assert.Equal(2, together.QuerySelectorAll(".ways .when").Length);
    }
}
