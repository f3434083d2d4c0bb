using System.Collections.Immutable;
using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Proposals;

/// <summary>A fact that a photo, a spreadsheet or a label says, before it is compared with the record.</summary>
public sealed record ProposedFact
{
    /// <summary>Kind of the record; null for <c>archive.yaml</c>.</summary>
    public required RecordKind? RecordKind { get; init; }

    /// <summary>Id of the record. If the archive has no such record, a new one is proposed.</summary>
    public required string RecordId { get; init; }

    /// <summary>Which fact: keys joined by full stops, such as <c>length</c>, <c>ends.1.at</c>, <c>positions.S7.holds</c>.</summary>
    public required string Key { get; init; }

    /// <summary>What it says, as it is to be written.</summary>
    public required FactValue Value { get; init; }

    /// <summary>How it is known; null for a bare value. Left out where the key takes no evidence.</summary>
    public FactEvidence? Evidence { get; init; }

    /// <summary>Whether the evidence itself is what is said, and not only how this came in: then it can replace other evidence.</summary>
    public bool IsEvidenceMeant { get; init; }

    /// <summary>
    /// What is decided and written with it, such as the box of what was read. Nothing that is recorded already is replaced.
    /// </summary>
    public ImmutableArray<FactAlong> Along { get; init; } = [];

    /// <summary>Whether it is only for gaps: where the record says something, that stays, with or without evidence.</summary>
    public bool OnlyAdds { get; init; }

    /// <summary>What else it may say, for a person to choose instead; null for nothing.</summary>
    public string? RunnerUp { get; init; }

    /// <summary>What helps to decide, such as what else may have been read; it is shown and never written. Null for none.</summary>
    public string? Hint { get; init; }

    /// <summary>Where it was found.</summary>
    public required ProposalOrigin Origin { get; init; }

    /// <summary>A comment behind a value that is added, such as <c>guessed from the file's name</c>; null for none.</summary>
    public string? Comment { get; init; }

    /// <summary>
    /// The file that a new record is written to, within the archive; it need not exist. Null for <c>FOLDER/added.yaml</c>.
    /// </summary>
    public string? File { get; init; }
}

/// <summary>A bare value that is written with a fact.</summary>
/// <param name="IsOfValue">Whether it is about the value, such as its probability: it is not written with another value.</param>
public sealed record FactAlong(string Key, FactValue Value, bool IsOfValue = false);
