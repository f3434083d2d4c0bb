using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using CsCheck;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

/// <summary>Laws of ways and margins, for any hall.</summary>
public class ReachLawTests
{
    private const double Rounding = 1e-6;

    private static readonly Gen<PlanPoint> Points = Gen.Select(Gen.Int[0, 120], Gen.Int[0, 80])
        .Select(at => new PlanPoint(at.Item1 * 100, at.Item2 * 100));

    private static readonly Gen<Tray> Trays = Gen.Select(Points.Array[2, 4], Gen.Int[22, 30])
        .Select(tray => Hung("?", tray.Item2 * 100, tray.Item1));

    private static readonly Gen<(Tray[] Trays, PlanPoint[] Frames)> Halls =
        Gen.Select(Trays.Array[1, 8], Points.Array[2, 4])
            .Select(hall => (hall.Item1.Select((tray, i) => tray with { Id = $"T{i}" }).ToArray(), hall.Item2));

    [Fact]
    public void Adding_a_tray_never_lengthens_a_way() => Gen.Select(Halls, Trays).Sample((hall, more) =>
    {
        var (before, after) = (TrayNetwork.Create(hall.Trays), TrayNetwork.Create([.. hall.Trays, more with { Id = "T9" }]));
        foreach (var (one, other) in Pairs(hall.Frames)) Assert.True(Between(after, one, other) <= Between(before, one, other) + Rounding);
    });

    [Fact]
    public void Mirroring_or_turning_a_hall_changes_no_way() => Halls.Sample(hall =>
    {
        foreach (var turn in new Func<PlanPoint, PlanPoint>[]
        {
            at => new(12000 - at.X, at.Y),
            at => new(at.X, -at.Y),
            at => new(-at.Y, at.X)
        })
        {
            var (before, after) = (
                TrayNetwork.Create(hall.Trays),
                TrayNetwork.Create(hall.Trays.Select(tray => tray with { Path = [.. tray.Path.Select(turn)] })));
            foreach (var (one, other) in Pairs(
                hall.Frames).Where(pair => HasOneNearestPoint(hall.Trays, pair.One) && HasOneNearestPoint(hall.Trays, pair.Other)))
            {
                Assert.Equal(Between(before, one, other), Between(after, turn(one), turn(other)), 4);
            }
        }
    });

    // One truth: what is said of a move is what is judged in a hall laid out like that.
    [Fact]
    public void A_move_is_judged_as_the_hall_after_it() => Gen.Select(Halls, Gen.Int[0, 20000]).Sample((hall, length) =>
    {
        var before = Judged(hall.Frames);
        foreach (var shift in before.ShiftsOf("F0"))
        {
            var (x, y) = shift.To switch
            {
                Compass.North => (0, -1000),
                Compass.East => (1000, 0),
                Compass.South => (0, 1000),
                _ => (-1000, 0)
            };
            var after = Judged([new(hall.Frames[0].X + x, hall.Frames[0].Y + y), .. hall.Frames[1..]]);
            var of = after.Frames.First(frame => frame.Placed.Frame.Id == "F0");
            Assert.Equal(of.DoNotReach, shift.DoNotReach);
            Assert.Equal(of.Shortage.Millimeters, shift.Shortage.Millimeters, 4);
        }

        HallReach Judged(PlanPoint[] places)
        {
            var rows = places.Select((at, i) => Row($"r{i}", at, Compass.East, Compass.South, $"F{i}")).ToArray();
            var archive = RecordOf(
                Length.FromMillimeters(250),
                [
                    HallOf("new", rows) with { AsFound = null },
                    .. places.Select((_, i) => Frame($"F{i}")),
                    .. hall.Trays.Select(tray => tray with { Hall = Say("new") }),
                ]);
            var layout = HallLayout.Create(archive, archive.Find<Hall>("new")!);
            var wired = Enumerable.Range(1, places.Length - 1)
                .Select(i => Wired(WithLength(Cable($"C{i}", null, []), length), "F0", $"F{i}"));
            return ReachEvaluator.Evaluate(archive, layout, TrayNetwork.Create(layout.Trays), wired, []);
        }
    });

    [Fact]
    public void Mirroring_a_hall_changes_no_margin() => Gen.Select(Halls, Gen.Int[0, 30000]).Sample((hall, length) =>
    {
        var (before, after) = (Margins(at => at, Compass.East), Margins(at => new(12000 - at.X, at.Y), Compass.West));
        Assert.Equal(before.Length, after.Length);
        foreach (var (one, other) in before.Zip(after)) Assert.Equal(one, other, 4);

        // A row of one frame at each place. Frames for which two points of a tray are as near are left out: see below.
        double[] Margins(Func<PlanPoint, PlanPoint> moved, Compass runs)
        {
            var places = hall.Frames.Where(at => HasOneNearestPoint(hall.Trays, new PlanPoint(at.X + 330, at.Y - 305))).ToArray();
            var rows = places.Select((at, i) => Row($"r{i}", moved(at), runs, Compass.South, $"F{i}")).ToArray();
            var trays = hall.Trays.Select(tray => tray with { Hall = Say("new"), Path = [.. tray.Path.Select(moved)] });
            var archive = RecordOf(
                Length.FromMillimeters(250),
                [HallOf("new", rows) with { AsFound = null }, .. places.Select((_, i) => Frame($"F{i}")), .. trays]);
            var layout = HallLayout.Create(archive, archive.Find<Hall>("new")!);
            var cables = Pairs(places).Select((_, i) => WithLength(Cable($"C{i}", null, []), length)).ToList();
            var wired = Pairs([.. places.Select((_, i) => new PlanPoint(i, 0))]).Zip(
                cables, (pair, cable) => Wired(cable, $"F{pair.One.X}", $"F{pair.Other.X}"));
            return [.. ReachEvaluator.Evaluate(archive, layout, TrayNetwork.Create(layout.Trays), wired, []).Cables
                .OrderBy(cable => cable.Cable.Id, StringComparer.Ordinal)
                .Select(cable => cable.Margin?.Millimeters ?? double.NaN)];
        }
    });

    [Fact]
    public void A_way_is_as_long_there_as_back_and_its_parts_make_its_length() => Halls.Sample(hall =>
    {
        var network = TrayNetwork.Create(hall.Trays);
        foreach (var (one, other) in Pairs(hall.Frames))
        {
            Assert.Equal(Between(network, one, other), Between(network, other, one), 4);
            if (network.Way(network.Drops(one, 2000), network.Drops(other, 2000)) is not { } way) continue;
            Assert.All(way.Legs, leg => Assert.Equal(leg.Length, leg.Line.Zip(leg.Line.Skip(1), (a, b) => a.DistanceTo(b)).Sum(), 4));
            // only the gaps of joints are free
            Assert.True(way.Length >= one.DistanceTo(other) - (TrayMeeting.Reach * way.Legs.Length) - Rounding);
        }
    });

    [Fact]
    public void The_order_of_trays_changes_no_way() => Halls.Sample(hall =>
    {
        var (before, after) =
            (TrayNetwork.Create(hall.Trays), TrayNetwork.Create(hall.Trays.Select((tray, i) => tray with { Id = $"T{9 - i}" })));
        foreach (var (one, other) in Pairs(hall.Frames)) Assert.Equal(Between(before, one, other), Between(after, one, other), 4);
    });

    [Fact]
    public void A_laid_way_is_never_shorter_than_the_shortest() => Halls.Sample(hall =>
    {
        var network = TrayNetwork.Create(hall.Trays);
        foreach (var (one, other) in Pairs(hall.Frames))
        {
            var (from, to) = (network.Drops(one, 2000), network.Drops(other, 2000));
            if (network.Way(from, to) is not { } way) continue;
            var trays = way.Legs.Select(leg => leg.Tray).ToArray();
            if (!from.Serving.Any(serving => serving.Tray == trays[0]) || !to.Serving.Any(serving => serving.Tray == trays[^1])) continue;
            Assert.Equal(way.Length, network.Through([.. trays], new FrameTop(one, 2000), new FrameTop(other, 2000))!.Length, 4);
        }
    });

    [Fact]
    public void Moving_two_frames_further_apart_along_a_tray_never_raises_a_margin() =>
        Gen.Select(Gen.Int[0, 4000], Gen.Int[0, 4000], Gen.Int[0, 3000], Gen.Int[0, 800], Gen.Int[0, 20000])
            .Sample((first, apart, further, away, length) =>
            {
                // Two frames 600 wide under one tray, the second so far behind the first; then further.
                var (near, far) = (Margin(apart), Margin(apart + further));
                Assert.True(far <= near + Rounding);
                Assert.Equal(near - further, far, 4);

                double Margin(int gap)
                {
                    var hall = HallOf("new", Row("r", new(first, 3000 + away), Compass.East, Compass.South, "A", gap, "B")) with
                    {
                        AsFound = null
                    };
                    var archive = RecordOf(
                        Length.FromMillimeters(250),
                        hall,
                        Frame("A", 600),
                        Frame("B", 600),
                        Tray("T", "new", new(0, 2700), new(15000, 2700)));
                    var layout = HallLayout.Create(archive, hall);
                    return ReachEvaluator.Evaluate(
                        archive,
                        layout,
                        TrayNetwork.Create(layout.Trays),
                        [Wired(WithLength(Cable("C", null, []), length), "A", "B")],
                        []).Cables[0].Margin!.Value.Millimeters;
                }
            });

    // Where two points of a tray are as near, the first along it counts; rounding may choose the other in a hall that is turned.
    private static bool HasOneNearestPoint(Tray[] trays, PlanPoint frame) => trays.All(tray =>
    {
        var line = TrayLine.From(tray);
        if (line is null) return true;
        var nearest = line.Nearest(frame);
        return Enumerable.Range(0, line.Segments).Select(line.Segment).All(segment =>
        {
            var on = segment.Nearest(frame);
            return segment.At(on).DistanceTo(frame) > nearest.Distance + 0.01 || Math.Abs(segment.Start + on - nearest.Along) < 0.01;
        });
    });

    private static IEnumerable<(PlanPoint One, PlanPoint Other)> Pairs(PlanPoint[] frames) =>
        from i in Enumerable.Range(0, frames.Length)
        from j in Enumerable.Range(i + 1, frames.Length - i - 1)
        select (frames[i], frames[j]);

    private static double Between(TrayNetwork network, PlanPoint one, PlanPoint other) =>
        network.Between(network.Drops(one, 2000), network.Drops(other, 2000));

    private static Tray Hung(string id, double height, params PlanPoint[] path) =>
        Tray(id, "origin", path) with { Height = Say(Length.FromMillimeters(height)) };
}
