using Archive.Data.Tables;
using Archive.Halls.Reach;
using Archive.Records.Model;
using Archive.Records.Wording;
using UnitsNet;

namespace Archive.Plans.Reach;

/// <summary>What the data of the plan of reach say.</summary>
public static class ReachShapes
{
    /// <summary>A frame in a hall.</summary>
    public static DataShape<(HallReach Hall, FrameReach Frame)> Frame { get; } = new DataShape<(HallReach Hall, FrameReach Frame)>()
        .Text("hall", "id of the hall", row => row.Hall.Layout.Hall.Id)
        .Text("frame", "id of the frame", row => row.Frame.Placed.Frame.Id)
        .List("served_by", "ids of the trays that serve it, nearest first", row =>
            row.Frame.Drops?.Serving.Select(serving => serving.Tray.Id) ?? [])
        .Count("no_way", "cables that have no route", row => row.Frame.Count(ReachVerdict.NoWay))
        .Count("short", "cables that are too short", row => row.Frame.Count(ReachVerdict.TooShort))
        .Count("unknown", "cables for which it is unknown", row => row.Frame.Count(ReachVerdict.Unknown))
        .Count("reaches", "cables that reach", row => row.Frame.Count(ReachVerdict.Reaches))
        .Text("worst", "id of the cable that falls shortest; empty if all reach", row => Worst(row.Frame)?.Cable.Id)
        .Number("short_by_m", "m", "by how much its short cables are short in total", row => Metres(row.Frame.Shortage))
        .Shift(Compass.North)
        .Shift(Compass.East)
        .Shift(Compass.South)
        .Shift(Compass.West)
        .Text("best_metre", "the side that moving it to by a metre helps most: north, east, south or west; empty where none does", row =>
            row.Hall.BestShiftOf(row.Frame) is { } shift ? Phrase.For(shift.To) : null);

    /// <summary>A stretch of a tray that short cables would run through.</summary>
    public static DataShape<(HallReach Hall, ShortStretch Stretch)> Stretch { get; } =
        new DataShape<(HallReach Hall, ShortStretch Stretch)>()
            .Text("hall", "id of the hall", row => row.Hall.Layout.Hall.Id)
            .Text("tray", "id of the tray", row => row.Stretch.Tray.Id)
            .Number("from_m", "m", "where it begins, along the tray from the first point of its path", row => Metres(row.Stretch.From))
            .Number("to_m", "m", "where it ends", row => Metres(row.Stretch.To))
            .Count("short", "cables that would run through it and are too short", row => row.Stretch.Cables)
            .Number("short_by_m", "m", "by how much they are short in total", row => Metres(row.Stretch.Shortage));

    private static DataShape<(HallReach Hall, FrameReach Frame)> Shift(
        this DataShape<(HallReach Hall, FrameReach Frame)> shape, Compass to)
    {
        var side = Phrase.For(to);
        return shape
            .Count($"{side}_do_not_reach", $"if it alone stood a metre to the {side}: its cables that would not reach", row =>
                ShiftOf(row, to)?.DoNotReach)
            .Number($"{side}_short_by_m", "m", "and by how much they would be short in total", row => Metres(ShiftOf(row, to)?.Shortage))
            .Flag($"{side}_is_free", "whether that place is free", row => ShiftOf(row, to)?.IsFree);
    }

    private static FrameShift? ShiftOf((HallReach Hall, FrameReach Frame) row, Compass to) =>
        row.Hall.ShiftsOf(row.Frame.Placed.Frame.Id).FirstOrDefault(shift => shift.To == to);

    /// <summary>A cable as found.</summary>
    public static DataShape<AsFoundPath> AsFound { get; } = new DataShape<AsFoundPath>()
        .Text("cable", "id of the cable", path => path.Cable.Id)
        .Number("path_m", "m", "its route from port to port through the trays it lies in", path => Metres(path.Length))
        .Number("length_m", "m", "its length", path => Metres(path.Cable.Length?.Value))
        .Number("slack_m", "m", "length less route; below zero, one of the two is wrong", path => Metres(path.Slack))
        .Text("lacks", "what is missing to know its route", path => path.Lacks.Length == 0 ? null : path.Lacks);

    /// <summary>A cable in a hall.</summary>
    /// <param name="context">Where its route as found is known.</param>
    public static DataShape<(HallReach Hall, CableReach Cable)> Cable(PlanContext context) =>
        new DataShape<(HallReach Hall, CableReach Cable)>()
            .Text("hall", "id of the hall", row => row.Hall.Layout.Hall.Id)
            .Text("cable", "id of the cable", row => row.Cable.Cable.Id)
            .Text("verdict", "no_way, short, unknown or reaches", row => row.Cable.Verdict.Word())
            .Text("why", "what the verdict is based on", row => row.Cable.Why)
            .Text("from", "id of the frame of its first end", row => row.Cable.First?.Id)
            .Text("to", "id of the frame of its other end; of a harness, the farthest", row => row.Cable.Second?.Id)
            .Number("path_m", "m", "the route from port to port in this hall", row => Metres(row.Cable.Path))
            .Number("needed_m", "m", "the route plus twice the allowance", row => Metres(row.Cable.Needed))
            .Number("length_m", "m", "its recorded length", row => Metres(row.Cable.Cable.Length?.Value))
            .Number("margin_m", "m", "length less needed; below zero, how much too short it is", row => Metres(row.Cable.Margin))
            .Number("as_found_m", "m", "its route as found, which it must be at least as long as", row =>
                Metres(context.Runs.ByCable.GetValueOrDefault(row.Cable.Cable.Id)?.Length))
            .Number(
                "at_least_m",
                "m",
                "if its length is not recorded: its route as found less needed; zero or more means it reaches",
                row => Metres(row.Cable.AtLeast));

    /// <summary>The cable of a frame that is worst off; null where all reach.</summary>
    public static CableReach? Worst(FrameReach frame) =>
        frame.Cables.FirstOrDefault(cable => cable.IsHere && cable.Verdict != ReachVerdict.Reaches);

    // Whole micrometres: what lies below is the rounding of sums.
    private static double? Metres(Length? length) =>
        length is { } known ? Math.Round(known.Meters, 6, MidpointRounding.AwayFromZero) : null;
}
