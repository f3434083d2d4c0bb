using System.Collections.Immutable;
using Archive.Halls.Checks;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Placement;
using Archive.Halls.Reach;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using UnitsNet;
using Xunit;

namespace Archive.Halls.Tests.Placement;

public sealed class StandFinderTests
{
    private static readonly string[] Five = ["A-1", "A-2", "A-3", "A-4", "A-5"];

    [Fact]
    public void Two_frames_that_a_short_cable_joins_are_set_side_by_side()
    {
        // By hand: both tops 2134 mm, tray at 2700: up 566 and down 566; frames 660 wide. Side by side 1792 mm, at the two ends of five
        // 3772 mm.
        var hall = Hall(RecordSketch.Row("row", new(1000, 2000), Compass.East, Compass.South, Five));
        var sketch = new Case(hall, Five, [Cable("C-1", 2000, "A-1", "A-5")]);
        var found = sketch.Find()!;
        Assert.True(found.IsExact);
        Assert.Equal(1, found.Given.TooShort);
        Assert.Equal(1772, found.Given.Shortage, 6);
        Assert.Equal(0, found.Score.TooShort);

        // Five in a row have four pairs of neighbours; setting A-5 before or behind A-1 leaves the other four in order.
        Assert.Equal(1, found.Score.Parted);
        Assert.Equal(0, found.LeastShort);
    }

    [Fact]
    public void What_already_reaches_stays_as_it_was()
    {
        var hall = Hall(RecordSketch.Row("row", new(1000, 2000), Compass.East, Compass.South, Five));
        var found = new Case(hall, Five, [Cable("C-1", 9000, "A-1", "A-5")]).Find()!;
        Assert.Equal(Five, found.Hall.Rows[0].Places.Select(place => place.Frame!.Value.Value));
        Assert.Equal(found.Given, found.Score);
    }

    [Fact]
    public void A_cable_that_is_short_anywhere_bounds_every_proposal()
    {
        var hall = Hall(RecordSketch.Row("row", new(1000, 2000), Compass.East, Compass.South, Five));
        var found = new Case(hall, Five, [Cable("C-1", 1000, "A-1", "A-2"), Cable("C-2", 2000, "A-3", "A-4")]).Find()!;
        Assert.Equal((1, 1), (found.LeastShort, found.Score.TooShort));
    }

    [Fact]
    public void In_every_order_no_other_is_better()
    {
        for (var seed = 1; seed <= 12; seed++)
        {
            var random = new Random(seed);
            var hall = Hall(RecordSketch.Row("row", new(1000, 2000), Compass.East, Compass.South, Five));
            var cables = Enumerable.Range(1, 8)
                .Select(i => Cable($"C-{i}", random.Next(1500, 4200), Five[random.Next(5)], Five[random.Next(5)]))
                .ToArray();
            var sketch = new Case(hall, Five, cables);
            var found = sketch.Find()!;

            // Compared with the judge of reach, order by order.
            var best = Orders(
                Five).Min(order => Worth(sketch, Hall(RecordSketch.Row("row", new(1000, 2000), Compass.East, Compass.South, order))));
            Assert.Equal((best.Count, Math.Round(best.Lacking, 3)), (found.Score.TooShort, Math.Round(found.Score.Shortage, 3)));
            var told = Worth(sketch, found.Hall);
            Assert.Equal((told.Count, Math.Round(told.Lacking, 3)), (found.Score.TooShort, Math.Round(found.Score.Shortage, 3)));
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_search_is_never_worse_than_the_rows_given_tells_the_truth_and_keeps_the_floor_clear(int seed)
    {
        var random = new Random(seed);
        var ids = Enumerable.Range(1, 18).Select(i => $"F-{i:00}").ToArray();
        var hall = Hall(
            RecordSketch.Row("one", new(1000, 2000), Compass.East, Compass.South, [.. ids[..9]]),
            RecordSketch.Row("two", new(1000, 4500), Compass.East, Compass.South, [.. ids[9..]])) with
        {
            Obstacles = [RecordSketch.Obstacle("column", RecordSketch.Box(8000, 3700, 8300, 4000))],
            Openings = [RecordSketch.Opening(new(0, 5500), new(0, 6900))],
        };
        var cables = Enumerable.Range(1, 120)
            .Select(i => Cable($"C-{i:000}", random.Next(2500, 9000), ids[random.Next(18)], ids[random.Next(18)]))
            .ToArray();
        var sketch = new Case(hall, ids, cables);
        var found = sketch.Find(20_000)!;
        Assert.False(found.IsExact);
        Assert.True(found.Score <= found.Given);
        Assert.True(found.Score.TooShort < found.Given.TooShort, "nothing was found at all");
        Assert.True(found.LeastShort <= found.Score.TooShort);
        Assert.Equal(found.Score, sketch.Find(20_000)!.Score);

        var told = Worth(sketch, found.Hall);
        Assert.Equal((told.Count, Math.Round(told.Lacking, 2)), (found.Score.TooShort, Math.Round(found.Score.Shortage, 2)));
        Assert.Equal(ids, found.Hall.Rows
            .SelectMany(row => row.Places)
            .Select(place => place.Frame?.Value)
            .OfType<string>()
            .Order(StringComparer.Ordinal));
        var record = sketch.Record(found.Hall);
        Assert.Empty(HallSpaceChecks.Check(record).Select(diagnostic => diagnostic.Message));
        Assert.All(Aisles.Measure(HallLayout.Create(record, found.Hall)), aisle => Assert.True(
            aisle.Before.Distance is not { } clear || clear.Millimeters >= PlacementRequest.LeastAisle - 1,
            $"{aisle.Standing.Frame.Id}: {aisle.Before}"));
    }

    [Fact]
    public void In_a_hall_without_rows_frames_stand_beneath_the_trays()
    {
        var found = new Case(Hall(), Five, [Cable("C-1", 2500, "A-1", "A-2")]).Find()!;
        Assert.Empty(found.Unplaced);
        Assert.Equal((5, 0), (found.Given.Unplaced, found.Score.TooShort));
        Assert.StartsWith("beneath-T-", found.Hall.Rows[0].Id.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void A_frame_too_heavy_for_the_floor_or_without_a_size_is_not_set()
    {
        var hall = Hall() with { FloorRating = RecordSketch.Say(Pressure.FromKilopascals(3)) };

        // 600 kg x 9.80665 / (0.660 x (0.610 + 0.900)) m2 = 5.90 kPa.
        var heavy = RecordSketch.Frame("H-1") with { Weight = RecordSketch.Say(Mass.FromKilograms(600)) };
        var found = new Case(hall, [RecordSketch.Frame("A-1"), heavy, RecordSketch.Unsized("U-1")], []).Find()!;
        Assert.Equal(["H-1"], found.TooHeavy.Select(frame => frame.Id));
        Assert.Equal(["U-1"], found.Unsized.Select(frame => frame.Id));
    }

    /// <summary>60 frames in five rows, 1,500 cables; run by name, it says how long it took and how near it came.</summary>
    [Fact(Explicit = true)]
    public void Sixty_frames_and_fifteen_hundred_cables()
    {
        var random = new Random(1);
        var ids = Enumerable.Range(1, 60).Select(i => $"F-{i:00}").ToArray();
        FrameRow[] rows = [.. Enumerable.Range(0, 5).Select(row => RecordSketch.Row(
            $"row-{row}", new(1000, 1500 + (row * 1600)), Compass.East, Compass.South, [.. ids[(row * 12)..((row + 1) * 12)]]))];
        var hall = Hall(rows) with { Outline = RecordSketch.Box(0, 0, 12000, 9000) };
        var cables = Enumerable.Range(1, 1500)
            .Select(i => Cable($"C-{i:0000}", random.Next(2500, 14000), ids[random.Next(60)], ids[random.Next(60)]))
            .ToArray();
        Tray[] trays =
        [
            .. Enumerable.Range(0, 5)
                .Select(row => RecordSketch.Tray($"T-{row}", "new", new(800, 1195 + (row * 1600)), new(11000, 1195 + (row * 1600)))),
            RecordSketch.Tray("T-8", "new", new(900, 1000), new(900, 8000)),
            RecordSketch.Tray("T-9", "new", new(9500, 1000), new(9500, 8000))
        ];
        ImmutableArray<Frame> frames = [.. ids.Select(id => RecordSketch.Frame(id))];
        var record = RecordSketch.RecordOf(Length.FromMillimeters(250), [hall, .. frames, .. trays]);
        var layout = HallLayout.Create(record, hall);
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var found = PlacementFinder.Find(new PlacementRequest
        {
            Record = record,
            Layout = layout,
            Network = TrayNetwork.Create(layout.Trays),
            Frames = frames,
            Cables = [.. cables],
            AsFound = layout
        }, TestContext.Current.CancellationToken)!;
        TestContext.Current.SendDiagnosticMessage(
            $"{watch.Elapsed.TotalSeconds:0.0} s: given {found.Given}, found {found.Score}, bound {found.LeastShort}");
        Assert.True(found.Score < found.Given);
    }

    private static (int Count, double Lacking) Worth(Case sketch, Archive.Records.Model.Hall hall)
    {
        var record = sketch.Record(hall);
        var layout = HallLayout.Create(record, hall);
        var reach = ReachEvaluator.Evaluate(record, layout, TrayNetwork.Create(layout.Trays), sketch.Cables, []);
        return (
            reach.Count(ReachVerdict.TooShort) + reach.Count(ReachVerdict.NoWay),
            reach.Shortage.Millimeters + (PlacementProblem.NoWay * reach.Count(ReachVerdict.NoWay)));
    }

    private static Archive.Records.Model.Hall Hall(params FrameRow[] rows) => RecordSketch.HallOf("new", rows) with { AsFound = null };

    private static WiredCable Cable(string id, double length, string one, string other) =>
        RecordSketch.Wired(RecordSketch.WithLength(RecordSketch.Cable(id, null, ["T-1"]), length), one, other);

    private static IEnumerable<string[]> Orders(string[] frames) => frames.Length <= 1
        ? [frames]
        : frames.SelectMany(first => Orders([.. frames.Where(frame => frame != first)]).Select(rest => (string[])[first, .. rest]));

    // A hall of 12 x 8 m; trays above two rows, joined at their western ends.
    private sealed class Case(Archive.Records.Model.Hall hall, ImmutableArray<Frame> frames, IEnumerable<WiredCable> cables)
    {
        public Case(Archive.Records.Model.Hall hall, string[] frames, IEnumerable<WiredCable> cables)
            : this(hall, [.. frames.Select(id => RecordSketch.Frame(id))], cables)
        {
        }

        public ImmutableArray<WiredCable> Cables { get; } = [.. cables];

        public ArchiveModel Record(Archive.Records.Model.Hall with) => RecordSketch.RecordOf(
            Length.Zero,
            [
                with,
                .. frames,
                RecordSketch.Tray("T-1", "new", new(800, 1695), new(11000, 1695)),
                RecordSketch.Tray("T-2", "new", new(800, 4195), new(11000, 4195)),
                RecordSketch.Tray("T-3", "new", new(900, 1500), new(900, 4400))
            ]);

        public PlacementProposal? Find(int steps = 20_000)
        {
            var record = Record(hall);
            var layout = HallLayout.Create(record, hall);
            return PlacementFinder.Find(new PlacementRequest
            {
                Record = record,
                Layout = layout,
                Network = TrayNetwork.Create(layout.Trays),
                Frames = frames,
                Cables = Cables,
                AsFound = layout,
                Steps = steps,
            });
        }
    }
}
