using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

/// <summary>Ways through trays, worked by hand. All frames' tops are at 2000; a tray at 2500 right above one costs 500.</summary>
public class TrayNetworkTests
{
    [Fact]
    public void Shortest_ways_are_those_of_the_textbook()
    {
        // The graph of six nodes that encyclopaedias explain Dijkstra's algorithm with (from memory; distances recomputed with networkx
        // 3.6.1): 1-2 7, 1-3 9, 1-6 14, 2-3 10, 2-4 15, 3-4 11, 3-6 2, 4-5 6, 5-6 9. From 1: 0, 7, 9, 20, 20, 11; to 5 by 1, 3, 6, 5.
        var ways = new ShortestPaths(
            7, [(0, 1, 7), (0, 2, 9), (0, 5, 14), (1, 2, 10), (1, 3, 15), (2, 3, 11), (2, 5, 2), (3, 4, 6), (4, 5, 9)]);

        Assert.Equal([0, 7, 9, 20, 20, 11], Enumerable.Range(0, 6).Select(node => ways.Between(0, node)));
        Assert.Equal([0, 2, 5, 4], ways.Way(0, 4));
        Assert.Equal(double.PositiveInfinity, ways.Between(0, 6));
        Assert.Empty(ways.Way(0, 6));
    }

    [Fact]
    public void Along_one_tray()
    {
        // Up 500, 300 across; 4000 along; 400 across, 500 down: 5700.
        var network = Network(Hung("T1", 2500, new(0, 1000), new(9000, 1000)));
        Assert.Equal(5700, Between(network, new(1000, 1300), new(5000, 600)));
    }

    [Fact]
    public void Passing_to_another_tray_costs_the_difference_in_height()
    {
        // They cross at (5000, 1000), 300 apart in height. From above (1000, 1000): 500 + 4000 + 300 + 2000 + 800 = 7600.
        var network = Network(Hung("T1", 2500, new(0, 1000), new(9000, 1000)), Hung("T2", 2800, new(5000, 0), new(5000, 6000)));
        Assert.Equal(7600, Between(network, new(1000, 1000), new(5000, 3000)));
    }

    // T2 begins 90 east and 120 south of T1's end: 150 away, which joins. At 93 by 124, 155 away, it does not. The gap costs nothing.
    [Theory]
    [InlineData(5090, 1120, 500 + 4000 + 300 + 2910 + 800)]
    [InlineData(5093, 1124, double.PositiveInfinity)]
    public void Trays_join_within_150_millimetres(double x, double y, double expected)
    {
        var network = Network(Hung("T1", 2500, new(0, 1000), new(5000, 1000)), Hung("T2", 2800, new(x, y), new(9000, y)));
        Assert.Equal(expected, Between(network, new(1000, 1000), new(8000, y)), 6);
    }

    [Theory]
    [InlineData(900, true)]
    [InlineData(900.01, false)]
    public void A_frame_is_served_within_900_millimetres(double away, bool isServed) =>
        Assert.Equal(isServed, Network(Hung("T1", 2500, new(0, 1000), new(9000, 1000))).Drops(new(3000, 1000 + away), 2000).IsServed);

    [Fact]
    public void A_tray_serves_by_the_nearest_point_of_its_line_also_past_its_end()
    {
        // 300 east and 400 south of the tray's end: 500 across.
        var serving = Assert.Single(Network(Hung("T1", 2500, new(0, 1000), new(5000, 1000))).Drops(new(5300, 1400), 2000).Serving);
        Assert.Equal((new PlanPoint(5000, 1000), 500d, 500d), (serving.At, serving.Across, serving.Rise));
    }

    [Fact]
    public void Of_several_trays_that_serve_the_shortest_way_counts()
    {
        // Both frames lie between T1 at y = 1000 and T2 at y = 2200. T1 is nearer (200 against 1000, of which only 900 would serve the
        // other frame). By T1: 500 + 200 + 6000 + 900 + 500 = 8100. By T2: A (3000, 1300) is 900 from it, B (9000, 1900) 300: 500 + 900 +
        // 6000 + 300 + 500 = 8200.
        var network = Network(Hung("T1", 2500, new(0, 1000), new(9500, 1000)), Hung("T2", 2500, new(0, 2200), new(9500, 2200)));
        Assert.Equal(2, network.Drops(new(3000, 1300), 2000).Serving.Length);
        Assert.Equal(500 + 300 + 6000 + 900 + 500, Between(network, new(3000, 1300), new(9000, 1900)));
        Assert.Equal(500 + 300 + 6000 + 300 + 500, Between(network, new(3000, 1300), new(9000, 700)));
    }

    [Fact]
    public void A_low_tray_costs_the_way_down_to_it() =>
        Assert.Equal(200 + 3000 + 200, Between(Network(Hung("T1", 1800, new(0, 0), new(9000, 0))), new(1000, 0), new(4000, 0)));

    [Fact]
    public void Two_ends_on_one_frame_go_up_to_the_tray_and_down_again() =>
        Assert.Equal(2 * (500 + 300), Between(Network(Hung("T1", 2500, new(0, 0), new(9000, 0))), new(1000, 300), new(1000, 300)));

    [Fact]
    public void A_bend_is_no_short_cut()
    {
        // T1 runs east to (5000, 1000) and then south. T2 comes from the north along x = 4950 and ends at y = 1040, having crossed T1 at
        // (4950, 1000); its end is 50 from T1's southern stretch, but the trays join where they cross: from (4950, 0) to (5000, 4000) 500 +
        // 1000 + 50 + 3000 + 500 = 5050.
        var network = Network(
            Hung("T1", 2500, new(0, 1000), new(5000, 1000), new(5000, 6000)), Hung("T2", 2500, new(4950, -2000), new(4950, 1040)));
        Assert.Equal(5050, Between(network, new(4950, 0), new(5000, 4000)), 6);
        Assert.Single(network.Joined);
    }

    [Fact]
    public void Trays_that_cross_twice_join_twice()
    {
        // T2 is a U that crosses T1 at x = 2000 and x = 6000.
        var network = Network(
            Hung("T1", 2500, new(0, 1000), new(9000, 1000)),
            Hung("T2", 2500, new(2000, 0), new(2000, 3000), new(6000, 3000), new(6000, 0)));
        Assert.Equal(2, network.Joined.Count());
        Assert.Equal(500 + 1500 + 3000 - 1000 + 500, Between(network, new(500, 1000), new(2000, 3000)));
        Assert.Equal(500 + 1000 + 2000 + 500, Between(network, new(7000, 1000), new(6000, 3000)));
    }

    [Fact]
    public void Trays_one_above_the_other_join_all_along()
    {
        // T2 hangs 300 above T1 from x = 2000 to 8000; T3 leaves T2 at x = 7000, at its height. From above (3000, 0) to above (7000, 2000),
        // where only T3 serves: 500 + 4000 + 300 + 2000 + 800 = 7600 by T1, or straight up to T2: 800 + 4000 + 2000 + 800 = 7600.
        var trays = new[]
        {
            Hung("T1", 2500, new(0, 0), new(9000, 0)),
                Hung("T2", 2800, new(8000, 0), new(2000, 0)),
                Hung("T3", 2800, new(7000, 0), new(7000, 4000)),
            };
        Assert.Equal(7600, Between(Network(trays), new(3000, 0), new(7000, 2000)));
        Assert.Equal(500 + 6000 + 300 + 2000 + 800, Between(Network(trays), new(1000, 0), new(7000, 2000)));
    }

    [Fact]
    public void Trays_side_by_side_are_entered_from_each_other_anywhere()
    {
        // T2 runs 100 south of T1. The frame north of T1 is 850 from it and 950 from T2, the other 950 and 850: each is served by one tray.
        var network = Network(Hung("T1", 2500, new(0, 1000), new(9000, 1000)), Hung("T2", 2500, new(0, 1100), new(9000, 1100)));
        Assert.Equal(500 + 850 + 4000 + 850 + 500, Between(network, new(2000, 150), new(6000, 1950)));
    }

    [Fact]
    public void A_ring_is_gone_round_the_shorter_way()
    {
        // 4000 by 2000: once round is 12000. From (500, 0) by the corner at (0, 0) to (0, 1500): 2000.
        var network = Network(Hung("T1", 2500, new(0, 0), new(4000, 0), new(4000, 2000), new(0, 2000), new(0, 0)));
        var (one, other) = (network.Drops(new(500, 0), 2000), network.Drops(new(0, 1500), 2000));
        Assert.Equal(500 + 2000 + 500, network.Between(one, other));
        Assert.Equal([new(500, 0), new(0, 0), new(0, 1500)], Assert.Single(network.Way(one, other)!.Legs).Line);
    }

    [Fact]
    public void A_way_names_its_trays_and_the_points_it_passes()
    {
        var network = Network(Hung("T1", 2500, new(0, 1000), new(9000, 1000)), Hung("T2", 2800, new(5000, 0), new(5000, 6000)));
        var way = network.Way(network.Drops(new(1000, 1000), 2000), network.Drops(new(5000, 3000), 2000))!;

        Assert.Equal([("T1", 4000d), ("T2", 2000d)], way.Legs.Select(leg => (leg.Tray.Id, leg.Length)));
        Assert.Equal([new(1000, 1000), new(5000, 1000), new(5000, 1000), new(5000, 3000)], way.Legs.SelectMany(leg => leg.Line));
        Assert.Equal(7600, way.Length);
    }

    [Fact]
    public void A_tray_without_a_height_is_left_out()
    {
        var network = Network(Hung("T1", 2500, new(0, 0), new(9000, 0)) with { Height = null }, Hung("T2", 2500, new(0, 0), new(0, 0)));
        Assert.Equal(["T1", "T2"], network.Unmeasured.Select(tray => tray.Id));
        Assert.False(network.Drops(new(0, 0), 2000).IsServed);
    }

    [Fact]
    public void A_laid_way_keeps_to_its_trays()
    {
        // The short way from T1 to T3 would be straight over their crossing at (1000, 0); the list goes round by T2.
        var (one, two, three) = (
            Hung("T1", 2500, new(0, 0), new(9000, 0)),
            Hung("T2", 2600, new(8000, -500), new(8000, 4000)),
            Hung("T3", 2500, new(1000, -500), new(1000, 3000), new(9000, 3000)));
        var network = Network(one, two, three);
        var (from, to) = (new FrameTop(new(500, 0), 2000), new FrameTop(new(1000, 2000), 2000));

        Assert.Equal(500 + 500 + 2000 + 500, network.Through([one, three], from, to)!.Length);
        Assert.Equal(500 + 7500 + 100 + 3000 + 100 + 7000 + 1000 + 500, network.Through([one, two, three], from, to)!.Length);
        Assert.Equal(100 + 3000 + 100 + 7000 + 1000 + 500, network.Through([one, two, three], null, to)!.Length);
        Assert.Null(network.Through([one, Hung("T9", 2500, new(0, 0), new(1, 0))], from, to));
    }

    private static TrayNetwork Network(params Tray[] trays) => TrayNetwork.Create(trays);

    private static double Between(TrayNetwork network, PlanPoint one, PlanPoint other) =>
        network.Between(network.Drops(one, 2000), network.Drops(other, 2000));

    private static Tray Hung(string id, double height, params PlanPoint[] path) =>
        Tray(id, "origin", path) with { Height = Say(Length.FromMillimeters(height)) };
}
