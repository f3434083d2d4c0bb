using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;

namespace Archive.Halls.Views;

/// <summary>A body that stands or hangs in a hall: upright, over a convex base.</summary>
/// <param name="Of">The frame or tray that it is, or is a stretch of.</param>
/// <param name="Base">Corners of its base in order, in millimetres of the hall.</param>
/// <param name="Bottom">Height of its underside above the floor, in millimetres.</param>
/// <param name="Top">Height of its upper side.</param>
public sealed record Solid(ArchiveRecord Of, ImmutableArray<PlanPoint> Base, double Bottom, double Top)
{
    // A tray without a size is drawn as wide and as high as a common ladder; one of a single sheet of metal is still seen.
    private const double TrayWidth = 300, TrayDepth = 60, Least = 10;

    // A frame without a recorded height is drawn as high as a common cabinet.
    private const double FrameHeight = 2000;

    /// <summary>The upper edge of its front, where it has one.</summary>
    public (PlanPoint From, PlanPoint To)? Front { get; init; }

    /// <summary>All that stands and hangs in a hall: frames in their places, and trays of known height, stretch by stretch.</summary>
    public static ImmutableArray<Solid> AllIn(HallLayout layout) => [.. Frames(layout), .. layout.Trays.SelectMany(Tray)];

    private static IEnumerable<Solid> Frames(HallLayout layout) => layout.PlacedFrames
        .Where(placed => placed.Footprint is { IsFinite: true, Across: > Least, Down: > Least })
        .Select(placed => new Solid(
            placed.Frame,
            placed.Footprint.Corners,
            0,
            placed.Frame.Size is { Value.Height.Millimeters: > Least and < 1e6 and var height } ? height : FrameHeight)
        {
            Front = placed.Footprint.Edge(placed.Faces),
        });

    private static IEnumerable<Solid> Tray(Tray tray)
    {
        if (tray.Height?.Value.Millimeters is not (> -1e6 and < 1e6 and var bottom)) yield break;
        var half = Math.Clamp(tray.Size?.Value.Width.Millimeters ?? TrayWidth, Least, 1e5) / 2;
        var top = bottom + Math.Clamp(tray.Size?.Value.Depth.Millimeters ?? TrayDepth, Least, 1e5);
        foreach (var (from, to) in tray.Path.Zip(tray.Path.Skip(1)))
        {
            var length = from.DistanceTo(to);
            if (!(length > Least && length < 1e7)) continue;
            var (x, y) = ((to.X - from.X) / length * half, (to.Y - from.Y) / length * half);
            yield return new Solid(
                tray,
                [new(from.X - y, from.Y + x), new(to.X - y, to.Y + x), new(to.X + y, to.Y - x), new(from.X + y, from.Y - x)],
                bottom,
                top);
        }
    }
}
