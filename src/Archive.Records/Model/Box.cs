using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>A box, crate or pallet. What is in it comes from events.</summary>
public sealed record Box : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Box;

    /// <summary>Outer size.</summary>
    public Stated<FrameSize>? Size { get; init; }

    /// <summary>What it weighs empty.</summary>
    public Stated<Mass>? Weight { get; init; }

    /// <summary>The most that it may weigh, packed.</summary>
    public Stated<Mass>? Limit { get; init; }
}
