using System.Text.Json;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Archive.Data.Tables;
using Archive.Plans.Accounts;
using Archive.Plans.Boxes;
using Archive.Site.Tests.Pages;
using Xunit;

namespace Archive.Site.Tests.PlanPages;

/// <summary>Packing lists, boxes and the accounting: page, data and terminal are views of one value.</summary>
public sealed class BoxPageTests
{
    private static readonly Sketch Sketch = Sketch.Of(
        ("frames/f.yaml", "[{id: A, name: First, positions: [{id: S1, slots: [1..3]}]}, {id: B, name: Second}]"),
        ("displays/d.yaml", "[{id: d, name: Runs again, needs: [A]}]"),
        ("halls/h.yaml", "[{id: old, name: Old hall, as_found: true}, {id: store, name: The store}]"),
        ("units/u.yaml", """
            - {id: U-1, at: "A/S1:1", marking: XP 8, serial: "17", weight: 2 kg, handling: [static_sensitive, out_before_moving]}
            - {id: U-2, at: "A/S1:2", handling: [fragile]}
            - {id: U-3, at: "A/S1:3"}
            """),
        ("pieces/p.yaml", "[{id: P-1, of: B, name: Rear door, place: hinges left, weight: 9 kg, hazards: [sharp_edges]}]"),
        ("boxes/b.yaml", """
            - {id: BOX-1, name: Of A, weight: 1 kg, limit: 3 kg}
            - {id: BOX-2, weight: 1 kg, limit: 20 kg}
            - {id: CRATE, weight: 10 kg, limit: 20 kg}
            - {id: SPARE}
            """),
        ("events/e.yaml", """
            - {id: E-0, on: 2026-06-01, what: removed, of: [U-3]}
            - {id: E-1, on: 2026-06-01, what: packed, into: BOX-1, of: [U-1, U-2]}
            - {id: E-2, on: 2026-06-01, what: packed, into: BOX-2, of: [P-1]}
            - {id: E-3, on: 2026-06-02, what: packed, into: CRATE, of: [BOX-2]}
            - {id: E-4, on: 2026-06-03, what: loaded, of: [BOX-1, CRATE], to: {hall: old, place: first load}}
            - {id: E-5, on: 2026-06-03, what: arrived, of: [BOX-1], to: {hall: store, place: bay 1}}
            - {id: E-6, on: 2026-06-04, what: unpacked, of: [U-1]}
            """));

    private static readonly Lazy<Dictionary<string, string>> Pages = new(Sketch.Pages);

    [Fact]
    public void A_box_lists_what_is_in_it_with_boxes_to_tick_and_what_was()
    {
        var page = Page("boxes/BOX-1/index.html");
        var rows = page.QuerySelectorAll("table.packed tbody tr");
        Assert.Equal(["U-2"], rows.Select(row => row.QuerySelector("th")!.TextContent.Trim()));
        Assert.All(rows, row => Assert.NotNull(row.QuerySelector("input[type=checkbox]")));
        Assert.Contains("A/S1:2", rows[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("needed first", rows[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("at least 1 kg", Fact(page, "Weight, packed"), StringComparison.Ordinal);
        Assert.StartsWith("3 kg", Fact(page, "May weigh at most"), StringComparison.Ordinal);
        Assert.Contains("in The store, bay 1", page.QuerySelector(".status")!.TextContent, StringComparison.Ordinal);
        Assert.Equal(
            ["U-1 1 June 2026 4 June 2026, unpacked", "U-2 1 June 2026 still in it"],
            page.QuerySelectorAll("#stays ~ div tbody tr").Select(Words));
        Assert.Contains("Fragile", page.QuerySelector(".cautions")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void A_box_in_a_box_is_loaded_with_it_and_its_page_says_where_it_is()
    {
        var page = Page("boxes/BOX-2/index.html");
        Assert.Contains("In transit", page.QuerySelector(".status")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("Inside CRATE", Words(page.QuerySelector(".lead")!), StringComparison.Ordinal);
        Assert.Contains("20 kg", Fact(Page("boxes/CRATE/index.html"), "Weight, packed"), StringComparison.Ordinal);
        Assert.Contains("In transit", Page("pieces/P-1/index.html").QuerySelector(".status")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Boxes_are_loaded_with_what_a_display_needs_first_last_and_what_is_in_no_box_is_listed()
    {
        var plan = (PackingPlan)Sketch.Contents.Plans[PackingPlan.Kind];
        Assert.Equal(
            [("CRATE", 1), ("BOX-1", 2), ("BOX-2", (int?)null), ("SPARE", null)], plan.Boxes.Select(box => (box.Box.Id, box.Turn)));
        Assert.Equal(["U-3"], plan.Loose.Select(journey => journey.Of.Id));
        var page = Page("plans/packing/index.html");
        Assert.Equal(
            ["CRATE", "BOX-1 Of A", "BOX-2", "Out, and in no box"],
            page.QuerySelectorAll("section h2").Skip(1).Select(heading => heading.TextContent));
        Assert.Equal(
            plan.Boxes.Select(box => box.Box.Id),
            page.QuerySelectorAll("#loading ~ table tbody tr th .id").Select(id => id.TextContent));
        using var text = new StringWriter();
        plan.WriteText(text, default);
        Assert.Contains("[ ] U-2", text.ToString(), StringComparison.Ordinal);
        Assert.Equal(
            ["CRATE BOX-2", "BOX-1 U-2", "BOX-2 P-1", " U-3"],
            Objects(plan.Tables[1]).Select(row => $"{Text(row, "box")} {Text(row, "record")}"));
    }

    [Fact]
    public void The_accounting_is_one_value_on_page_in_data_and_in_a_terminal()
    {
        var plan = (AccountingPlan)Sketch.Contents.Plans[AccountingPlan.Kind];
        string[] expected =
        [
            "frame 2 2 0 0 0 0 0 0 0 0", "unit 3 0 1 0 0 0 1 1 0 0", "piece 1 0 0 0 1 0 0 0 0 0", "box 4 1 0 0 2 1 0 0 0 0",
        ];
        Assert.Equal(expected, plan.Accounts.Lines.Select(line =>
            $"{line.Kind.ToString().ToLowerInvariant()} {line.Total} {string.Join(' ', line.Counts)}"));
        Assert.Equal(expected, plan.Tables[0].Rows().Select(row => string.Join(' ', row)));
        Assert.Equal(expected, Objects(plan.Tables[0]).Select(row =>
            string.Join(' ', row.EnumerateObject().Select(field => field.Value.ToString()))));
        Assert.Equal(expected, Page("plans/accounting/index.html").QuerySelectorAll("#counts ~ table tbody tr")
            .Select(row => Words(row).ToLowerInvariant()));
        using var text = new StringWriter();
        plan.WriteText(text, default);
        Assert.Equal(expected, text.ToString().Split('\n')
            .Where(line => line.StartsWith("frame ", StringComparison.Ordinal) || line.StartsWith("unit ", StringComparison.Ordinal)
                || line.StartsWith("piece ", StringComparison.Ordinal) || line.StartsWith("box ", StringComparison.Ordinal))
            .Select(line => string.Join(' ', line.Split(' ', StringSplitOptions.RemoveEmptyEntries))));

        // What someone has to look for is the same everywhere, too.
        var open = plan.Accounts.Open.Select(journey => journey.Of.Id).ToList();
        Assert.Equal(["U-2", "P-1", "BOX-2", "CRATE"], open);
        Assert.Equal(open, Objects(plan.Tables[1]).Select(row => Text(row, "record")));
        Assert.Equal(open, Page("plans/accounting/index.html").QuerySelectorAll("#to-be-found ~ table th .id, #loaded ~ table th .id")
            .Select(id => id.TextContent));
    }

    private static IDocument Page(string path) => new HtmlParser().ParseDocument(Pages.Value[path]);

    private static string Fact(IDocument page, string name) => Words(page.QuerySelectorAll(".facts > div")
        .First(line => line.Children[0].TextContent == name).Children[1]);

    private static string Words(IElement of) =>
        string.Join(' ', string.Join(' ', of.Descendants<IText>().Select(text => text.Data)).Split(
            (char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Replace(" ,", ",", StringComparison.Ordinal);

    private static string Text(JsonElement row, string key) => row.TryGetProperty(key, out var value) ? value.GetString() ?? "" : "";

    private static List<JsonElement> Objects(DataTable table)
    {
        using var stream = new MemoryStream();
        table.WriteJson(stream);
        return [.. JsonDocument.Parse(stream.ToArray()).RootElement.EnumerateArray()];
    }
}
