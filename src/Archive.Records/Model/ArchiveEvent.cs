using System.Collections.Immutable;
using Archive.Records.Terms;

namespace Archive.Records.Model;

/// <summary>Something that happened since the machine was found.</summary>
public sealed record ArchiveEvent : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Event;

    /// <summary>When; null only on a withdrawn record.</summary>
    public Stated<EdtfDate>? On { get; init; }

    /// <summary>What happened; null only on a withdrawn record.</summary>
    public Stated<EventType>? What { get; init; }

    /// <summary>Ids of what it happened to.</summary>
    public ImmutableArray<Stated<string>> Of { get; init; } = [];

    /// <summary>Id of the hall it went to.</summary>
    public Stated<string>? ToHall { get; init; }

    /// <summary>Place within that hall, in words.</summary>
    public Stated<string>? ToPlace { get; init; }

    /// <summary>Who did it: keys of <c>people</c>.</summary>
    public ImmutableArray<Stated<string>> By { get; init; } = [];
}

/// <summary>What can happen to a frame or cable.</summary>
public enum EventType
{
    /// <summary>An end was freed.</summary>
    Disconnected,

    /// <summary>It was taken out.</summary>
    Removed,

    /// <summary>It was coiled and lashed to a frame.</summary>
    Coiled,

    /// <summary>It was cut.</summary>
    Severed,

    /// <summary>It was put on a lorry.</summary>
    Loaded,

    /// <summary>It came off a lorry.</summary>
    Arrived,

    /// <summary>It was stood in its place.</summary>
    Stood,

    /// <summary>It was connected again.</summary>
    Connected,

    /// <summary>It was looked over.</summary>
    Inspected,

    /// <summary>It was harmed.</summary>
    Damaged,

    /// <summary>It was looked for and not found.</summary>
    FoundMissing,
}
