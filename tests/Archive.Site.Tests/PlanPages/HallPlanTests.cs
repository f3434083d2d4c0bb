using System.Text;
using System.Text.Json;
using Archive.Plans;
using Archive.Plans.Reach;
using Archive.Site.Tests.Pages;
using Archive.Storage.Output;
using Xunit;

namespace Archive.Site.Tests.PlanPages;

/// <summary>
/// The plans of a hall from a record as a curator writes it. The margins of C-1 and C-2 are worked by hand in Archive.Halls.Tests/Reach:
/// way 10933 mm, needed 11933 mm.
/// </summary>
public sealed class HallPlanTests
{
    private static readonly (string Path, string Text)[] Files =
    [
        ("archive.yaml", "title: A sketch\nallowance: 500 mm\nfill_limit: 50 %\nunits: both\n"),
        ("frames/f.yaml", """
            - {id: A, name: First, size: 660 x 610 x 2134 mm, weight: 310 kg, doors: 2, may_lie_down: true, draws: {volts: -24 V, amps: 14 A}, needs: [P], positions: [{id: S7, from_floor: 1200 mm, height: 266 mm, ports: [J1..J4]}]}
            - {id: B, name: Second, size: 660 x 610 x 2134 mm}
            - {id: P, name: Plant, size: 700 x 600 x 1900 mm, weight: 312 kg, doors: 0}
            """),
        ("kinds/k.yaml", """
            - {id: coax, name: Coax, family: coax, diameter: 6.1 mm, mass: 55 g/m, bend: 10}
            - {id: feed, name: Feeder, family: power, diameter: 13 mm, mass: 400 g/m, bend: 8, gauge: 6 AWG}
            """),
        ("cables/c.yaml", """
            - {id: C-1, kind: coax, ends: [{at: A/S07/J1}, {at: B}], length: 12 m, lies_in: [T-8], fate: coil, coil_to: A}
            - {id: C-2, kind: coax, ends: [{at: A/S7/J2}, {at: B}], length: {is: 11.9 m, from: printed}, lies_in: [T-8], fate: coil, coil_to: A}
            - {id: C-3, kind: coax, ends: [{at: A/S7/J3}, {at: B}], lies_in: [T-8], fate: remove}
            - {id: C-4, kind: coax, ends: [{at: A/S7/J4}]}
            - {id: C-5, kind: feed, ends: [{at: P}, {at: A}], length: 9 m, lies_in: [T-8], fate: remove}
            """),
        ("trays/t.yaml", """
            - {id: T-8, hall: origin, path: [[0, 3000], [9000, 3000]], height: 2700 mm, size: 100 x 60 mm}
            - {id: N-1, hall: new, path: [[0, 3000], [9000, 3000]], height: 2700 mm, size: 450 x 100 mm}
            - {id: N-2, hall: new, path: [[6000, 2000], [6000, 8000]], height: 2900 mm, size: 450 x 100 mm}
            """),
        ("halls/h.yaml", """
            - id: origin
              as_found: true
              outline: [[0, 0], [12000, 0], [12000, 8000], [0, 8000]]
              ceiling: 2200 mm
              floor_rating: 4.8 kPa
              openings: [{name: door, from: [0, 3000], to: [0, 4000], height: 2100 mm}]
              rows: [{id: r1, at: [1000, 2800], runs: east, faces: south, frames: [A, B, P]}]
              take: [[900, 900], [2400, 900], [2400, 6100], [900, 6100]]
            - id: new
              name: The new hall
              outline: [[0, 0], [12000, 0], [12000, 8000], [0, 8000]]
              rows:
                - {id: n1, at: [1000, 2800], runs: east, faces: south, frames: [A]}
                - {id: n2, at: [6400, 6000], runs: east, faces: south, frames: [B]}
            """),
    ];

    private readonly Sketch _sketch = Sketch.Of(Files);

    [Fact]
    public void Margins_are_in_the_data_to_the_millimetre()
    {
        var rows = Data("reach").ToDictionary(row => row.GetProperty("cable").GetString()!, StringComparer.Ordinal);

        Assert.Equal(["C-2", "C-3", "C-4", "C-1", "C-5"], rows.Keys);
        Assert.Equal(
            ("short", 10.933, 11.933, -0.033),
            (Word(rows["C-2"]), Number(rows["C-2"], "path_m"), Number(rows["C-2"], "needed_m"), Number(rows["C-2"], "margin_m")));
        Assert.Equal(("reaches", 0.067), (Word(rows["C-1"]), Number(rows["C-1"], "margin_m")));
        Assert.Equal(("unknown", 3.603), (Word(rows["C-3"]), Number(rows["C-3"], "as_found_m")));
        Assert.Equal(("unknown", "its far end is unknown"), (Word(rows["C-4"]), rows["C-4"].GetProperty("why").GetString()));
        Assert.Equal(("no_way", "P is not in this hall"), (Word(rows["C-5"]), rows["C-5"].GetProperty("why").GetString()));
    }

    [Fact]
    public void A_hall_is_asked_by_its_id_and_the_as_found_one_says_why_not()
    {
        Assert.Equal(5, Asked("new").Tables[0].Count);
        Assert.Equal(["origin is where the machine was found, so every cable reaches."], Asked("origin").Summary);
        Plan Asked(string hall) => ReachPlan.Kind.Compute(_sketch.Contents.Basis, new PlanRequest(hall));
    }

    [Fact]
    public void Reach_is_told_in_sentences_with_what_measuring_would_settle()
    {
        var says = _sketch.Contents.Plans.OfType<ReachPlan>().Single().Summary;
        Assert.Equal(
            "The new hall: of 4 cables between frames in this hall, 1 reaches, 1 is too short by 0.03 m (1 in), 2 are unknown. 1 of the unknown can be settled by measuring it: the minimum length is shown. 1 more cable ends at a frame that is not in this hall.",
            says[0]);
        Assert.Equal("The length needed is the route from port to port plus 0.50 m (1 ft 8 in) at each end.", says[1]);
    }

    [Fact]
    public void The_page_of_a_hall_shows_the_worst_first_and_draws_the_short_ones()
    {
        var page = _sketch.Page("plans/reach/new/index.html");
        Assert.Equal(
            ["Too short", "Unknown", "Reaches", "At a frame that is not in this hall"],
            page.QuerySelectorAll("h2[id]").Select(h => h.TextContent.Trim()).Where(h => h != "Floor plan"));
        Assert.Equal("short by 0.03 m (1 in)", page.QuerySelector("td[data-is=Margin]")!.TextContent);
        Assert.Equal(2, page.QuerySelectorAll(".plan .loads .load").Length);
        Assert.Equal(["N-1", "N-2"], page.QuerySelectorAll("h3 + table th[scope=row]").Select(tray => tray.TextContent.Trim()));
        Assert.Contains("C-2 is short by 0.03 m", page.QuerySelector("svg desc")!.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Frames_say_what_a_metre_would_change_on_the_page_and_in_the_data()
    {
        var rows = Data("reach-frames").ToDictionary(row => row.GetProperty("frame").GetString()!, StringComparer.Ordinal);
        Assert.Equal(("east", 0, 2), (
            rows["A"].GetProperty("best_metre").GetString(),
            rows["A"].GetProperty("east_do_not_reach").GetInt32(),
            rows["A"].GetProperty("west_do_not_reach").GetInt32()));
        Assert.Equal(0.033, Number(rows["A"], "short_by_m"));
        Assert.Equal([1, 1], Data("reach-stretches").Select(row => row.GetProperty("short").GetInt32()));
        var page = _sketch.Page("plans/reach/new/frames/index.html");
        Assert.Contains("east: all reach", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal(2, _sketch.Page("plans/reach/new/index.html").QuerySelectorAll(".frames .solid").Length);
    }

    [Fact]
    public void Each_layer_of_a_plan_lists_every_frame_once_and_marks_itself()
    {
        foreach (var layer in (string[])["state", "reach"])
        {
            var page = _sketch.Page($"halls/new/{layer}/index.html");
            Assert.Equal(["A", "B"], page.QuerySelectorAll(".layer-key a[href*='frames/']").Select(frame => frame.TextContent).Order());
            Assert.Single(page.QuerySelectorAll(".layers a[aria-current]"));
        }
    }

    [Fact]
    public void The_ways_of_a_halls_cables_are_a_script_with_their_heights()
    {
        using var written = new MemoryStream();
        SitePages.All(_sketch.Contents).OfType<StreamedFile>().Single(file => file.Path == "halls/new/ways.js").Write(written);
        var script = Encoding.UTF8.GetString(written.ToArray());
        var json = JsonDocument.Parse(script["asfoundWays(".Length..script.LastIndexOf(')')]).RootElement;
        var cable = json.GetProperty("cables").EnumerateArray().Single(cable => cable[0].GetString() == "C-2");
        var points = json.GetProperty("points").EnumerateArray().Select(number => number.GetInt32()).Chunk(3).ToList();
        var way = cable[3][0].EnumerateArray().Select(at => points[at.GetInt32()]).ToList();
        Assert.Equal(["N-1", "N-2"], cable[2].EnumerateArray().Select(tray => json.GetProperty("trays")[tray.GetInt32()].GetString()));

        // From A's top over N-1 at 2700 and N-2 at 2900 to B's top, as worked in the tests of Archive.Halls.
        Assert.Equal([2134, 2700, 2700, 2900, 2900, 2134], way.Select(point => point[2]));
        Assert.Equal((1330, 2495), (way[0][0], way[0][1]));
        Assert.Equal((6730, 5695), (way[^1][0], way[^1][1]));
    }

    /// <summary>
    /// It is of no hall and of every hall: under a heading of its own, for the headings of verdicts count only what is there.
    /// </summary>
    [Fact]
    public void A_cable_without_a_known_end_stands_under_its_own_heading()
    {
        var sketch = Sketch.Of([.. Files, ("cables/loose.yaml", "- {id: C-6, kind: coax}\n")]);
        Assert.Equal(
            ["plan", "short", "unknown", "reaches", "elsewhere", "no-end"],
            sketch.Page("plans/reach/new/index.html").QuerySelectorAll("h2[id]").Select(h => h.Id));
    }

    [Fact]
    public void A_cable_tells_its_way_as_found_and_how_it_fares_elsewhere()
    {
        var page = _sketch.Page("cables/C-2/index.html");
        var facts = page.QuerySelectorAll("section:has(#facts) .facts div").ToDictionary(
            line => line.QuerySelector("dt")!.TextContent, line => line.QuerySelector("dd .figure, dd .unknown")!.TextContent);
        Assert.Equal(("3.60 m (11 ft 10 in)", "8.30 m (27.2 ft)"), (facts["Route as found"], facts["Slack as found"]));
        Assert.Contains("Short by 0.03 m", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Equal(2, page.QuerySelectorAll(".plan.inset, .plan .inset, div.plan").Length);
    }

    [Fact]
    public void Movers_are_told_what_goes_what_comes_off_and_through_which_door()
    {
        // A and B are inside the line, P (x 2320..3020) is astride. A: 310 kg and coils of 12 + 11.9 m x 55 g/m = 1.3145 kg.
        var rows = Data("loads");
        Assert.Equal(
            ["A goes", "B goes", "P astride"],
            rows.Select(row => $"{row.GetProperty("frame").GetString()} {row.GetProperty("side").GetString()}"));
        Assert.Equal((311.315, 2, false), (
            Number(rows[0], "laden_kg"),
            rows[0].GetProperty("doors_off").GetInt32(),
            rows[0].TryGetProperty("weight_with_doors_kg", out _)));
        Assert.Equal(312, Number(rows[2], "weight_with_doors_kg"));
        Assert.Equal(("stays", "goes"), (
            rows[0].GetProperty("openings")[0].GetProperty("upright").GetString(),
            rows[0].GetProperty("openings")[0].GetProperty("on_its_side").GetString()));
        Assert.Equal("stays", rows[0].GetProperty("can_be_laid_down").GetString()); // it sweeps 2219 under a ceiling of 2200

        var page = _sketch.Page("plans/loads/index.html");
        Assert.Contains("door: on its side only", page.QuerySelector("td.whole")!.TextContent, StringComparison.Ordinal);
        Assert.Contains(
            "door: not upright; the record does not say whether it may be laid down",
            page.QuerySelectorAll("td.whole")[1].TextContent,
            StringComparison.Ordinal);

        // B has no weight: from there on the load weighs at least so much. A's two doors are a step each, before it is carried.
        Assert.Equal([false, true], rows.Take(2).Select(row => row.GetProperty("total_at_least").GetBoolean()));
        Assert.Equal(
            ["311 kg (686 lb)", "at least 311 kg (686 lb)"],
            page.QuerySelectorAll("[data-is='load so far']").Take(2).Select(cell => cell.TextContent.Trim()));
        var steps = _sketch
            .Page("plans/loads/steps/index.html")
            .QuerySelectorAll(".of-step")
            .Select(row => $"{row.QuerySelector("th .id")!.TextContent}: {row.QuerySelector(".does p")!.TextContent.Trim()}")
            .ToList();
        Assert.Equal([
            "A: Take off door or cover 1 of 2 and tag it.",
            "A: Take off door or cover 2 of 2 and tag it.",
            "B: Doors and covers are not recorded: count them, take them off, tag each with this id."
        ], steps.Take(3));
        Assert.Equal(5, steps.Count);
        Assert.Equal(
            ["Row r1", "Loose cables", "Total"], page.QuerySelectorAll("section:has(#totals) tbody th").Select(cell => cell.TextContent));
    }

    [Fact]
    public void Coils_weigh_length_times_mass() =>
        Assert.Equal([0.66, 0.655, null, 3.6], Data("loads-coils").Select(row => row.TryGetProperty("weight_kg", out var weight)
            ? Math.Round(weight.GetDouble(), 3)
            : (double?)null));

    [Fact]
    public void Floors_feeders_and_trays_are_in_the_data()
    {
        var floor = Data("floor").First(row => row.GetProperty("frame").GetString() == "A");
        Assert.Equal((7.551072, "above"), (Number(floor, "footprint_kpa"), floor.GetProperty("footprint_is").GetString()));
        Assert.Equal((336, 1146.48), (Number(floor, "heat_w"), Math.Round(Number(floor, "heat_btu_h"), 3)));

        // P's middle is 1340 east of A's; its top 234 lower: 566 + 505 + 1340 + 500 + 800 (P is 600 deep: 500 from the tray's line).
        var feeder = Assert.Single(Data("floor-feeders"));
        Assert.Equal(
            ("P", "A", 14), (feeder.GetProperty("from").GetString(), feeder.GetProperty("feeds").GetString(), Number(feeder, "amps")));
        Assert.Equal(3.711, Number(feeder, "route_m"));

        // 3 coaxial cables of 6.1 mm and a feeder of 13 mm in 100 x 60 mm.
        var tray = Data("floor-trays").First(row => row.GetProperty("tray").GetString() == "T-8");
        Assert.Equal(Math.Round(((3 * 6.1 * 6.1) + (13 * 13)) * Math.PI / 4 / 60, 6), Number(tray, "fill_percent"));
        Assert.Equal(("within", 104), (tray.GetProperty("fill_is").GetString(), Number(tray, "bend_mm")));
    }

    [Fact]
    public void Every_link_of_these_plans_resolves() => Assert.Empty(Links.Faults(_sketch));

    [Fact]
    public void Pages_of_plans_say_who_decides()
    {
        Assert.Contains(
            "structural engineer",
            _sketch.Page("plans/floor/index.html").QuerySelector(".cautions")!.TextContent,
            StringComparison.Ordinal);
        Assert.Contains(
            "licensed electrician",
            _sketch.Page("plans/floor/feeders/index.html").QuerySelector(".cautions")!.TextContent,
            StringComparison.Ordinal);
        Assert.Contains(
            "local rules", _sketch.Page("plans/loads/index.html").QuerySelector(".cautions")!.TextContent, StringComparison.Ordinal);
    }

    private List<JsonElement> Data(string name)
    {
        using var stream = new MemoryStream();
        _sketch.Contents.Plans.SelectMany(plan => plan.Tables).Single(table => table.Path == $"plans/{name}").WriteJson(stream);
        return [.. JsonDocument.Parse(Encoding.UTF8.GetString(stream.ToArray())).RootElement.EnumerateArray()];
    }

    private static string? Word(JsonElement row) => row.GetProperty("verdict").GetString();

    private static double Number(JsonElement row, string key) => row.GetProperty(key).GetDouble();
}
