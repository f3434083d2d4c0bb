using System.Collections.Immutable;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>What is taken off and is not a unit: a door, a cover, a bracket, a bag of bolts, a ferrite from a cable.</summary>
public sealed record Piece : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Piece;

    /// <summary>Id of the frame, tray, cable or unit that it came off; null where nobody knows.</summary>
    public Stated<string>? Of { get; init; }

    /// <summary>Where on it, in words.</summary>
    public Stated<string>? Place { get; init; }

    /// <summary>How many there are; one where that is not said.</summary>
    public Stated<int>? Count { get; init; }

    /// <summary>Outer size of one.</summary>
    public Stated<FrameSize>? Size { get; init; }

    /// <summary>What all of it weighs together.</summary>
    public Stated<Mass>? Weight { get; init; }

    /// <summary>How it must be handled.</summary>
    public ImmutableArray<Stated<Handling>> Handling { get; init; } = [];

    /// <summary>What can hurt someone at it.</summary>
    public ImmutableArray<Stated<Hazard>> Hazards { get; init; } = [];
}
