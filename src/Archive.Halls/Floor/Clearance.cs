using Archive.Halls.Layout;
using UnitsNet;

namespace Archive.Halls.Floor;

/// <summary>How far the floor is clear straight before or behind a frame, over its whole width.</summary>
/// <param name="Distance">To the nearest thing; null where nothing bounds it.</param>
/// <param name="To">What that is: a frame's id, an obstacle's name, or <c>wall</c>; empty where nothing bounds it.</param>
public readonly record struct Clearance(Length? Distance, string To);

/// <summary>The aisles that a frame stands at.</summary>
/// <param name="Standing">The frame in its place.</param>
/// <param name="Before">On the side that it faces.</param>
/// <param name="Behind">On its back.</param>
public sealed record FrameAisles(PlacedFrame Standing, Clearance Before, Clearance Behind)
{
    /// <summary>
    /// Whether a door as wide as the frame would open square on the side it faces. The record counts doors and does not say how wide they
    /// are or on which side they hang, so yes means any door there opens; no means only that one should look. Null without doors or where
    /// the aisle is not bounded.
    /// </summary>
    public bool? LetsAnyDoorOpen => Standing.Frame.Doors is { Value: > 0 } && Before.Distance is { } clear
        ? clear.Millimeters >= Standing.Frame.Size!.Value.Value.Width.Millimeters - Footprint.Touch
        : null;
}
