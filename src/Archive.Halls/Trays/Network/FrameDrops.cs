using System.Collections.Immutable;

namespace Archive.Halls.Trays.Network;

/// <summary>All places where a frame's cables may enter the trays above it, and what it costs to come there from the frame's top.</summary>
/// <remarks>Immutable, and cheap to make: a search for stands makes one for each place that it tries.</remarks>
public sealed class FrameDrops
{
    internal FrameDrops(ImmutableArray<ServingTray> serving, ImmutableArray<Drop> drops)
    {
        Serving = serving;
        Drops = drops;
    }

    /// <summary>The trays that serve the frame, nearest first, then by id; empty where none does.</summary>
    public ImmutableArray<ServingTray> Serving { get; }

    /// <summary>Whether any tray serves it.</summary>
    public bool IsServed => Serving.Length > 0;

    internal ImmutableArray<Drop> Drops { get; }
}

/// <summary>One way from a frame's top to a place in a tray.</summary>
/// <param name="Spot">The place.</param>
/// <param name="Cost">Its length in millimetres.</param>
internal readonly record struct Drop(TrayPoint Spot, double Cost);
