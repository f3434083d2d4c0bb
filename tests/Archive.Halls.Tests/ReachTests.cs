using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

/// <summary>
/// Margins worked by hand. In the new hall, frame A (660 x 610 x 2134) stands with its front corner at (1000, 2800), running east and
/// facing south: x 1000..1660, y 2190..2800, middle (1330, 2495). B stands at (6400, 6000) likewise: x 6400..7060, y 5390..6000, middle
/// (6730, 5695). T1 runs along y = 3000 at 2700, 505 from A's middle; T2 along x = 6000 at 2900, 730 from B's. They cross at (6000, 3000).
/// <code>
/// A/S7, 1200 + 266 / 2 = 1333 up to A's top at 2134      801
/// up to T1 at 2700                                       566
/// across to T1's line                                    505
/// along T1 from x = 1330 to 6000                        4670
/// from T1 to T2: the difference in height                200
/// along T2 from y = 3000 to 5695                        2695
/// across to B                                            730
/// down to B's top at 2134                                766
/// B's port, whose position is not recorded: at the top     0
/// -----
/// path                                                 10933
/// needed with an allowance of 500 at each end          11933
/// </code>
/// </summary>
public class ReachTests
{
    private static readonly Frame A = Frame("A") with { Positions = [Position("S7", 1200, 266), Position("S8", 1500, null)] };
    private static readonly Frame B = Frame("B");
    private static readonly Tray One = Tray("T1", "new", new(0, 3000), new(9000, 3000));
    private static readonly Tray Two =
        Tray("T2", "new", new(6000, 2000), new(6000, 8000)) with { Height = Say(Length.FromMillimeters(2900)) };

    private static readonly Archive.Records.Model.Hall New = HallOf(
        "new",
        Row("n1", new(1000, 2800), Compass.East, Compass.South, "A"),
        Row("n2", new(6400, 6000), Compass.East, Compass.South, "B")) with
    { AsFound = null };

    [Theory]
    [InlineData(12000, ReachVerdict.Reaches, 67)]
    [InlineData(11933, ReachVerdict.Reaches, 0)]
    [InlineData(11932, ReachVerdict.TooShort, -1)]
    [InlineData(9000, ReachVerdict.TooShort, -2933)]
    public void Margin_is_length_less_way_and_twice_the_allowance(double length, ReachVerdict verdict, double margin)
    {
        var reach = Judge(Wired(WithLength(Cable("C", null, []), length), "A/S07/J1", "B/X/J1"));

        Assert.Equal((verdict, 10933d, 11933d, margin), (
            reach.Verdict, reach.Path!.Value.Millimeters, reach.Needed!.Value.Millimeters, Math.Round(reach.Margin!.Value.Millimeters, 9)));
    }

    // A/S8 has no height of its own, so its middle is not known: the frame's top, as for the frame alone. The other way round is as long.
    [Theory]
    [InlineData("A/S8/J1", "B", 10132)]
    [InlineData("A", "B", 10132)]
    [InlineData("B/X", "A/S7", 10933)]
    public void A_port_of_unknown_height_is_at_the_frames_top(string first, string second, double path) =>
        Assert.Equal(path, Judge(Wired(Cable("C", null, []), first, second)).Path!.Value.Millimeters, 6);

    [Fact]
    public void Without_a_length_the_way_as_found_is_the_least_it_can_be()
    {
        // As found, A and B stand side by side from x = 1000, 660 wide: middles 660 apart, T8 505 from both. In T8 the cable runs 801 + 566
        // + 505 + 660 + 505 + 566 + 0 = 3603: less than the 11933 needed, but it may be long enough all the same. In T9, which goes 6000
        // south, 660 east and 6000 back: 801 + 566 + 505 + 12660 + 505 + 566 = 15603, and so it has 3670 over at least.
        var archive = RecordOf(
            Length.FromMillimeters(500), A, B, One, Two, New,
            HallOf("origin", Row("r1", new(1000, 2800), Compass.East, Compass.South, "A", "B")),
            Tray("T8", "origin", new(0, 3000), new(9000, 3000)),
            Tray("T9", "origin", new(1330, 3000), new(1330, 9000), new(1990, 9000), new(1990, 3000)));

        var near = Reach(archive, Wired(Cable("C1", null, ["T8"]), "A/S7/J1", "B"));
        Assert.Equal((ReachVerdict.Unknown, 3603d, 11933d), (near.Verdict, near.Has!.Value.Millimeters, near.Needed!.Value.Millimeters));
        var far = Reach(archive, Wired(Cable("C2", null, ["T9"]), "A/S7/J1", "B"));
        Assert.Equal(
            (ReachVerdict.Reaches, 15603d, 3670d),
            (far.Verdict, far.Has!.Value.Millimeters, Math.Round(far.AtLeast!.Value.Millimeters, 9)));
        Assert.Null(far.Margin);
    }

    [Fact]
    public void No_way_where_no_tray_serves_or_none_leads_there()
    {
        var archive = RecordOf(Length.Zero, A, B, One, New);
        Assert.Equal((ReachVerdict.NoWay, "no tray comes within 900 mm of B"), Said(Reach(archive, Wired(Cable("C", null, []), "A", "B"))));

        archive = RecordOf(Length.Zero, A, B, One, Two with { Path = [new(6000, 4000), new(6000, 8000)] }, New);
        Assert.Equal(
            (ReachVerdict.NoWay, "no trays lead from one frame to the other"), Said(Reach(archive, Wired(Cable("C", null, []), "A", "B"))));
    }

    [Fact]
    public void What_is_not_known_is_said()
    {
        Assert.Equal((ReachVerdict.Unknown, "its far end is unknown"), Said(Judge(Wired(Cable("C", null, []), "A"))));
        Assert.Equal((ReachVerdict.Unknown, "both ends are unknown"), Said(Judge(Wired(Cable("C", null, [])))));
        Assert.Equal((ReachVerdict.Unknown, "its length is not recorded"), Said(Judge(Wired(Cable("C", null, []), "A", "B"))));
        Assert.Equal(
            (ReachVerdict.Unknown, "the size of B is not recorded"),
            Said(Reach(RecordOf(Length.Zero, A, Unsized("B"), One, Two, New), Wired(WithLength(Cable("C", null, []), 9000), "A", "B"))));
    }

    [Fact]
    public void A_frame_that_does_not_stand_here_is_no_concern_of_the_hall()
    {
        var reach = Judge(Wired(WithLength(Cable("C", null, []), 12000), "A", "Z"), Frame("Z"));
        Assert.Equal((ReachVerdict.NoWay, "Z is not in this hall"), Said(reach));
        Assert.False(reach.IsHere);
    }

    [Fact]
    public void What_never_leaves_its_frame_reaches_wherever_that_stands() =>
        Assert.Equal(
            (ReachVerdict.Reaches, "it stays within its frame"),
            Said(Judge(Wired(WithLength(Cable("C", null, []), 900), "A/S7/J1", "A/S8/J1"))));

    [Fact]
    public void A_harness_is_judged_by_its_longest_tail()
    {
        // From A's top to B's: 10132; from A's top back to A/S7, by the tray: 2 x (566 + 505) + 801 = 2943.
        var reach = Judge(Wired(WithLength(Cable("C", null, []), 11000), "A", "A/S7/J1", "B"));
        Assert.Equal((10132d, "B"), (reach.Path!.Value.Millimeters, reach.Second!.Id));
        Assert.Equal(-132, reach.Margin!.Value.Millimeters, 6);
    }

    [Fact]
    public void Worst_come_first()
    {
        var all = Record();
        var judged = Hall(
            all,
            Wired(WithLength(Cable("C1", null, []), 13000), "A/S7", "B"),
            Wired(WithLength(Cable("C2", null, []), 11000), "A/S7", "B"),
            Wired(WithLength(Cable("C3", null, []), 11900), "A/S7", "B"),
            Wired(Cable("C4", null, []), "A/S7", "B"),
            Wired(WithLength(Cable("C5", null, []), 12000), "A/S7", "B"),
            Wired(WithLength(Cable("C6", null, []) with { Fate = Say(Fate.Leave) }, 1), "A/S7", "B"));

        Assert.Equal(["C2", "C3", "C4", "C5", "C1"], judged.Cables.Select(cable => cable.Cable.Id));
        Assert.Equal(966, judged.Shortage.Millimeters, 6);
        Assert.Equal([(2, 1, 2), (2, 1, 2)], judged.Frames.Select(frame =>
            (frame.Count(ReachVerdict.TooShort), frame.Count(ReachVerdict.Unknown), frame.Count(ReachVerdict.Reaches))));
    }

    /// <summary>
    /// By hand: C2 (11000) and C3 (11900) are short by 933 and 33 on the way worked above. From A's drop at x = 1330 to 6000 both run in
    /// T1, then from y = 3000 to 5695 in T2 (which begins at y = 2000). C1 reaches and is in neither.
    /// </summary>
    [Fact]
    public void Stretches_count_what_is_short_in_them()
    {
        var judged = Hall(
            Record(),
            Wired(WithLength(Cable("C1", null, []), 13000), "A/S7", "B"),
            Wired(WithLength(Cable("C2", null, []), 11000), "A/S7", "B"),
            Wired(WithLength(Cable("C3", null, []), 11900), "A/S7", "B"));

        Assert.Equal(
            [("T1", 1330d, 6000d, 2, 966d), ("T2", 1000d, 3695d, 2, 966d)],
            judged.ShortStretches.Select(stretch => (
                stretch.Tray.Id,
                stretch.From.Millimeters,
                stretch.To.Millimeters,
                stretch.Cables,
                Math.Round(stretch.Shortage.Millimeters, 6))));
    }

    /// <summary>
    /// By hand: a metre to the east takes 1000 off the way along T1, so that C2 (short by 933) and C3 (by 33) both reach; to the west it
    /// adds 1000, and C1 is short as well, by 933. To the south A's middle is at y = 3495, 495 from T1's line, 10 nearer. To the north it
    /// is at 1495, 1505 from it: no tray serves A any more.
    /// </summary>
    [Fact]
    public void Moving_a_frame_by_a_metre_is_judged_like_its_place()
    {
        var judged = Hall(
            Record(),
            Wired(WithLength(Cable("C1", null, []), 12000), "A/S7", "B"),
            Wired(WithLength(Cable("C2", null, []), 11000), "A/S7", "B"),
            Wired(WithLength(Cable("C3", null, []), 11900), "A/S7", "B"));
        var shifts = judged.ShiftsOf("A").ToDictionary(shift => shift.To);

        Assert.Equal((0, 0d), (shifts[Compass.East].DoNotReach, shifts[Compass.East].Shortage.Millimeters));
        Assert.Equal(3, shifts[Compass.West].DoNotReach);
        Assert.Equal(933 + 1933 + 1033, shifts[Compass.West].Shortage.Millimeters, 6);
        Assert.Equal(923 + 23, shifts[Compass.South].Shortage.Millimeters, 6);
        Assert.Equal((3, 0d), (shifts[Compass.North].DoNotReach, shifts[Compass.North].Shortage.Millimeters));
        Assert.Equal(Compass.East, judged.BestShiftOf(judged.Frames[0])!.To);
        Assert.True(shifts[Compass.East].IsFree);
    }

    [Fact]
    public void What_stands_where_a_frame_would_be_moved_to_is_named()
    {
        var hall = New with
        {
            Rows =
            [
                Row("n1", new(1000, 2800), Compass.East, Compass.South, "A", "N"),
                New.Rows[1],
            ],
            Obstacles = [Obstacle("column", Box(1300, 3300, 1500, 3500))],
        };
        var archive = RecordOf(Length.FromMillimeters(500), A, B, Frame("N"), One, Two, hall);
        var shifts = Hall(archive, Wired(WithLength(Cable("C", null, []), 11000), "A/S7", "B")).ShiftsOf("A")
            .ToDictionary(shift => shift.To);

        Assert.Equal(["N"], shifts[Compass.East].InTheWay.Select(frame => frame.Id));
        Assert.True(shifts[Compass.South].HitsHall);
        Assert.Empty(shifts[Compass.West].InTheWay);
    }

    [Fact]
    public void Slack_is_length_less_way_as_found()
    {
        var layout = HallLayout.Create(Record(), New);
        var path = new AsFoundPaths(Record(), layout).Of(Wired(WithLength(Cable("C", null, ["T1", "T2"]), 12000), "A/S7/J1", "B"));
        Assert.Equal((10933d, 1067d), (path.Length!.Value.Millimeters, Math.Round(path.Slack!.Value.Millimeters, 9)));
    }

    [Theory]
    [InlineData(new[] { "T1" }, "its far end", "A/S7/J1")]
    [InlineData(new string[0], "the trays it lies in", "A/S7/J1", "B")]
    [InlineData(new[] { "T1", "T3" }, "trays that connect", "A/S7/J1", "B")]
    [InlineData(new[] { "T1", "T4" }, "the height of a tray it lies in", "A/S7/J1", "B")]
    [InlineData(new[] { "T1", "T2" }, "a place for Z", "A/S7/J1", "Z")]
    public void A_way_as_found_that_is_not_known_says_what_is_missing(string[] trays, string lacks, params string[] ends)
    {
        var archive = RecordOf(A, B, Frame("Z"), One, Two, Tray(
            "T3", "new", new(0, 7000), new(5000, 7000)), Tray("T4", "new", new(0, 0), new(9000, 0)) with { Height = null }, New);
        var layout = HallLayout.Create(archive, New);
        Assert.Equal(lacks, new AsFoundPaths(archive, layout).Of(Wired(Cable("C", null, trays), ends)).Lacks);
    }

    private static ArchiveModel Record(params ArchiveRecord[] more) =>
        RecordOf(Length.FromMillimeters(500), [A, B, One, Two, New, .. more]);

    private static CableReach Judge(WiredCable cable, params ArchiveRecord[] more) => Reach(Record(more), cable);

    private static CableReach Reach(ArchiveModel archive, WiredCable cable) => Assert.Single(Hall(archive, cable).Cables);

    private static HallReach Hall(ArchiveModel archive, params WiredCable[] cables)
    {
        var layouts = HallLayouts.Create(archive);
        var paths = cables.Select(new AsFoundPaths(archive, layouts.AsFound).Of);
        var layout = layouts.ByHall["new"];
        return ReachEvaluator.Evaluate(archive, layout, TrayNetwork.Create(layout.Trays), cables, paths);
    }

    private static (ReachVerdict Verdict, string Why) Said(CableReach reach) => (reach.Verdict, reach.Why);
}
