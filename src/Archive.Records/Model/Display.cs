using System.Collections.Immutable;

namespace Archive.Records.Model;

/// <summary>A working set: what must stand for it to run.</summary>
public sealed record Display : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Display;

    /// <summary>What it needs; all of them.</summary>
    public ImmutableArray<Need> Needs { get; init; } = [];
}
