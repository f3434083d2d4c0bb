using System.Collections.Immutable;
using NetTopologySuite.Geometries.Prepared;

namespace Archive.Halls.Layout;

/// <summary>On which side of the taped line a frame stands.</summary>
public enum BoundarySide
{
    /// <summary>Wholly inside: it goes.</summary>
    Inside,

    /// <summary>Wholly outside: it stays.</summary>
    Outside,

    /// <summary>The line runs through it: someone has to decide.</summary>
    Astride,

    /// <summary>Its own size, or one before it in the row, is not recorded: its place is not known.</summary>
    Unknown,
}

/// <summary>A frame and its side of the taped line.</summary>
/// <param name="Placed">The frame in its place.</param>
public readonly record struct TakeDecision(PlacedFrame Placed, BoundarySide Side);

/// <summary>The taped line on the floor: frames inside it leave, those outside stay.</summary>
public static class TakeBoundary
{
    /// <summary>On which side each frame of a hall stands; a footprint may reach over the line by <see cref="Footprint.Touch"/>.</summary>
    /// <param name="layout">A hall set out.</param>
    /// <returns>One entry a standing frame, in the hall's order; empty where the hall has no line.</returns>
    public static ImmutableArray<TakeDecision> Classify(HallLayout layout)
    {
        if (layout.Hall.Take is not { } take) return [];
        var inside = PreparedGeometryFactory.Prepare(GeometryConversion.Area(take));
        return [.. layout.PlacedFrames.Select(placed => new TakeDecision(placed, SideOf(placed, inside)))];
    }

    private static BoundarySide SideOf(PlacedFrame placed, IPreparedGeometry inside)
    {
        if (!placed.IsCertain) return BoundarySide.Unknown;
        var area = GeometryConversion.Area(placed.Footprint.Grown(-Footprint.Touch));
        if (inside.Covers(area)) return BoundarySide.Inside;
        return inside.Intersects(area) ? BoundarySide.Astride : BoundarySide.Outside;
    }
}

/// <summary>The sides of the taped line in words.</summary>
public static class TakeSideText
{
    /// <summary>A side of the taped line.</summary>
    public static string InWords(this BoundarySide side) => side switch
    {
        BoundarySide.Inside => "leaves",
        BoundarySide.Outside => "stays",
        BoundarySide.Astride => "across the line: someone must decide",
        _ => "place not known well enough",
    };
}
