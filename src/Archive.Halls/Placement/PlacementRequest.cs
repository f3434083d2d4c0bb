using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;

namespace Archive.Halls.Placement;

/// <summary>Which frames are to stand in a hall, and what is known of their cables.</summary>
public sealed record PlacementRequest
{
    /// <summary>
    /// Floor that is kept clear before every front, in millimetres. Common practice, no source: enough to open a door and to pass with a
    /// trolley; local rules for ways of escape and working space go before it.
    /// </summary>
    public const double LeastAisle = 900;

    public required ArchiveModel Record { get; init; }

    /// <summary>The hall, set out as it was first given; its rows are kept where they are, frames change places.</summary>
    public required HallLayout Layout { get; init; }

    public required TrayNetwork Network { get; init; }

    public required ImmutableArray<Frame> Frames { get; init; }

    /// <summary>The cables with what is known of their ends.</summary>
    public required ImmutableArray<WiredCable> Cables { get; init; }

    /// <summary>
    /// The hall where the machine was found: neighbours there stay neighbours where that costs nothing. Null where none is marked.
    /// </summary>
    public required HallLayout? AsFound { get; init; }

    /// <summary>How many changes a search tries; the same number gives the same answer.</summary>
    public int Steps { get; init; } = 200_000;
}
