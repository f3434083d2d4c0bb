using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;

namespace Archive.Halls.Trays;

/// <summary>The way of a cable on the plan of a hall.</summary>
/// <param name="Layout">The hall, set out.</param>
/// <param name="Line">Its route; at least two points.</param>
/// <param name="FromFrame">Whether the way begins at the frame of its first end; else that end, or its place, is not known.</param>
/// <param name="ToFrame">Whether the way ends at the frame of its second end.</param>
public sealed record CableRoute(HallLayout Layout, ImmutableArray<PlanPoint> Line, bool FromFrame, bool ToFrame)
{
    /// <summary>Length in plan of what is drawn, in millimetres: rises and drops are not in it.</summary>
    public double LengthInPlan => Line.Zip(Line.Skip(1), (a, b) => a.DistanceTo(b)).Sum();

    /// <summary>
    /// The way through trays in their order, as far as it is known: from the frame's middle over the trays to the other's.
    /// </summary>
    /// <param name="layout">The hall of the trays.</param>
    /// <param name="trays">The trays from the first end on.</param>
    /// <param name="first">The frame of the first end; null where it is not known.</param>
    /// <param name="second">The frame of the second end; null where it is not known.</param>
    /// <returns>The way, or null where there is none to draw: no trays, trays of another hall or without a joint.</returns>
    public static CableRoute? Through(HallLayout layout, TrayNetwork network, ImmutableArray<Tray> trays, Frame? first, Frame? second)
    {
        if (trays.Length == 0 || !trays.All(layout.Has)) return null;
        var (from, to) = (TopOf(layout, first), TopOf(layout, second));
        if (trays.Length == 1 && from is null && to is null) return Create(layout, trays[0].Path, null, null);
        return network.Through(trays, from, to) is { } way ? Create(layout, [.. way.Legs.SelectMany(leg => leg.Line)], from, to) : null;
    }

    /// <summary>
    /// The ways of a harness from its first end to each other; a tail may leave the trays before their last, where they come nearest to its
    /// frame.
    /// </summary>
    /// <param name="layout">The hall of the trays.</param>
    /// <param name="trays">The trays from the first end on.</param>
    /// <param name="frames">The frames of its ends, the first first; null where one is not known.</param>
    /// <returns>The ways that there are to draw, the longest first.</returns>
    public static ImmutableArray<CableRoute> OfTails(
        HallLayout layout, TrayNetwork network, ImmutableArray<Tray> trays, ImmutableArray<Frame?> frames) =>
    [
        .. frames.Skip(1).OfType<Frame>()
            .Select(frame => Enumerable.Range(1, trays.Length)
                .Select(count => Through(layout, network, trays[..count], frames[0], frame))
                .OfType<CableRoute>()
                .MinBy(way => way.Line[^2].DistanceTo(way.Line[^1])))
            .OfType<CableRoute>()
            .OrderByDescending(way => way.LengthInPlan),
    ];

    /// <summary>A way between two frames that stand in the hall.</summary>
    /// <param name="way">The way through its trays.</param>
    /// <param name="first">The frame where it begins.</param>
    /// <param name="second">The frame where it ends.</param>
    /// <returns>The way on the plan, or null where it has no extent there.</returns>
    public static CableRoute? Between(HallLayout layout, TrayPath way, Frame first, Frame second) =>
        Create(layout, [.. way.Legs.SelectMany(leg => leg.Line)], TopOf(layout, first), TopOf(layout, second));

    // A frame whose height is not known is drawn all the same: the plan does not show it.
    private static FrameTop? TopOf(HallLayout layout, Frame? frame) =>
        frame is not null && layout.ByFrame.TryGetValue(frame.Id, out var placed)
            ? new FrameTop(placed.Footprint.Centre, frame.Size?.Value.Height.Millimeters ?? 0)
            : null;

    private static CableRoute? Create(HallLayout layout, ImmutableArray<PlanPoint> passed, FrameTop? from, FrameTop? to)
    {
        var line = new List<PlanPoint>();
        if (from is { } start) line.Add(start.Middle);
        line.AddRange(passed);
        if (to is { } stop) line.Add(stop.Middle);
        var way = WithoutRepeats(line);
        return way.Length < 2 ? null : new CableRoute(layout, way, from is not null, to is not null);
    }

    private static ImmutableArray<PlanPoint> WithoutRepeats(List<PlanPoint> line) =>
        [.. line.Where((point, i) => i == 0 || line[i - 1].DistanceTo(point) > 0.5)];
}
