using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

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
