using Archive.Halls.Layout;
using Archive.Records.Model;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

public class RowTests
{
    [Fact]
    public void A_row_sets_its_frames_side_by_side_from_the_front_corner()
    {
        // Worked by hand, as the format's own example has it: at [1500, 2400], runs east, faces south. The fronts lie on y = 2400 and the
        // depth of 610 goes north to 1790. 1500 + 660 = 2160; + 900 = 3060; a gap of 600 to 3660; + 660 = 4320.
        var layout = Layout(
            Row("row-2", new(1500, 2400), Compass.East, Compass.South, "R2-01", "R2-02", 600, "R2-05"),
            Frame("R2-01"),
            Frame("R2-02", width: 900, depth: 800),
            Frame("R2-05"));

        Assert.Equal(
            [new(1500, 1790, 2160, 2400), new(2160, 1600, 3060, 2400), new(3660, 1790, 4320, 2400)],
            layout.PlacedFrames.Select(placed => placed.Footprint));
        Assert.Equal([0, 1, 2], layout.PlacedFrames.Select(placed => placed.Index));
        Assert.Equal(
            (new PlanPoint(1500, 2400), new PlanPoint(2160, 2400)), layout.PlacedFrames[0].Footprint.Edge(layout.PlacedFrames[0].Faces));
    }

    [Theory] // A frame 660 wide and 610 deep at the corner (1000, 1000); the gap of 100 before the second shows which way the row goes.
    [InlineData(Compass.East, Compass.South, 1000, 390, 1660, 1000, 1760)]
    [InlineData(Compass.East, Compass.North, 1000, 1000, 1660, 1610, 1760)]
    [InlineData(Compass.West, Compass.South, 340, 390, 1000, 1000, 240)]
    [InlineData(Compass.West, Compass.North, 340, 1000, 1000, 1610, 240)]
    [InlineData(Compass.South, Compass.East, 390, 1000, 1000, 1660, 1760)]
    [InlineData(Compass.South, Compass.West, 1000, 1000, 1610, 1660, 1760)]
    [InlineData(Compass.North, Compass.East, 390, 340, 1000, 1000, 240)]
    [InlineData(Compass.North, Compass.West, 1000, 340, 1610, 1000, 240)]
    public void A_row_runs_and_faces_any_way(Compass runs, Compass faces, double west, double north, double east, double south, double next)
    {
        var layout = Layout(Row("row", new(1000, 1000), runs, faces, "A", 100, "B"), Frame("A"), Frame("B"));

        Assert.Equal(new Footprint(west, north, east, south), layout.PlacedFrames[0].Footprint);
        var (from, to) = layout.PlacedFrames[1].Footprint.Edge(Opposite(runs));
        Assert.Equal(next, runs is Compass.East or Compass.West ? from.X : from.Y);
        Assert.Equal(next, runs is Compass.East or Compass.West ? to.X : to.Y);
    }

    [Fact]
    public void A_frame_without_a_size_leaves_those_behind_it_uncertain()
    {
        var layout = Layout(Row("row", new(0, 2000), Compass.East, Compass.South, "A", "B", "C"), Frame("A"), Unsized("B"), Frame("C"));

        Assert.Equal([true, false, true], layout.PlacedFrames.Select(placed => placed.IsSized));
        Assert.Equal([true, true, false], layout.PlacedFrames.Select(placed => placed.IsPlaced));
        Assert.Equal([true, false, false], layout.PlacedFrames.Select(placed => placed.IsCertain));
        Assert.Equal(660 + PlacedFrame.DrawnSize, layout.PlacedFrames[2].Footprint.West);
    }

    [Fact]
    public void A_frame_that_does_not_exist_leaves_those_behind_it_uncertain()
    {
        var layout = Layout(Row("row", new(0, 2000), Compass.East, Compass.South, "A", "none", "C"), Frame("A"), Frame("C"));

        Assert.Equal(["A", "C"], layout.PlacedFrames.Select(placed => placed.Frame.Id));
        Assert.Equal([true, false], layout.PlacedFrames.Select(placed => placed.IsCertain));
    }

    [Fact]
    public void Whereabouts_tell_hall_row_and_neighbours()
    {
        var layouts = HallLayouts.Create(RecordOf(
            Frame("A"), Frame("B"), Frame("C"), Frame("D"),
            HallOf("new", Row("n1", new(0, 2000), Compass.East, Compass.South, "C", "A")) with { AsFound = null },
            HallOf("old", Row("r1", new(0, 2000), Compass.East, Compass.South, "A", 500, "B", "C"))));

        var b = Assert.Single(layouts.PlacementsOf("B"));
        Assert.Equal(("old", "r1", "A", "C"), (b.Layout.Hall.Id, b.Row.Row.Id.Value, b.Previous?.Frame.Id, b.Next?.Frame.Id));
        Assert.Equal(["old", "new"], layouts.PlacementsOf("A").Select(placement => placement.Layout.Hall.Id));
        Assert.Null(layouts.PlacementsOf("A")[0].Previous);
        Assert.Null(layouts.PlacementsOf("C")[0].Next);
        Assert.Empty(layouts.PlacementsOf("D"));
        Assert.Equal("old", layouts.AsFound?.Hall.Id);
    }

    private static HallLayout Layout(FrameRow row, params Frame[] frames)
    {
        var hall = HallOf("origin", row);
        return HallLayout.Create(RecordOf([hall, .. frames]), hall);
    }

    private static Compass Opposite(Compass side) => side switch
    {
        Compass.North => Compass.South,
        Compass.South => Compass.North,
        Compass.East => Compass.West,
        _ => Compass.East,
    };
}
