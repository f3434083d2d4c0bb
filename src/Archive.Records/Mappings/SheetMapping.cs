using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Records.Mappings;

/// <summary>How the rows of one sheet become records.</summary>
public sealed record SheetMapping
{
    /// <summary>Name of the sheet; null for the only one of the file.</summary>
    public string? Sheet { get; init; }

    /// <summary>The row of the heads, from 1; rows above it are passed over.</summary>
    public int Head { get; init; } = 1;

    /// <summary>What each row is.</summary>
    public required RecordKind Kind { get; init; }

    /// <summary>The file that new records are written to; null for <c>FOLDER/added.yaml</c>.</summary>
    public string? File { get; init; }

    /// <summary>How all facts of the sheet are known; null for bare values.</summary>
    public FactEvidence? Evidence { get; init; }

    public ImmutableArray<ColumnMapping> Columns { get; init; } = [];

    /// <summary>How ids are read that people write otherwise than the record: each rule means one id.</summary>
    public ImmutableArray<LabelScheme> Ids { get; init; } = [];

    /// <summary>How addresses are read that people write otherwise than the record: each rule means one address.</summary>
    public ImmutableArray<LabelScheme> Addresses { get; init; } = [];

    /// <summary>How ids of other records are read, of what a photo shows or an event is about: each rule means one id.</summary>
    public ImmutableArray<LabelScheme> Subjects { get; init; } = [];

    /// <summary>Where the mapping stands.</summary>
    public required SourceSpan Span { get; init; }
}

/// <summary>What a column says.</summary>
/// <param name="Key">Key of the record, such as <c>length</c>, <c>ends.1.at</c>; <c>ends</c> for all ends in one cell, separated by
/// semicolons; <c>size.width</c>, <c>size.depth</c>, <c>size.height</c> for sides in columns of their own.</param>
/// <param name="Span">Where it stands in the mapping.</param>
public sealed record ColumnMapping(string Key, SourceSpan Span)
{
    /// <summary>Its letters, such as <c>C</c>; null for a value that all new records have.</summary>
    public string? Column { get; init; }

    /// <summary>Its head, by which a column that moved is noticed; null for no check.</summary>
    public string? Head { get; init; }

    /// <summary>The unit of bare numbers; null for none.</summary>
    public string? Unit { get; init; }

    /// <summary>What new records say where no column does.</summary>
    public string? Value { get; init; }

    /// <summary>Which number of a date such as <c>3/4/2026</c> is the day; null if that is not known.</summary>
    public DateOrder? Dates { get; init; }

    /// <summary>What people write in its cells, and what the record says instead; upper and lower case are one.</summary>
    public ImmutableDictionary<string, string> Words { get; init; } = NoWords;

    private static ImmutableDictionary<string, string> NoWords { get; } =
        ImmutableDictionary.Create<string, string>(StringComparer.OrdinalIgnoreCase);

    /// <summary>A comment behind it: how sure a proposal is, and why.</summary>
    public string? Comment { get; init; }
}
