using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>What every record has, whatever its kind.</summary>
public abstract record ArchiveRecord
{
    /// <summary>Its id, unique in the archive.</summary>
    public required string Id { get; init; }

    /// <summary>Where the id stands.</summary>
    public required SourceSpan IdSpan { get; init; }

    /// <summary>Where the record stands: its whole mapping, CSV row or file.</summary>
    public required SourceSpan Span { get; init; }

    public abstract RecordKind RecordKind { get; }

    /// <summary>Former ids, whose addresses forward to this record.</summary>
    public ImmutableArray<Stated<string>> Was { get; init; } = [];

    /// <summary>Why it was withdrawn; null while it stands.</summary>
    public Stated<string>? Withdrawn { get; init; }

    /// <summary>What people call it.</summary>
    public Stated<string>? Name { get; init; }

    /// <summary>Description, in Markdown.</summary>
    public Stated<string>? About { get; init; }

    /// <summary>Remark, in Markdown.</summary>
    public Stated<string>? Note { get; init; }

    /// <summary>Warnings about it that are not given: what they doubt is true.</summary>
    public ImmutableArray<AcceptedWarning> Accepts { get; init; } = [];

    /// <summary>Condition as found, in Markdown.</summary>
    public Stated<string>? Condition { get; init; }

    /// <summary>The name, or the id where it has none.</summary>
    public virtual string Title => Name?.Value ?? Id;

    /// <summary>Whether the record was withdrawn.</summary>
    public bool IsWithdrawn => Withdrawn is not null;
}

/// <summary>The folder of each kind, which is also the first part of its pages' addresses.</summary>
public static class RecordFolders
{
    /// <summary>Folder names in the order of <see cref="RecordKind"/>.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        "frames", "cables", "kinds", "trays", "units", "pieces", "boxes", "halls", "schemes", "displays", "photos", "documents", "events",
        "stories",
    ];

    /// <summary>The folder of a kind, such as <c>frames</c>.</summary>
    public static string Folder(this RecordKind kind) => All[(int)kind];

    /// <summary>What one record of the kind is called in a sentence, such as <c>frame</c>.</summary>
    public static string Noun(this RecordKind kind) => kind switch
    {
        RecordKind.CableKind => "cable kind",
        RecordKind.Box => "box",
        RecordKind.Story => "story",
        _ => Folder(kind)[..^1],
    };
}
