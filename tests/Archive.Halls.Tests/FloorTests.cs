using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Weights;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

public class FloorTests
{
    [Fact]
    public void Aisles_are_measured_straight_ahead_to_the_nearest_thing()
    {
        // The hall covers x 0..12000, y 0..8000. A stands at x 1000..1660, y 1390..2000 facing south; B at x 1500..2160, y 3390..4000: 1390
        // before A, whose last 160 it overlaps. Behind A the wall is 1390 away. Before B a column 200 square begins at y = 5000; behind it
        // stands A again.
        var hall = HallOf(
            "origin",
            Row("a", new(1000, 2000), Compass.East, Compass.South, "A"),
            Row("b", new(1500, 4000), Compass.East, Compass.South, "B")) with
        {
            Obstacles = [Obstacle("column", Box(1900, 5000, 2100, 5200))],
        };
        var aisles = Aisles.Measure(HallLayout.Create(RecordOf(hall, Frame("A"), Frame("B")), hall));

        Assert.Equal([(1390, "B"), (1000, "column")], aisles.Select(aisle => Said(aisle.Before)));
        Assert.Equal([(1390, "wall"), (1390, "A")], aisles.Select(aisle => Said(aisle.Behind)));
    }

    [Theory] // The same pair, turned: fronts 1390 apart whichever way they look.
    [InlineData(Compass.East, Compass.South, 2000, 4000)]
    [InlineData(Compass.West, Compass.South, 2000, 4000)]
    [InlineData(Compass.South, Compass.East, 2000, 4000)]
    public void Aisles_are_the_same_whichever_way_a_row_faces(Compass runs, Compass faces, double one, double other)
    {
        var along = runs is Compass.East or Compass.West;
        PlanPoint Corner(double at) => along ? new(5000, at) : new(at, 5000);
        var hall = HallOf("origin", Row("a", Corner(one), runs, faces, "A"), Row("b", Corner(other), runs, faces, "B"));
        var aisles = Aisles.Measure(HallLayout.Create(RecordOf(hall, Frame("A"), Frame("B")), hall));
        Assert.Equal((1390, "B"), Said(aisles[0].Before));
        Assert.Equal((1390, "A"), Said(aisles[1].Behind));
    }

    [Fact]
    public void What_stands_beside_a_frame_is_not_ahead_of_it_and_slanting_walls_count_by_their_nearest_part()
    {
        // Before A, x 1000..1660, the wall slants from (0, 4000) to (4000, 8000): y = 4000 + x, so 5001 at A's nearer corner less a touch.
        // B is beside A.
        var hall = HallOf("origin", Row("a", new(1000, 2000), Compass.East, Compass.South, "A", "B")) with
        {
            Outline = Outline(new(0, 0), new(12000, 0), new(12000, 8000), new(4000, 8000), new(0, 4000)),
        };
        var aisle = Aisles.Measure(HallLayout.Create(RecordOf(hall, Frame("A"), Frame("B")), hall))[0];
        Assert.Equal((3001, "wall"), Said(aisle.Before));
    }

    [Fact]
    public void Without_walls_an_aisle_is_open()
    {
        var hall = HallOf("origin", Row("a", new(1000, 2000), Compass.East, Compass.South, "A")) with { Outline = null };
        Assert.Equal(new Clearance(null, ""), Assert.Single(Aisles.Measure(HallLayout.Create(RecordOf(hall, Frame("A")), hall))).Before);
    }

    [Theory] // A is 660 wide and has doors; B's back stands so far before it.
    [InlineData(660, true)]
    [InlineData(650, false)]
    public void A_door_as_wide_as_its_frame_needs_its_width_before_it(double clear, bool opens)
    {
        var hall = HallOf(
            "origin",
            Row("a", new(1000, 2000), Compass.East, Compass.South, "A"),
            Row("b", new(1000, 2610 + clear), Compass.East, Compass.South, "B"));
        var aisles = Aisles.Measure(HallLayout.Create(RecordOf(hall, Frame("A") with { Doors = Say(1) }, Frame("B")), hall));
        Assert.Equal(opens, aisles[0].LetsAnyDoorOpen);
        Assert.Null(aisles[1].LetsAnyDoorOpen);
    }

    [Fact]
    public void A_frame_loads_its_footprint_and_half_of_its_aisles()
    {
        // 310 kg x 9.80665 = 3040.0615 N. Footprint 0.660 x 0.610 = 0.4026 m2: 7551.07 Pa. B stands 1200 before it, the wall 1390 behind:
        // half of both is 1295, so 0.660 x (0.610 + 1.295) = 1.2573 m2: 2417.93 Pa. The floor carries 4.8 kPa.
        var hall = HallOf(
            "origin",
            Row("a", new(1000, 2000), Compass.East, Compass.South, "A"),
            Row("b", new(1000, 3810), Compass.East, Compass.South, "B")) with
        {
            FloorRating = Say(Pressure.FromKilopascals(4.8)),
        };
        var record = RecordOf(hall, Frame("A") with { Weight = Say(Mass.FromKilograms(310)) }, Frame("B"));
        var loads = FloorLoad.Compute(HallLayout.Create(record, hall), FrameWeights.From(record));

        Assert.Equal(
            (7551.07, 2417.93), (Math.Round(loads[0].OnFootprint!.Value.Pascals, 2), Math.Round(loads[0].OnSpread!.Value.Pascals, 2)));
        Assert.Equal((LimitStatus.Above, LimitStatus.Within), (loads[0].FootprintAgainst, loads[0].SpreadAgainst));
        Assert.Equal((null, LimitStatus.Unknown), (loads[1].OnFootprint, loads[1].FootprintAgainst));
    }

    [Theory] // 1 psf = 0.0478803 kPa; the values that ASCE 7 gives as 50, 100, 150 and 250 psf.
    [InlineData(50, 2.394)]
    [InlineData(100, 4.788)]
    [InlineData(150, 7.182)]
    [InlineData(250, 11.970)]
    public void Pounds_on_a_square_foot_are_what_the_codes_say(double psf, double kilopascals)
    {
        // A frame of so many pounds on one square foot, 304.8 x 304.8 mm.
        var hall = HallOf("origin", Row("a", new(1000, 2000), Compass.East, Compass.South, "A"));
        var frame = Frame("A", 304.8, 304.8) with { Weight = Say(Mass.FromPounds(psf)) };
        Assert.Equal(
            kilopascals,
            Assert.Single(FloorLoad.Compute(
                HallLayout.Create(RecordOf(hall, frame), hall), FrameWeights.From(RecordOf(hall, frame)))).OnFootprint!.Value.Kilopascals,
            3);
    }

    [Theory] // A frame 800 x 610 x 2134 against openings so wide and high. Upright 610 must go through the width and 2134 under the lintel;
             // on its side 610 and 800, either of them up.
    [InlineData(610, 2134d, Fit.Goes, Fit.Goes)]
    [InlineData(609, 2134d, Fit.Stays, Fit.Stays)]
    [InlineData(610, 2133d, Fit.Stays, Fit.Goes)]
    [InlineData(610, 799d, Fit.Stays, Fit.Stays)]
    [InlineData(800, 610d, Fit.Stays, Fit.Goes)]
    [InlineData(799, 610d, Fit.Stays, Fit.Stays)]
    [InlineData(900, null, Fit.Unknown, Fit.Unknown)]
    [InlineData(600, null, Fit.Stays, Fit.Stays)]
    public void A_frame_goes_through_an_opening_upright_or_on_its_side(double wide, double? high, Fit upright, Fit onItsSide)
    {
        var opening =
            Opening(new(0, 3000), new(0, 3000 + wide)) with { Height = high is { } lintel ? Say(Length.FromMillimeters(lintel)) : null };
        Assert.Equal(new Passage(opening, upright, onItsSide), Passage.Check(Frame("A", 800, 610, 2134).Size!.Value.Value, opening));
    }

    [Theory] // 2100 high and 800 deep the frame sweeps sqrt(2100^2 + 800^2) = 2247.2 when it is laid down (it is 900 wide).
    [InlineData(2099, Fit.Stays, Fit.Stays)]
    [InlineData(2100, Fit.Goes, Fit.Stays)]
    [InlineData(2247, Fit.Goes, Fit.Stays)]
    [InlineData(2248, Fit.Goes, Fit.Goes)]
    public void A_frame_stands_and_is_laid_down_under_a_ceiling(double ceiling, Fit stands, Fit canBeLaid) =>
        Assert.Equal(
            new Headroom(stands, canBeLaid), Headroom.Check(Frame("A", 900, 800, 2100).Size!.Value.Value, Length.FromMillimeters(ceiling)));

    private static (double, string) Said(Clearance clearance) => (Math.Round(clearance.Distance!.Value.Millimeters, 6), clearance.To);

    /// <summary>A floor carries a frame with its units, whichever of the two was weighed; the sum is worked by hand.</summary>
    [Theory]
    [InlineData(WeighedState.WithUnits, 100, 94, 98, "with 1 unit, without 2")]
    [InlineData(WeighedState.WithoutUnits, 106, 100, 104, "with 1 unit, without 2")]
    public void Floors_carry_frames_with_their_units_and_movers_without_those_that_must_be_out(
        WeighedState weighed, double with, double without, double moving, string which)
    {
        var frame = Frame("A", 1000, 1000) with { Weight = Say(Mass.FromKilograms(100)), Weighed = Say(weighed) };
        var record = RecordOf(
            Unit("U-1", 2, Handling.OutBeforeMoving), Unit("U-2", 4), Unit("U-3", null, Handling.OutBeforeMoving),
            frame, HallOf("h", Row("a", new(1000, 2000), Compass.East, Compass.South, "A")));
        var hall = record.Halls[0];
        var layout = HallLayout.Create(record, hall);
        var load = Assert.Single(FloorLoad.Compute(layout, FrameWeights.From(record)));
        Assert.Equal(with, load.Weights!.With.Kilograms, 9);
        Assert.Equal(without, load.Weights.Without.Kilograms, 9);
        Assert.Equal(with * FloorLoad.Gravity / 1000, load.OnFootprint!.Value.Kilopascals, 9);
        Assert.Equal("with its units", load.Weights.StandingIs);
        var mover = Assert.Single(Archive.Halls.Loads.MovingList.Compute(record, layout).Frames);
        Assert.Equal(moving, mover.Weight!.Value.Kilograms, 9);
        Assert.Equal(which, mover.Weights!.MovingIs);

        // A unit that nobody weighed makes a sum of what it is in a lower bound, and nothing else.
        Assert.Equal(weighed == WeighedState.WithoutUnits, load.Weights.IsWithAtLeast);
        Assert.False(mover.Weights.IsMovingAtLeast);
    }

    private static Unit Unit(string id, double? kilograms, params Handling[] handling) => new()
    {
        Id = id,
        IdSpan = Say("").Span,
        Span = Say("").Span,
        At = Say(UnitPlace.TryParse("A/S1:1", out var at) ? at : default),
        Weight = kilograms is { } known ? Say(Mass.FromKilograms(known)) : null,
        Handling = [.. handling.Select(Say)],
    };
}
