using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Halls.Trays.Network;

/// <summary>A place on the line of a tray.</summary>
/// <param name="Tray">Number of the tray in its network.</param>
/// <param name="Along">Millimetres from the beginning of its line.</param>
internal readonly record struct TrayPoint(int Tray, double Along);

/// <summary>A tray that serves a frame: the point of its line from which cables drop to the frame's top.</summary>
/// <param name="At">The point of its line nearest in plan to the middle of the frame's top.</param>
/// <param name="Across">How far that is in plan, in millimetres; at most <see cref="Reach"/>.</param>
/// <param name="Rise">Difference in height between the frame's top and the tray's bottom, in millimetres.</param>
public readonly record struct ServingTray(Tray Tray, PlanPoint At, double Across, double Rise)
{
    /// <summary>A tray serves a frame whose top's middle lies within this of its line, in millimetres in plan.</summary>
    public const double Reach = 900;
}

/// <summary>A stretch of a tray that a cable lies in.</summary>
/// <param name="Length">How much of it, in millimetres.</param>
/// <param name="Line">The points that the stretch passes; at least one.</param>
/// <param name="From">Where it begins, in millimetres from the first point of the tray's line.</param>
/// <param name="To">Where it ends, likewise.</param>
public sealed record TrayLeg(Tray Tray, double Length, ImmutableArray<PlanPoint> Line, double From, double To);

/// <summary>A way through trays, from one frame's top to another's.</summary>
/// <param name="Length">Its whole length in millimetres: up and across, along the trays, from tray to tray, across and down.</param>
/// <param name="Legs">The trays in order.</param>
public sealed record TrayPath(double Length, ImmutableArray<TrayLeg> Legs);
