using Archive.Halls.Layout;
using Archive.Halls.Power;
using Archive.Halls.Reach;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

public class PowerTests
{
    // Ohms per kilometre and per 1000 ft of solid copper at 20 C, from the formula of ASTM B258 and 1.7241e-8 ohm m (IACS). Those per 1000
    // ft from
    [Theory]
    // 12 to 30 AWG also stand in a cable-tester maker's published table.
    [InlineData("4/0 AWG", 0.1608, 0.0490)]
    [InlineData("2/0 AWG", 0.2557, 0.0779)]
    [InlineData("1/0 AWG", 0.3224, 0.0983)]
    [InlineData("2 AWG", 0.5127, 0.1563)]
    [InlineData("6 AWG", 1.296, 0.3951)]
    [InlineData("10 AWG", 3.277, 0.9988)]
    [InlineData("12 AWG", 5.211, 1.588)]
    [InlineData("14 AWG", 8.285, 2.525)]
    [InlineData("16 AWG", 13.17, 4.016)]
    [InlineData("18 AWG", 20.95, 6.385)]
    [InlineData("20 AWG", 33.31, 10.15)]
    [InlineData("22 AWG", 52.96, 16.14)]
    [InlineData("24 AWG", 84.21, 25.67)]
    [InlineData("26 AWG", 133.9, 40.81)]
    [InlineData("28 AWG", 212.9, 64.90)]
    [InlineData("30 AWG", 338.5, 103.2)]
    public void Resistance_is_that_of_the_wire_tables(string gauge, double perKilometre, double perThousandFeet)
    {
        var ohms = CopperResistance.ResistancePerMetre(Gauge(gauge).Section);
        Assert.InRange(ohms * 1000 / perKilometre, 0.999, 1.001);
        Assert.InRange(ohms * 304.8 / perThousandFeet, 0.999, 1.001);
    }

    [Fact]
    public void Loss_is_there_and_back()
    {
        // 20 A over 15 m one way of 16 mm2 at 20 C: 2 x 15 x 0.017241 / 16 x 20 = 0.6465 V. 30 A over 100 ft of 12 AWG at 1.588 ohm per
        // 1000 ft: 9.528 V.
        Assert.Equal(
            0.6465, CopperResistance.Drop(Length.FromMeters(15), Gauge("16 mm2").Section, ElectricCurrent.FromAmperes(20)).Volts, 4);
        Assert.InRange(
            CopperResistance.Drop(Length.FromFeet(100), Gauge("12 AWG").Section, ElectricCurrent.FromAmperes(30)).Volts, 9.519, 9.538);
    }

    [Fact]
    public void Heat_is_volts_times_amps()
    {
        // 24 x 14 = 336 W; 1 W = 3.412142 BTU/h, so 1146.48. A rectifier's manual prints 27,350 BTU/h for 8,010 W; exactly it is 27,331.
        Assert.Equal(336, (double)PowerAtVoltage.HeatOf(Drawing("A", -24, 14))!.Value.Watts, 9);
        Assert.Equal(1146.48, (double)PowerAtVoltage.HeatOf(Drawing("A", -24, 14))!.Value.BritishThermalUnitsPerHour, 1);
        // ISO 31-4 (1992), annex: 1 Btu(IT) = 1055.056 J; 3,600 s in an hour; from memory.
        Assert.Equal(3600 / 1055.056, (double)UnitsNet.Power.FromWatts(1).BritishThermalUnitsPerHour, 5);
        Assert.InRange((double)UnitsNet.Power.FromWatts(8010).BritishThermalUnitsPerHour, 27_330, 27_333);
        Assert.Null(PowerAtVoltage.HeatOf(Frame("A")));
    }

    [Fact]
    public void What_frames_draw_is_summed_voltage_by_voltage() =>
        Assert.Equal([(-48, 20, 2), (-24, 14, 1)], PowerAtVoltage.By([
            Drawing("A", -48, 5),
            Drawing("B", -24, 14),
            Drawing("C", -48, 15),
            Frame("D")
        ]).Select(at => ((int)at.Volts.Volts, (int)at.Amps.Amperes, at.Frames)));

    [Fact]
    public void A_feeder_carries_what_its_frame_draws_over_its_way_as_found()
    {
        // P feeds A, which needs it. The way, in one tray 566 above and 505 from both tops, 2000 between the middles: 2 x (566 + 505) +
        // 2000 = 4142. 14 A through 6 AWG: 2 x 4.142 x 0.001296 x 14 = 0.1503 V of 24 V: 0.626 %.
        var feeder = Assert.Single(Found([Needing(Drawing("A", -24, 14), "P"), Drawing("P", 230, 16)], Wired(Feed("C", ["T"]), "P", "A")));
        Assert.Equal(("P", "A", -24, 14), (feeder.From!.Id, feeder.Feeds!.Id, feeder.Volts!.Value.Volts, feeder.Amps!.Value.Amperes));
        Assert.Equal(4142, feeder.Route!.Value.Millimeters, 6);
        Assert.Equal((0.1503, 0.626), (Math.Round(feeder.Drop!.Value.Volts, 4), Math.Round(feeder.DropShare!.Value.Percent, 3)));
    }

    [Fact]
    public void A_frame_that_draws_nothing_passes_on_what_it_feeds()
    {
        // R feeds the panel P, P feeds A and B; each of P's two feeders from R must carry both: 14 + 6 = 20 A.
        var found = Found(
            [Needing(Drawing("A", -24, 14), "P"), Needing(Drawing("B", -24, 6), "P"), Needing(Frame("P"), "R"), Drawing("R", 230, 16)],
            Wired(Feed("C1"), "R", "P"), Wired(Feed("C2"), "P", "R"), Wired(Feed("C3"), "P", "A"), Wired(Feed("C4"), "P", "B"));

        Assert.Equal([20, 20, 14, 6], found.Select(feeder => feeder.Amps!.Value.Amperes));
        Assert.Equal([2, 2, 1, 1], found.Select(feeder => feeder.Beside));
        Assert.Equal("total of everything that P feeds", found[0].Note);
    }

    [Fact]
    public void Feeders_in_a_circle_do_no_harm() =>
        Assert.Equal(3, Found(
            [Needing(Frame("A"), "B"), Needing(Frame("B"), "P"), Needing(Frame("P"), "A")],
            Wired(Feed("C1"), "A", "B"),
            Wired(Feed("C2"), "B", "P"),
            Wired(Feed("C3"), "P", "A")).Count);

    [Fact]
    public void What_cannot_be_told_is_said()
    {
        Assert.Equal(
            "the frame it feeds is unknown",
            Assert.Single(Found([Drawing("A", -24, 1), Drawing("B", -24, 1)], Wired(Feed("C"), "A", "B"))).Note);
        Assert.Equal(
            "the current of A is not recorded",
            Assert.Single(Found([Needing(Frame("A"), "P"), Frame("P")], Wired(Feed("C"), "P", "A"))).Note);
        var both = Drawing("A", -24, 1) with { Draws = [.. Drawing("A", -24, 1).Draws, .. Drawing("A", 230, 2).Draws] };
        Assert.StartsWith(
            "A uses several voltages", Assert.Single(Found([both, Frame("P")], Wired(Feed("C"), "P", "A"))).Note, StringComparison.Ordinal);
    }

    private static List<Feeder> Found(Frame[] frames, params WiredCable[] cables)
    {
        var hall = HallOf("origin", Row("r", new(1000, 2800), Compass.East, Compass.South, "P", 1340, "A"));
        var kind = Kind("feeder", 13, 400, 8) with { Family = Say(CableFamily.Power), Gauge = Say(Gauge("6 AWG")) };
        var archive =
            RecordOf([hall, kind, Tray("T", "origin", new(0, 3000), new(9000, 3000)), .. frames, .. cables.Select(wired => wired.Cable)]);
        var layout = HallLayout.Create(archive, hall);
        return [.. FeederLoads.Compute(archive, cables, cables.Select(new AsFoundPaths(archive, layout).Of))];
    }

    private static Cable Feed(string id, params string[] trays) => Cable(id, "feeder", trays);

    private static Frame Drawing(string id, double volts, double amps) =>
        Frame(id) with { Draws = [new PowerDraw(Say(ElectricPotential.FromVolts(volts)), Say(ElectricCurrent.FromAmperes(amps)))] };

    private static Frame Needing(Frame frame, string needed) => frame with { Needs = [new FrameNeed(Say(needed))] };

    private static WireGauge Gauge(string text) =>
        WireGauge.TryParse(text, out var gauge, out _) ? gauge : throw new ArgumentException("no gauge", nameof(text));
}
