using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

public class TakeAndWallTests
{
    [Theory] // The line covers x 900..11000, y 900..6100; the frame x..x+660 by 1390..2000.
    [InlineData(900, BoundarySide.Inside)]
    [InlineData(899, BoundarySide.Inside)] // 1 mm over the line touches it
    [InlineData(890, BoundarySide.Astride)]
    [InlineData(500, BoundarySide.Astride)]
    [InlineData(240, BoundarySide.Outside)]
    [InlineData(0, BoundarySide.Outside)]
    public void Inside_goes_outside_stays(double x, BoundarySide side)
    {
        var hall = HallOf("origin", Row("a", new(x, 2000), Compass.East, Compass.South, "A")) with { Take = Box(900, 900, 11000, 6100) };
        Assert.Equal(side, Assert.Single(TakeBoundary.Classify(HallLayout.Create(RecordOf(hall, Frame("A")), hall))).Side);
    }

    [Fact]
    public void Without_a_size_the_side_is_unknown()
    {
        var hall =
            HallOf("origin", Row("a", new(2000, 2000), Compass.East, Compass.South, "A", "B")) with { Take = Box(900, 900, 11000, 6100) };
        Assert.All(TakeBoundary.Classify(HallLayout.Create(RecordOf(hall, Unsized("A"), Frame("B")), hall)), taken =>
            Assert.Equal(BoundarySide.Unknown, taken.Side));
    }

    [Fact]
    public void Without_a_line_nothing_is_said()
    {
        var hall = HallOf("origin", Row("a", new(2000, 2000), Compass.East, Compass.South, "A"));
        Assert.Empty(TakeBoundary.Classify(HallLayout.Create(RecordOf(hall, Frame("A")), hall)));
    }

    [Fact]
    public void Walls_are_a_band_broken_at_the_doors()
    {
        // Around 12 x 8 m a band of 200 mm has (12.4 x 8.4) - (12 x 8) = 8.16 m2; a door of 1.6 m takes 1.6 x 0.2 = 0.32 m2 out of it.
        var closed = HallOf("origin");
        var open = closed with { Openings = [Opening(new(0, 3000), new(0, 4600))] };

        Assert.Equal(2, Walls.Compute(closed, 200).Length);
        Assert.Equal(8.16e6, Area(Walls.Compute(closed, 200)), 3);
        var ring = Assert.Single(Walls.Compute(open, 200));
        Assert.Equal(7.84e6, Area([ring]), 3);
    }

    // The shoelace formula; holes turn the other way.
    private static double Area(IEnumerable<ImmutableArray<PlanPoint>> rings) => Math.Abs(rings.Sum(ring =>
        Enumerable.Range(0, ring.Length)
            .Sum(i => (ring[i].X * ring[(i + 1) % ring.Length].Y) - (ring[(i + 1) % ring.Length].X * ring[i].Y)) / 2));
}
