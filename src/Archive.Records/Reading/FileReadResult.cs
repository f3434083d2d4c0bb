using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Model;

namespace Archive.Records.Reading;

/// <summary>What came of reading one file, or a stretch of it.</summary>
/// <param name="Statement">What archive.yaml says; null for any other file.</param>
/// <param name="Records">Its records in order.</param>
/// <param name="Diagnostics">What was wrong.</param>
internal sealed record FileReadResult(
    ArchiveStatement? Statement, ImmutableArray<ArchiveRecord> Records, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>The kinds of its records that have no id that can be used.</summary>
    public ImmutableArray<RecordKind> Unnamed { get; init; } = [];

    /// <summary>Nothing read, and something reported.</summary>
    /// <param name="told">What was wrong.</param>
    public static FileReadResult Only(params ReadOnlySpan<Diagnostic> told) => new(null, [], [.. told]);
}
