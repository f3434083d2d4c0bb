using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Loads;
using Archive.Records.Model;
using Archive.Records.Weights;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

public class MovingListTests
{
    private static readonly ArchiveModel Archive = RecordOf(
        HallOf(
            "origin",
            Row("r1", new(1000, 2000), Compass.East, Compass.South, "A", "B"),
            Row("r2", new(1000, 5000), Compass.East, Compass.South, "C"),
            Row("r3", new(9000, 5000), Compass.East, Compass.South, "D")) with
        {
            Take = Box(900, 900, 5000, 6000),
            Openings = [Opening(new(0, 3000), new(0, 4000)) with { Height = Say(Length.FromMillimeters(2100)) }],
            Ceiling = Say(Length.FromMillimeters(3000)),
        },
        Frame("A") with { Weight = Say(Mass.FromKilograms(310)), Doors = Say(2) },
        Frame("B") with { Weight = Say(Mass.FromKilograms(200)), Doors = Say(0) },
        Frame("C"),
        Frame("D") with { Weight = Say(Mass.FromKilograms(100)) },
        Kind("coax", 6.1, 55, 10),
        Coiled(WithLength(Cable("C1", "coax", []), 20_000), "A"),
        Coiled(WithLength(Cable("C2", "coax", []), 30_000), "A"),
        Coiled(Cable("C3", "coax", []), "A"),
        WithLength(Cable("C4", "coax", []), 40_000) with { Fate = Say(Fate.Remove) },
        WithLength(Cable("C5", "coax", []), 40_000) with { Fate = Say(Fate.Leave) });

    private static readonly MovingList List = MovingList.Compute(Archive, HallLayout.Create(Archive, Archive.Find<Hall>("origin")!));

    [Fact]
    public void A_coil_weighs_length_times_mass() =>
        // 18.3 m x 55 g/m
        Assert.Equal(1006.5, CableWeight.Of(WithLength(Cable("C", "k", []), 18_300), Kind("k", 6.1, 55, 10))!.Value.Grams, 9);

    [Fact]
    public void What_is_inside_the_line_goes_row_by_row_the_nearest_to_a_door_first()
    {
        Assert.Equal(
            [("r2", "C"), ("r1", "A B")],
            List.Loads.Select(load => (load.Row.Row.Id.Value, string.Join(' ', load.Frames.Select(frame => frame.Frame.Id)))));
        Assert.Equal(
            [BoundarySide.Inside, BoundarySide.Inside, BoundarySide.Inside, BoundarySide.Outside], List.Frames.Select(frame => frame.Side));
    }

    [Fact]
    public void Loads_are_summed_with_the_coils_lashed_to_their_frames()
    {
        // A: 310 kg and coils of 20 + 30 m x 55 g/m = 2.75 kg; a third has no length. With B's 200 kg: 512.75. C is not weighed. Loose: 40
        // m, 2.2 kg.
        Assert.Equal(new CoilWeights(3, Mass.FromKilograms(2.75), 1), List.Frames[0].Lashed);
        Assert.Equal(
            [(0, 1, 0), (512.75, 0, 2)], List.Loads.Select(load => (Math.Round(load.Weight.Kilograms, 9), load.Unweighed, load.Doors)));
        Assert.Equal((1, 2.2), (List.Loose.Count, Math.Round(List.Loose.Weight.Kilograms, 9)));
        Assert.Equal(514.95, List.Weight.Kilograms, 9);
    }

    [Fact]
    public void The_weight_of_doors_is_not_guessed()
    {
        Assert.Equal((310d, null), (List.Frames[0].Weight!.Value.Kilograms, List.Frames[0].WeightWithDoors));
        Assert.Equal(200, List.Frames[1].WeightWithDoors!.Value.Kilograms);
    }

    [Fact]
    public void Each_frame_is_held_against_the_openings_and_the_ceiling()
    {
        // 2134 high, the lintel at 2100: on its side only. Laid down it sweeps sqrt(2134^2 + 610^2) = 2219 under 3000.
        Assert.All(List.Frames, frame => Assert.Equal((Fit.Stays, Fit.Goes), (frame.Passages[0].Upright, frame.Passages[0].OnItsSide)));
        Assert.All(List.Frames, frame => Assert.Equal(new Headroom(Fit.Goes, Fit.Goes), frame.Headroom));
    }

    // Never offered on its side: what must not be laid down, and what nobody knows of.
    [Fact]
    public void A_frame_is_laid_down_only_where_the_record_says_that_it_may()
    {
        MovingFrame With(bool? may) => List.Frames[0] with
        {
            Standing =
            List.Frames[0].Standing with { Frame = List.Frames[0].Frame with { MayLieDown = may is { } said ? Say(said) : null } }
        };
        Assert.Equal(
            [Fit.Goes, Fit.Stays, Fit.Unknown],
            new bool?[] { true, false, null }.Select(may => With(may).OnItsSide(List.Frames[0].Passages[0])));
        Assert.Equal([Fit.Goes, Fit.Stays, Fit.Unknown], new bool?[] { true, false, null }.Select(may => With(may).CanBeLaid));
    }

    // The door is in the west wall, 3000 to 4000 from the north: (0, 3500). Middles: A about (1330, 1695), C about (1330, 4695), B farther
    // east than A.
    [Fact]
    public void Loading_goes_from_the_doors_inward()
    {
        var hall = Archive.Find<Hall>("origin")!;
        var east = MovingList.Compute(Archive, HallLayout.Create(
            Archive,
            hall with { Openings = [Opening(new(12000, 4000), new(12000, 5000)) with { Height = Say(Length.FromMillimeters(2400)) }] }));
        Assert.Equal(
            ["C", "B A"],
            east.Loads.Select(load => string.Join(' ', load.Frames.Select(frame => frame.Frame.Id))).OrderBy(ids => ids.Length));
        Assert.Equal("B", east.Loads.Single(load => load.Frames.Length == 2).Frames[0].Frame.Id);
        Assert.True(List.Loads[1].Frames[0].FromDoor < List.Loads[1].Frames[1].FromDoor);
        Assert.True(List.Loads[0].Frames[0].FromDoor < List.Loads[1].Frames[0].FromDoor);
        Assert.Equal(Math.Sqrt(Math.Pow(List.Frames[0].Standing.Footprint.Centre.X, 2)
            + Math.Pow(List.Frames[0].Standing.Footprint.Centre.Y - 3500, 2)), List.Frames[0].FromDoor!.Value, 6);
        Assert.All(MovingList.Compute(Archive, HallLayout.Create(Archive, hall with { Openings = [] })).Frames, frame =>
            Assert.Null(frame.FromDoor));
    }

    [Fact]
    public void From_the_first_unknown_weight_on_a_load_weighs_at_least_so_much()
    {
        Assert.Equal([true, false, true, false], List.Frames.Select(frame => frame.IsHeavier)); // a coil of A has no length, C no weight
        Assert.Equal([true, true], List.Loads.Select(load => load.IsHeavier));
        Assert.True(List.IsHeavier);
    }

    [Fact]
    public void Without_a_line_everything_goes()
    {
        var hall = Archive.Find<Hall>("origin")! with { Take = null };
        Assert.Equal(3, MovingList.Compute(Archive, HallLayout.Create(Archive, hall)).Loads.Length);
    }

    private static Cable Coiled(Cable cable, string to) => cable with { Fate = Say(Fate.Coil), CoilTo = Say(to) };
}
