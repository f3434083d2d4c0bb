using Archive.Halls.Checks;
using Archive.Halls.Layout;
using Archive.Records.Model;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

public class HallCheckTests
{
    [Theory] // Row b's fronts on y = 3000, 610 deep: its backs on y = 2390. Row a's fronts lie at the given y; they overlap by a - 2390.
    [InlineData(2390, false)]
    [InlineData(2391, false)] // 1 mm: they touch
    [InlineData(2392, true)]
    [InlineData(2900, true)]
    public void Frames_overlap_beyond_a_millimetre(double front, bool overlaps)
    {
        var codes = Codes(
            Frame("A"), Frame("B"),
            HallOf(
                "origin",
                Row("b", new(1000, 3000), Compass.East, Compass.South, "B"),
                Row("a", new(1300, front), Compass.East, Compass.South, "A")));

        Assert.Equal(overlaps ? ["AF0603"] : [], codes);
    }

    [Fact]
    public void An_overlap_is_told_once_with_its_depth()
    {
        // A covers x 1000..1660, B 1600..2260: they share 60 mm by the whole depth of 610.
        var diagnostic = Assert.Single(HallSpaceChecks.Check(RecordOf(
            Frame("A"), Frame("B"),
            HallOf(
                "origin",
                Row("a", new(1000, 3000), Compass.East, Compass.South, "A"),
                Row("b", new(1600, 3000), Compass.East, Compass.South, "B")))));

        Assert.Equal("frame B overlaps frame A by 60 mm", diagnostic.Message);
    }

    [Fact]
    public void Frames_whose_place_is_a_guess_are_not_judged() =>
        Assert.Equal(["AF0607"], Codes(
            Unsized("A"), Frame("B"), Frame("C"),
            HallOf(
                "origin",
                Row("a", new(0, 700), Compass.East, Compass.South, "A", "B"),
                Row("c", new(300, 700), Compass.East, Compass.South, "C"))));

    [Fact]
    public void A_frame_without_a_size_is_told_once_for_all_halls() =>
        Assert.Equal(["AF0607"], Codes(
            Unsized("A"),
            HallOf("origin", Row("a", new(0, 700), Compass.East, Compass.South, "A")),
            HallOf("new", Row("a", new(0, 700), Compass.East, Compass.South, "A")) with { AsFound = null }));

    [Theory] // A triangular column points west with its tip at (tip, 2000); the frame covers x 1000..1660, y 1690..2300.
    [InlineData(1620, true)]
    [InlineData(1659.5, false)] // half a millimetre: it touches
    [InlineData(1700, false)] // the column's bounding box clears the frame, too
    public void Columns_need_not_be_square(double tip, bool isTold)
    {
        var column = Obstacle("column", Outline(new(tip, 2000), new(2000, 1900), new(2000, 2100)));
        var hall = HallOf("origin", Row("a", new(1000, 2300), Compass.East, Compass.South, "A")) with { Obstacles = [column] };
        Assert.Equal(isTold ? ["AF0611"] : [], Codes(Frame("A"), hall));
    }

    [Fact]
    public void A_slanted_column_is_not_its_bounding_box()
    {
        // A right triangle north-east of the diagonal from (1500, 1000) to (3000, 2500): its box reaches the frame, the triangle does not.
        var column = Obstacle("stair", Outline(new(1500, 1000), new(3000, 1000), new(3000, 2500)));
        var hall = HallOf("origin", Row("a", new(1000, 2300), Compass.East, Compass.South, "A")) with { Obstacles = [column] };
        Assert.Empty(Codes(Frame("A"), hall));
    }

    [Theory] // The hall covers x 0..12000 and y 0..8000; the frame stands at x..x+660, y 390..1000.
    [InlineData(0, "")]
    [InlineData(11340, "")]
    [InlineData(11341, "")] // 1 mm over: it touches
    [InlineData(11350, "stands through the wall")]
    [InlineData(13000, "stands outside the outline")]
    public void Frames_stand_within_the_outline(double x, string says)
    {
        var diagnostics = HallSpaceChecks.Check(
            RecordOf(Frame("A"), HallOf("origin", Row("a", new(x, 1000), Compass.East, Compass.South, "A"))));
        if (says.Length == 0) Assert.Empty(diagnostics);
        else Assert.Contains(says, Assert.Single(diagnostics).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_frame_may_not_stand_in_the_corner_that_an_L_shaped_hall_leaves_out()
    {
        // The bounding box of the L holds the frame; the L itself does not.
        var hall = HallOf("origin", Row("a", new(8000, 7000), Compass.East, Compass.South, "A")) with
        {
            Outline = Outline(new(0, 0), new(12000, 0), new(12000, 4000), new(6000, 4000), new(6000, 8000), new(0, 8000)),
        };
        Assert.Equal(["AF0606"], Codes(Frame("A"), hall));
    }

    [Theory] // bottom + inside depth of 100 against a ceiling of 3600
    [InlineData(3500, false)]
    [InlineData(3502, true)]
    public void Trays_hang_under_the_ceiling(double bottom, bool isTold)
    {
        var hall = HallOf("origin") with { Ceiling = Say(Length.FromMillimeters(3600)) };
        var tray = Tray("T", "origin", new(0, 0), new(1, 0)) with { Height = Say(Length.FromMillimeters(bottom)) };
        Assert.Equal(isTold ? ["AF0608"] : [], Codes(hall, tray));
    }

    [Fact]
    public void A_cable_passes_only_between_trays_that_join()
    {
        var diagnostics = HallSpaceChecks.Check(RecordOf(
            HallOf("origin"),
            Tray("T1", "origin", new(0, 1000), new(5000, 1000)),
            Tray("T2", "origin", new(5150, 1000), new(9000, 1000)),
            Tray("T3", "origin", new(5000, 1160), new(5000, 6000)),
            Cable("C1", null, ["T1", "T2"]),
            Cable("C2", null, ["T1", "T3"]),
            Cable("C3", null, ["T2", "T1"])));

        Assert.Equal("tray T3 does not join tray T1 before it: their lines are 160 mm apart in plan", Assert.Single(diagnostics).Message);
        Assert.Equal(2, diagnostics[0].Related.Length);
    }

    [Fact]
    public void Trays_of_another_hall_are_another_fault() =>
        Assert.Empty(Codes(
            HallOf("origin"),
            HallOf("new") with { AsFound = null },
            Tray("T1", "origin", new(0, 1000), new(5000, 1000)),
            Tray("T2", "new", new(9000, 1000), new(9000, 5000)),
            Cable("C1", null, ["T1", "T2"])));

    [Fact]
    public void Figures_that_are_none_do_no_harm()
    {
        var bowTie = Outline(new(0, 0), new(12000, 8000), new(12000, 0), new(0, 8000));
        var hall = HallOf(
            "origin",
            Row("a", new(double.NaN, 700), Compass.East, Compass.South, "A"),
            Row("b", new(1e300, 1e300), Compass.West, Compass.North, "B")) with
        {
            Outline = bowTie,
            Take = Outline(new(0, 0), new(0, 0), new(0, 0)),
            Obstacles =
            [
                Obstacle("line", Outline(new(0, 0), new(5000, 0), new(2000, 0))),
                Obstacle("none", Outline(new PlanPoint(double.NaN, 0)))
            ],
            Openings = [Opening(new(0, 0), new(0, 0)), Opening(new(double.PositiveInfinity, 0), new(0, 0))],
        };
        var archive = RecordOf(
            hall,
            Frame("A"),
            Frame("B"),
            Tray("T", "origin", new PlanPoint(double.NaN, 0), new PlanPoint(0, 0)),
            Cable("C", null, ["T", "T"]));

        Assert.False(HallSpaceChecks.Check(archive).IsDefault);
        Assert.Single(TakeBoundary.Classify(HallLayout.Create(archive, hall)));
        Assert.NotEmpty(Walls.Compute(hall, 200));
    }

    private static IEnumerable<string> Codes(params ArchiveRecord[] records) =>
        HallSpaceChecks.Check(RecordOf(records)).Select(diagnostic => diagnostic.Code);
}
