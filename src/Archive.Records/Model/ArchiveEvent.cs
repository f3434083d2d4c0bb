using System.Collections.Immutable;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>Something that happened since the machine was found.</summary>
public sealed record ArchiveEvent : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Event;

    /// <summary>When; null only on a withdrawn record.</summary>
    public Stated<EdtfDate>? On { get; init; }

    /// <summary>What happened; null only on a withdrawn record.</summary>
    public Stated<EventType>? What { get; init; }

    /// <summary>Ids of what it happened to as a whole.</summary>
    public ImmutableArray<Stated<string>> Of { get; init; } = [];

    /// <summary>Ends of cables that it happened to: <c>C-0424/R2-05</c>.</summary>
    public ImmutableArray<EventEnd> Ends { get; init; } = [];

    /// <summary>Ids of all that it happened to, as a whole or at an end; a cable once for each end.</summary>
    public IEnumerable<Stated<string>> Subjects => Ends.IsEmpty ? Of : Of.Concat(Ends.Select(end => end.Cable));

    /// <summary>Id of the hall it went to.</summary>
    public Stated<string>? ToHall { get; init; }

    /// <summary>Place within that hall, in words.</summary>
    public Stated<string>? ToPlace { get; init; }

    /// <summary>Id of the box that it was packed into.</summary>
    public Stated<string>? Into { get; init; }

    /// <summary>How long the crew worked at it: the pace of the rest is measured by it.</summary>
    public Stated<Duration>? Took { get; init; }

    /// <summary>Who did it: keys of <c>people</c>.</summary>
    public ImmutableArray<Stated<string>> By { get; init; } = [];
}

/// <summary>An end of a cable that an event happened to.</summary>
/// <param name="Cable">Id of the cable.</param>
/// <param name="At">The frame where the end is, or the place at it.</param>
public readonly record struct EventEnd(Stated<string> Cable, Stated<Address> At)
{
    /// <summary>As it is written.</summary>
    public string Text => $"{Cable.Value}/{At.Value}";
}
