using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>All that was read, in file order and unjudged: duplicates and dangling references are still in it.</summary>
/// <param name="Statement">What archive.yaml says; null where it is missing or unreadable.</param>
/// <param name="Records">Every record that has a usable id, by path and offset.</param>
/// <param name="Diagnostics">What was wrong while reading, in <see cref="Diagnostic.Order"/>.</param>
public sealed record ParseResult(ArchiveStatement? Statement, ImmutableArray<ArchiveRecord> Records, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>The kinds of records that have no usable id, one entry a record.</summary>
    public ImmutableArray<RecordKind> Unnamed { get; init; } = [];
}
