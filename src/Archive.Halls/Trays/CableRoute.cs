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
    /// <summary>How high each point of the line lies above the floor, in millimetres: trays' undersides, frames' tops.</summary>
    public ImmutableArray<double> Heights { get; init; } = [];

    /// <summary>The stretches of trays that it lies in, in order; none where it is only known to lie in one tray.</summary>
    public ImmutableArray<TrayLeg> Legs { get; init; } = [];

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
        if (trays.Length == 1 && from is null && to is null)
            return Create(layout, trays[0].Path.Select(point => (point, HeightOf(trays[0]))), null, null);
        return network.Through(trays, from, to) is { } way ? Create(layout, way, from, to) : null;
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
        Create(layout, way, TopOf(layout, first), TopOf(layout, second));

    // A frame whose height is not known is drawn all the same: the plan does not show it.
    private static FrameTop? TopOf(HallLayout layout, Frame? frame) =>
        frame is not null && layout.ByFrame.TryGetValue(frame.Id, out var placed)
            ? new FrameTop(placed.Footprint.Centre, frame.Size?.Value.Height.Millimeters ?? 0)
            : null;

    private static CableRoute? Create(HallLayout layout, TrayPath way, FrameTop? from, FrameTop? to) =>
        Create(layout, way.Legs.SelectMany(leg => leg.Line.Select(point => (point, HeightOf(leg.Tray)))), from, to) is { } route
            ? route with { Legs = way.Legs }
            : null;

    private static double HeightOf(Tray tray) => tray.Height?.Value.Millimeters ?? 0;

    // Two places that are one in plan, such as where it changes from a tray to one above it, are both kept where their heights differ.
    private static CableRoute? Create(
        HallLayout layout, IEnumerable<(PlanPoint Point, double Height)> passed, FrameTop? from, FrameTop? to)
    {
        var line = new List<(PlanPoint Point, double Height)>();
        foreach (var at in Ends(from).Concat(passed).Concat(Ends(to)))
        {
            if (line.Count == 0 || line[^1].Point.DistanceTo(at.Point) > 0.5 || Math.Abs(line[^1].Height - at.Height) > 0.5) line.Add(at);
        }

        var isOnePlace = line.TrueForAll(at => at.Point.DistanceTo(line[0].Point) <= 0.5);
        return isOnePlace
            ? null
            : new CableRoute(layout, [.. line.Select(at => at.Point)], from is not null, to is not null)
            {
                Heights = [.. line.Select(at => at.Height)],
            };
    }

    private static IEnumerable<(PlanPoint Point, double Height)> Ends(FrameTop? top) => top is { } at ? [(at.Middle, at.Height)] : [];
}
