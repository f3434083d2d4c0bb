using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>A point of a floor plan.</summary>
/// <param name="X">Millimetres to the east (right).</param>
/// <param name="Y">Millimetres to the south (down the plan).</param>
public readonly record struct PlanPoint(double X, double Y);

/// <summary>A ladder, basket or channel overhead.</summary>
public sealed record Tray : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Tray;

    /// <summary>Id of the hall it hangs in; null only on a withdrawn record.</summary>
    public Stated<string>? Hall { get; init; }

    /// <summary>Centre line; at least two points, or empty on a withdrawn record.</summary>
    public ImmutableArray<PlanPoint> Path { get; init; } = [];

    /// <summary>Where the path is written.</summary>
    public SourceSpan? PathSpan { get; init; }

    /// <summary>Height of its bottom above the floor.</summary>
    public Stated<Length>? Height { get; init; }

    /// <summary>Inside width and depth.</summary>
    public Stated<TraySize>? Size { get; init; }

    /// <summary>What can hurt someone in it.</summary>
    public ImmutableArray<Stated<Hazard>> Hazards { get; init; } = [];
}

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

/// <summary>A closed figure of a plan.</summary>
/// <param name="Points">Corners in order, at least three; the last joins the first.</param>
public sealed record Outline(ImmutableArray<PlanPoint> Points, SourceSpan Span);

/// <summary>Something that is in the way.</summary>
public sealed record Obstacle(Stated<string>? Name, Outline Outline);

/// <summary>A door or other opening in a wall.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="From">One jamb.</param>
/// <param name="To">The other jamb.</param>
/// <param name="Height">Clear height.</param>
public sealed record Opening(Stated<string>? Name, PlanPoint From, PlanPoint To, Stated<Length>? Height, SourceSpan Span);

/// <summary>A row of frames, set side by side from a corner.</summary>
/// <param name="Id">Its name within the hall.</param>
/// <param name="At">Front corner of the first frame.</param>
/// <param name="Runs">Direction in which the row goes on.</param>
/// <param name="Faces">Side that the fronts look to; the depth goes away from it.</param>
/// <param name="Places">Frames and gaps in order.</param>
public sealed record FrameRow(
    Stated<string> Id, PlanPoint At, Stated<Compass> Runs, Stated<Compass> Faces, ImmutableArray<RowPlace> Places, SourceSpan Span);

/// <summary>A place in a row: a frame, or a gap.</summary>
/// <param name="Frame">Id of the frame, or null for a gap.</param>
/// <param name="Gap">Width of the gap, or null for a frame.</param>
public readonly record struct RowPlace(Stated<string>? Frame, Stated<Length>? Gap);

/// <summary>A side of the plan; y grows to the south.</summary>
public enum Compass
{
    /// <summary>Up the plan.</summary>
    North,

    /// <summary>To the right.</summary>
    East,

    /// <summary>Down the plan.</summary>
    South,

    /// <summary>To the left.</summary>
    West,
}
