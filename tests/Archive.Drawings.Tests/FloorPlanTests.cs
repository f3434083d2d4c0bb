using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Drawings.Halls;
using Archive.Halls.Layout;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using CsCheck;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Drawings.Tests;

public class FloorPlanTests
{
    private static readonly FloorPlanOptions Options = new() { Href = Drawn.Href };

    // Rows that keep clear of each other, ids short and long, wide frames and narrow, trays along and across.
    private static readonly Gen<HallLayout> Halls =
        from rows in Gen.Select(
            Gen.Int[0, 4000], Gen.Int[1, 9], Gen.Int[200, 1500], Gen.Bool, Gen.Char.AlphaNumeric.Array[1, 12]).Array[1, 4]
        from trays in Gen.Select(Gen.Int[0, 12000], Gen.Int[0, 8000], Gen.Int[0, 12000], Gen.Int[0, 8000], Gen.Bool).Array[0, 8]
        select Layout(
            [
                .. rows.Select((row, r) => (
                    Row(
                        $"row-{r}",
                        new(row.Item1, 1500 + (1800 * r)),
                        Compass.East,
                        row.Item4 ? Compass.South : Compass.North,
                        [.. Enumerable.Range(0, row.Item2).Select(i => (object)Id(row.Item5, r, i))]),
                    Enumerable.Range(0, row.Item2).Select(i => Frame(Id(row.Item5, r, i), row.Item3, 700)))),
            ],
            [.. trays.Select((tray, t) => tray.Item5
                ? Tray($"T-{t:00}", "origin", new(tray.Item1, tray.Item2), new(tray.Item3, tray.Item2))
                : Tray($"T-{t:00}", "origin", new(tray.Item1, tray.Item2), new(tray.Item1, tray.Item4)))]);

    [Theory]
    [InlineData("wide")]
    [InlineData("narrow")]
    [InlineData("")]
    public void Letters_never_collide(string lettering) => Halls.Sample(layout =>
    {
        var texts = (lettering.Length == 0 ? Ground(layout) : new Drawn(FloorPlan.Draw(layout, Options))).Texts(lettering).ToList();
        for (var i = 0; i < texts.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                Assert.False(texts[i].Box.Grown(-0.05).Meets(texts[j].Box), $"`{texts[i].Text}` lies on `{texts[j].Text}`");
            }
        }
    });

    [Fact]
    public void Letters_of_a_small_plan_are_nine_pixels_on_a_phone() => Halls.Sample(layout =>
    {
        // Within a page of 360 px, its margins and the board's, 314 px are left for 340 units.
        var marked = layout.PlacedFrames.FirstOrDefault()?.Frame.Id;
        var inset = new Drawn(FloorPlan.Draw(layout, Options with { Ground = "ground.svg", Marked = marked }));
        Assert.All(Ground(layout).Texts().Concat(inset.Texts()), text => Assert.InRange(text.Size * 314 / 340, 9, 12));
    });

    // One picture for all pages of a hall: it says nothing of any frame but where it stands, and a small plan draws nothing else of it.
    [Fact]
    public void The_hall_under_a_small_plan_is_drawn_to_the_same_scale_and_names_no_frame() => Halls.Sample(layout =>
    {
        var ground = Ground(layout);
        var inset = new Drawn(FloorPlan.Draw(layout, Options with { Ground = "ground.svg" }));
        Assert.Equal(("ground.svg", 1), ((string)inset.All("image").Single().Attribute("href")!, inset.All("image").Count()));
        foreach (var side in (string[])["viewBox", "width", "height"])
            Assert.Equal((string)inset.All("svg").Single().Attribute(side)!, (string)ground.All("svg").Single().Attribute(side)!);
        Assert.Empty(ground.All("a"));
        Assert.Empty(inset.All("rect").Concat(inset.All("text")));
        var ids = layout.PlacedFrames.Select(placed => placed.Frame.Id).Concat(layout.Trays.Select(tray => tray.Id)).ToHashSet();
        Assert.DoesNotContain(ground.All("text"), text => ids.Contains(text.Value));
        Assert.DoesNotContain(ground.All("g").Concat(ground.All("path")), one => one.Attribute("class") is not null);
    });

    private static Drawn Ground(HallLayout layout) => new(new HtmlFragment($"<div class=\"drawing\">{PlanGround.Draw(layout)}</div>"));

    [Fact]
    public void Letters_of_a_frame_stay_in_its_box() => Halls.Sample(layout =>
    {
        var drawn = new Drawn(FloorPlan.Draw(layout, Options));
        foreach (var lettering in (string[])["wide", "narrow"])
        {
            var boxes = drawn.All("rect")
                .Where(box => ((string)box.Attribute("class")!).StartsWith("box", StringComparison.Ordinal))
                .Select(Drawn.Box)
                .ToList();
            Assert.All(drawn.LinkTexts(lettering), text => Assert.Contains(boxes, box => box.Grown(0.05).Holds(text.Box)));
        }
    });

    [Fact]
    public void What_a_layer_says_collides_with_nothing_and_stays_in_its_box() => Halls.Sample(layout =>
    {
        var drawn = new Drawn(FloorPlan.Draw(layout, Options with { Layer = Weights(layout) }));
        foreach (var lettering in (string[])["wide", "narrow"])
        {
            var texts = drawn.LinkTexts(lettering).ToList();
            var boxes = drawn.All("rect")
                .Where(box => ((string)box.Attribute("class")!).StartsWith("box", StringComparison.Ordinal))
                .Select(Drawn.Box)
                .ToList();
            Assert.All(texts, text => Assert.Contains(boxes, box => box.Grown(0.05).Holds(text.Box)));
            Assert.All(texts, text => Assert.DoesNotContain(
                texts, other => !other.Equals(text) && other.Box.Grown(-0.05).Meets(text.Box.Grown(-0.05))));
        }
    });

    [Fact]
    public void A_layer_is_read_out_and_lettered()
    {
        var ids = Enumerable.Range(1, 6).Select(i => $"R{i}").ToList();
        var layout = Layout([(Row("r", new(1500, 2400), Compass.East, Compass.South, [.. ids]), ids.Select(id => Frame(id)))], []);
        var drawn = new Drawn(FloorPlan.Draw(layout, Options with { Layer = Weights(layout) }));

        Assert.Equal("Floor plan of origin: weights of frames", drawn.Name);
        Assert.Contains(drawn.All("a"), link => (string)link.Attribute("aria-label")! == "R3 102, heavy");
        Assert.Contains("102", drawn.Texts("wide").Select(text => text.Text));
        Assert.Contains("R3", drawn.Texts("wide").Select(text => text.Text));
    }

    [Fact]
    public void Every_pattern_differs_from_all_others() =>
        Assert.Distinct(Enum.GetValues<PlanPattern>().Select(pattern => PlanPatterns.Sample(pattern).Html));

    // What is painted last lies on top.
    [Fact]
    public void A_tray_that_hangs_higher_is_painted_over_one_that_hangs_lower() => Gen.Int[1, 40].Array[2, 12].Sample(heights =>
    {
        var trays = heights.Select((height, i) => Tray($"T-{i:00}", "origin", new(1000 + (700 * i), 0), new(1000 + (700 * i), 8000)) with
        {
            Height = Say(Length.FromMillimeters(height * 100)),
        }).ToImmutableArray();
        var painted = new Drawn(FloorPlan.Draw(Layout([], trays), Options)).Links
            .Select(href => trays.Single(tray => Drawn.Href(tray) == href).Height!.Value.Value)
            .ToList();
        Assert.Equal(heights.Length, painted.Count);
        Assert.Equal(painted.Order(), painted);
    });

    private static PlanLayer Weights(HallLayout layout) => new(
        "weights of frames",
        [new("light", PlanPattern.Blank), new("heavy", PlanPattern.Crossed)],
        layout.PlacedFrames.Select((placed, i) => (placed.Frame.Id, i)).DistinctBy(pair => pair.Id)
            .ToFrozenDictionary(pair => pair.Id, pair => new PlanMark(pair.i == 2 ? 1 : 0, $"{100 + pair.i}"), StringComparer.Ordinal));

    // So a new name of another frame leaves the page as it is.
    [Fact]
    public void A_small_plan_leads_to_what_it_marks_and_to_nothing_else() => Halls.Sample(layout =>
    {
        foreach (var marked in layout.PlacedFrames.Select(placed => (ArchiveRecord)placed.Frame).Take(1).Concat(layout.Trays.Take(1)))
        {
            var options = Options with { Ground = "ground.svg", Marked = marked.Id };
            var drawn = new Drawn(FloorPlan.Draw(layout, options));
            var isAlone = layout.PlacedFrames.Length <= 50;
            if (isAlone) Assert.Equal([Drawn.Href(marked)], drawn.Links.Distinct());
            Assert.DoesNotContain(
                layout.Trays.Where(tray => tray.Id != marked.Id), tray => drawn.Description.Contains(tray.Id, StringComparison.Ordinal));
        }
    });

    [Fact]
    public void Every_frame_and_tray_is_a_link_that_says_its_id() => Halls.Sample(layout =>
    {
        var drawn = new Drawn(FloorPlan.Draw(layout, Options));
        var expected =
            layout.PlacedFrames.Select(placed => Drawn.Href(placed.Frame)).Concat(layout.Trays.Select(Drawn.Href)).ToHashSet();
        Assert.Equal(expected, drawn.Links.ToHashSet());
        Assert.All(drawn.All("a").Where(link => link.Attribute("aria-label") is not null), link => Assert.Contains(
            ((string)link.Attribute("href")!).Split('/')[1], (string)link.Attribute("aria-label")!, StringComparison.Ordinal));
    });

    [Fact]
    public void Frames_are_drawn_to_scale()
    {
        // 12 m lie between margins of 44 and 30 of 720 units: 646 / 12000 units a millimetre. The frame begins 1500 mm from the west wall
        // and is 660 mm wide and 610 deep; its back lies 1790 mm from the north wall, which is drawn 46 units from the top.
        var scale = 646.0 / 12000;
        var drawn = new Drawn(
            FloorPlan.Draw(Layout([(Row("r", new(1500, 2400), Compass.East, Compass.South, "A"), [Frame("A")])], []), Options));
        var box = Drawn.Box(drawn.All("a").Single().Elements().Single(one => one.Name.LocalName == "rect"));

        Assert.Equal(44 + (1500 * scale), box.X, 0.01);
        Assert.Equal(46 + (1790 * scale), box.Y, 0.01);
        Assert.Equal(660 * scale, box.Width, 0.01);
        Assert.Equal(610 * scale, box.Height, 0.01);
        var front = drawn.All("a").Single().Elements().Single(one => one.Name.LocalName == "line");
        Assert.Equal(box.Bottom, Drawn.Number(front, "y1"), 0.02);
        Assert.Equal("heavy", (string?)front.Attribute("class"));
    }

    [Fact]
    public void A_phone_gets_the_ends_of_ids_and_their_head_before_the_row()
    {
        var ids = Enumerable.Range(1, 6).Select(i => $"R2-{i:00}").ToList();
        var drawn = new Drawn(FloorPlan.Draw(
            Layout([(Row("row-2", new(3000, 2400), Compass.East, Compass.South, [.. ids]), ids.Select(id => Frame(id)))], []), Options));

        Assert.Superset(ids.ToHashSet(), drawn.Texts("wide").Select(text => text.Text).ToHashSet());
        Assert.Superset(new HashSet<string> { "R2-", "01", "06" }, drawn.Texts("narrow").Select(text => text.Text).ToHashSet());
    }

    [Fact]
    public void Where_not_even_ends_fit_a_key_says_the_ids()
    {
        var ids = Enumerable.Range(0, 6).Select(i => $"{(char)('A' + i)}-RECEIVER").ToList();
        var markup = FloorPlan.Draw(Layout(
            [(Row("row-2", new(3000, 2400), Compass.East, Compass.South, [.. ids]), ids.Select(id => Frame(id, width: 350, depth: 350)))],
            []), Options);
        var drawn = new Drawn(markup);

        Assert.Contains("6", drawn.Texts("wide").Select(text => text.Text));
        Assert.Contains(drawn.All("p"), key => key.Value.Contains("6:\u00A0F-RECEIVER", StringComparison.Ordinal));
    }

    [Fact]
    public void A_hall_of_ten_thousand_frames_is_one_link_a_row()
    {
        var rows = Enumerable.Range(0, 100).Select(r => (
            Row(
                $"row-{r}",
                new(2000, 2000 + (2000 * r)),
                Compass.East,
                Compass.South,
                [.. Enumerable.Range(0, 100).Select(i => $"R{r}-{i}")]),
            Enumerable.Range(0, 100).Select(i => Frame($"R{r}-{i}"))));
        var markup = FloorPlan.Draw(Layout([.. rows], []), Options with { RowHref = row => $"#{row.Id.Value}" });

        Assert.Equal(100, new Drawn(markup).Links.Count());
        Assert.InRange(markup.Html.Length, 1, 1_000_000);
    }

    [Fact]
    public void Nothing_is_drawn_of_nothing()
    {
        var hall = HallOf("origin") with { Outline = null };
        Assert.Equal(HtmlFragment.None, FloorPlan.Draw(HallLayout.Create(RecordOf(hall), hall), Options));
    }

    [Fact]
    public void Numbers_past_all_measure_are_not_drawn_and_do_no_harm()
    {
        foreach (var far in (double[])[1e300, double.MaxValue, double.NaN, double.PositiveInfinity])
        {
            var hall = HallOf("origin", Row("a", new(far, far), Compass.East, Compass.South, "A")) with
            {
                Obstacles = [Obstacle("column", Box(0, 0, far, far))],
                Openings = [Opening(new(far, 0), new(0, far))],
                Take = Box(0, 0, far, 10),
            };
            var layout = HallLayout.Create(RecordOf(hall, Frame("A"), Tray("T", "origin", new(0, 0), new(far, far))), hall);
            Assert.NotNull(FloorPlan.Draw(layout, Options with { Route = [new(0, 0), new(far, far)] }).Html);
        }
    }

    [Fact]
    public void Dimensions_are_the_archives_own()
    {
        var layout = Layout([], []);
        Assert.Contains("12 m", new Drawn(FloorPlan.Draw(layout, Options)).Texts("wide").Select(text => text.Text));
        Assert.Contains(
            "39.4 ft",
            new Drawn(FloorPlan.Draw(layout, Options with { Units = DisplayUnits.InchPound })).Texts("wide").Select(text => text.Text));
    }

    private static string Id(char[] head, int row, int i) => $"{new string(head)}{row}-{i:00}";

    private static HallLayout Layout(IReadOnlyList<(FrameRow Row, IEnumerable<Frame> Frames)> rows, ImmutableArray<Tray> trays)
    {
        var hall = HallOf("origin", [.. rows.Select(row => row.Row)]);
        return HallLayout.Create(RecordOf([hall, .. rows.SelectMany(row => row.Frames), .. trays]), hall);
    }
}
