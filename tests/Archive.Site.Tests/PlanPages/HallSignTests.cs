using AngleSharp.Html.Parser;
using Archive.Site.Tests.Pages;
using Xunit;

namespace Archive.Site.Tests.PlanPages;

/// <summary>
/// A hall's plan says of each frame whether it is planned, has arrived, stands, or is connected: in its name, in its lines and in the key.
/// </summary>
public sealed class HallSignTests
{
    [Fact]
    public void A_hall_draws_what_is_planned_and_what_stands_apart()
    {
        var sketch = Sketch.Of(
            ("kinds/k.yaml", "- {id: coax, name: Coax, family: coax}\n"),
            ("frames/f.yaml", string.Concat(((string[])[
                "A", "B", "C", "D", "E"
            ]).Select(id => $"- {{id: {id}, name: {id}, size: 600 x 600 x 2000 mm{(id == "E" ? ", owner: the host" : "")}}}\n"))),
            ("cables/c.yaml", "- {id: C-1, kind: coax, ends: [{at: D/S1/J1}, {at: C/S1/J1}]}\n"),
            (
                "halls/h.yaml",
                "- {id: old, name: Old, as_found: true, outline: [[0, 0], [9000, 0], [9000, 9000], [0, 9000]], rows: [{id: r, at: [1000, 2000], runs: east, faces: south, frames: [A, B, C, D, E]}]}\n"
                    + "- {id: new, name: New, outline: [[0, 0], [9000, 0], [9000, 9000], [0, 9000]], rows: [{id: r, at: [1000, 2000], runs: east, faces: south, frames: [A, B, C, D]}]}\n"),
            ("events/e.yaml", """
                - {id: E-1, on: 2026-06-01, what: loaded, of: [B, C, D, C-1]}
                - {id: E-2, on: 2026-06-02, what: arrived, of: [B, C, D, C-1], to: {hall: new}}
                - {id: E-3, on: 2026-06-03, what: stood, of: [C, D], to: {hall: new}}
                - {id: E-4, on: 2026-06-04, what: connected, of: [C-1/D], to: {hall: new}}

                """));
        var pages = sketch.Pages();
        Assert.Equal(
            ["A, planned, not here yet", "B, arrived, not in place", "C", "D, some cables connected"],
            Names(pages["halls/new/index.html"]));
        Assert.Equal(["A", "B", "C", "D", "E, not ours, do not touch"], Names(pages["halls/old/index.html"]));
        var plan = new HtmlParser().ParseDocument(pages["halls/new/index.html"]).QuerySelector(".plan svg")!;
        Assert.Contains(plan.QuerySelectorAll(".planned"), box => box.ParentElement!.LocalName == "a");
        Assert.All((string[])["planned, not here yet", "arrived, not in place", "some cables connected"], says =>
            Assert.Contains(plan.QuerySelectorAll("text"), text => text.TextContent == says));
    }

    private static IEnumerable<string?> Names(string page) => new HtmlParser()
        .ParseDocument(page)
        .QuerySelectorAll(".plan .frames a")
        .Select(frame => frame.GetAttribute("aria-label") ?? frame.QuerySelector("title")?.TextContent)
        .Order(StringComparer.Ordinal);
}
