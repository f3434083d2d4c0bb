using Archive.Halls.Layout;
using Archive.Halls.Trays;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

public class TrayTests
{
    [Theory]
    [InlineData(0, 1000, 5000, 1000, 2500, 0, 2500, 4000, 0)] // they cross
    [InlineData(0, 1000, 5000, 1000, 2500, 1000, 2500, 4000, 0)] // one ends on the other
    [InlineData(0, 1000, 5000, 1000, 5090, 1120, 9000, 1120, 150)] // 90 by 120: a 3-4-5 triangle
    [InlineData(0, 1000, 5000, 1000, 5093, 1124, 9000, 1124, 155)] // 93 by 124
    public void Trays_join_within_150_millimetres_in_plan(
        double ax, double ay, double bx, double by, double cx, double cy, double dx, double dy, double gap)
    {
        var one = Tray("T1", "origin", new(ax, ay), new(bx, by));
        var two = Tray("T2", "origin", new(cx, cy), new(dx, dy));
        var meeting = TrayMeetings.Find(RecordOf(one, two, Cable("C", null, ["T2", "T1"]))).Between(one, two);

        Assert.Equal(gap, meeting!.Value.Gap, 6);
        Assert.Equal(gap <= 150, meeting.Value.Joins);
    }

    [Fact]
    public void A_meeting_is_seen_from_either_tray()
    {
        var one = Tray("T1", "origin", new(0, 1000), new(5000, 1000));
        var two = Tray("T2", "origin", new(5000, 1100), new(5000, 4000));
        var meetings = TrayMeetings.Find(RecordOf(one, two, Cable("C", null, ["T1", "T2"])));

        Assert.Equal(new TrayMeeting(new(5000, 1000), new(5000, 1100)), meetings.Between(one, two));
        Assert.Equal(new TrayMeeting(new(5000, 1100), new(5000, 1000)), meetings.Between(two, one));
    }

    [Fact]
    public void A_route_goes_up_along_over_and_down()
    {
        // A's middle is (1330, 1795), B's (7330, 5695). T1 runs along y = 3000, T2 along x = 6000; they cross at (6000, 3000).
        var hall = HallOf(
            "origin",
            Row("r1", new(1000, 2100), Compass.East, Compass.South, "A"),
            Row("r2", new(7000, 6000), Compass.East, Compass.South, "B"));
        var one = Tray("T1", "origin", new(0, 3000), new(9000, 3000));
        var two = Tray("T2", "origin", new(6000, 2000), new(6000, 8000));
        var archive = RecordOf(hall, Frame("A"), Frame("B"), one, two, Cable("C", null, ["T1", "T2"]));
        var layout = HallLayout.Create(archive, hall);
        var network = TrayNetwork.Create([one, two]);

        var route = CableRoute.Through(layout, network, [one, two], archive.Find<Frame>("A"), archive.Find<Frame>("B"));

        Assert.Equal([new(1330, 1795), new(1330, 3000), new(6000, 3000), new(6000, 5695), new(7330, 5695)], route!.Line);
        Assert.Equal(1205 + 4670 + 2695 + 1330, route.LengthInPlan, 6);
        var open = CableRoute.Through(layout, network, [one, two], archive.Find<Frame>("A"), null);
        Assert.Equal([new(1330, 1795), new(1330, 3000), new(6000, 3000)], open!.Line);
        Assert.Equal((true, false), (open.FromFrame, open.ToFrame));
        Assert.Equal(one.Path, CableRoute.Through(layout, network, [one], null, null)!.Line);
        Assert.Null(CableRoute.Through(layout, network, [], archive.Find<Frame>("A"), null));
    }

    [Fact]
    public void A_tail_leaves_the_trays_where_they_come_nearest_to_its_frame()
    {
        // The hall of the route above, and between A and B a frame D whose middle, (4330, 3695), is 695 from T1 and 1670 from T2.
        var hall = HallOf(
            "origin",
            Row("r1", new(1000, 2100), Compass.East, Compass.South, "A"),
            Row("r2", new(7000, 6000), Compass.East, Compass.South, "B"),
            Row("r3", new(4000, 4000), Compass.East, Compass.South, "D"));
        var one = Tray("T1", "origin", new(0, 3000), new(9000, 3000));
        var two = Tray("T2", "origin", new(6000, 2000), new(6000, 8000));
        var archive = RecordOf(hall, Frame("A"), Frame("B"), Frame("D"), one, two, Cable("C", null, ["T1", "T2"]));

        var tails = CableRoute.OfTails(
            HallLayout.Create(archive, hall),
            TrayNetwork.Create([one, two]),
            [one, two],
            [archive.Find<Frame>("A"), archive.Find<Frame>("D"), null, archive.Find<Frame>("B")]);

        Assert.Equal([
            [new(1330, 1795), new(1330, 3000), new(6000, 3000), new(6000, 5695), new(7330, 5695)],
            [new(1330, 1795), new(1330, 3000), new(4330, 3000), new(4330, 3695)]
        ],
            tails.Select(tail => tail.Line.ToArray()));
    }

    [Fact]
    public void A_cable_lies_in_the_layer_above_all_it_lies_over()
    {
        var contents = Contents(
            Cable("top", "k", ["T"], "mid", "low"),
            Cable("mid", "k", ["T"], "low", "elsewhere"),
            Cable("low", "k", ["T"]),
            Cable("alone", "k", ["T"]),
            Cable("elsewhere", "k", []));

        Assert.Equal([("alone", 0), ("low", 0), ("mid", 1), ("top", 2)], contents.Cables.Select(lying => (lying.Cable.Id, lying.Layer)));
    }

    [Fact]
    public void A_knot_lies_on_top_together()
    {
        var contents = Contents(
            Cable("a", "k", ["T"], "b"),
            Cable("b", "k", ["T"], "a", "low"),
            Cable("over", "k", ["T"], "a"),
            Cable("low", "k", ["T"]),
            Cable("self", "k", ["T"], "self"));

        Assert.Equal(
            [("low", 0), ("a", 1), ("b", 1), ("over", 1), ("self", 1)], contents.Cables.Select(lying => (lying.Cable.Id, lying.Layer)));
    }

    [Fact]
    public void Fill_mass_and_bend_are_those_of_the_trade()
    {
        // 450 x 100 mm hold 45,000 mm2. Twenty of 12.4 mm: 20 x 120.763 = 2415.26 mm2; ten of 6.1 mm: 10 x 29.2247 = 292.25 mm2;
        // together 2707.50 mm2, 6.0167 %. Mass 20 x 190 + 10 x 55 = 4350 g/m. Bends: 8 x 12.4 = 99.2, 10 x 6.1 = 61 mm: the greater rules.
        var contents = Contents(
        [
            .. Enumerable.Range(0, 20).Select(i => Cable($"P{i:00}", "pairs", ["T"])),
            .. Enumerable.Range(0, 10).Select(i => Cable($"X{i:00}", "coax", ["T"])),
            Cable("unknown", null, ["T"]),
        ]);

        Assert.Equal(2707.50, contents.Section.SquareMillimeters, 2);
        Assert.Equal(6.0167, contents.Fill!.Value.Percent, 4);
        Assert.Equal(4350, contents.Mass.GramsPerMeter, 9);
        Assert.Equal(99.2, contents.BendRadius!.Value.Millimeters, 9);
        Assert.Equal((1, 1), (contents.WithoutDiameter, contents.WithoutMass));
    }

    [Fact]
    public void Fill_is_that_of_the_trade_journals_example()
    {
        // A code quiz of 2005 on a ladder 18 x 4 in and control cables of 0.5 in: half of 72 in2 is 36 in2, a cable has 0.19635 in2, so 183
        // may lie in it.
        var tray = Tray("T", "origin", new(0, 0), new(1, 0)) with { Size = Say(new TraySize(Length.FromInches(18), Length.FromInches(4))) };
        Ratio FillOf(int cables) => TrayContents.Compute(RecordOf([
            tray,
            Kind("k", 12.7, 1, 1),
            .. Enumerable.Range(0, cables).Select(i => Cable($"C{i:000}", "k", ["T"]))
        ]))["T"].Fill!.Value;

        Assert.True(FillOf(183).Percent <= 50);
        Assert.True(FillOf(184).Percent > 50);
    }

    // 4 x 0.25 in for four-pair cable (ANSI/TIA-568.0-D); 10 x 20 mm for multipair; 10 and 20 x 12 mm for fibre at rest and pulled.
    [Theory]
    [InlineData(6.35, 4, 25.4)]
    [InlineData(20, 10, 200)]
    [InlineData(12, 10, 120)]
    [InlineData(12, 20, 240)]
    public void Bends_are_so_many_diameters(double diameter, double bend, double radius) => Assert.Equal(
        radius,
        TrayContents.Compute(RecordOf(
            Tray("T", "origin", new(0, 0), new(1, 0)),
            Kind("k", diameter, 1, bend),
            Cable("C", "k", ["T"])))["T"].BendRadius!.Value.Millimeters,
        9);

    private static TrayContents Contents(params Cable[] cables) => TrayContents.Compute(RecordOf(
        [
            Tray("T", "origin", new(0, 0), new(1, 0)),
            Kind("pairs", 12.4, 190, 8),
            Kind("coax", 6.1, 55, 10),
            Kind("k", 10, 1, 1),
            .. cables
        ]))["T"];
}
