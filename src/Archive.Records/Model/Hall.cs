using System.Collections.Immutable;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>A hall: where the machine was found, where it stands now, or where it may stand.</summary>
public sealed record Hall : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Hall;

    /// <summary>Whether this is the hall of the as-found state.</summary>
    public Stated<bool>? AsFound { get; init; }

    /// <summary>Walls' inner line; at least three points.</summary>
    public Outline? Outline { get; init; }

    /// <summary>Clear height.</summary>
    public Stated<Length>? Ceiling { get; init; }

    /// <summary>What the floor is rated to carry.</summary>
    public Stated<Pressure>? FloorRating { get; init; }

    /// <summary>Columns, pits and other things in the way.</summary>
    public ImmutableArray<Obstacle> Obstacles { get; init; } = [];

    /// <summary>Doors and other openings.</summary>
    public ImmutableArray<Opening> Openings { get; init; } = [];

    /// <summary>Rows of frames.</summary>
    public ImmutableArray<FrameRow> Rows { get; init; } = [];

    /// <summary>The taped line: frames inside it leave, those outside stay.</summary>
    public Outline? Take { get; init; }

    /// <summary>What can hurt someone in it.</summary>
    public ImmutableArray<Stated<Hazard>> Hazards { get; init; } = [];
}

/// <summary>Something that is in the way.</summary>
public sealed record Obstacle(Stated<string>? Name, Outline Outline);

/// <summary>A place in a row: a frame, or a gap.</summary>
/// <param name="Frame">Id of the frame, or null for a gap.</param>
/// <param name="Gap">Width of the gap, or null for a frame.</param>
public sealed record RowPlace(Stated<string>? Frame, Stated<Length>? Gap);
