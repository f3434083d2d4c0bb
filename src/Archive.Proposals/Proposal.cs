using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Records.Facts;

namespace Archive.Proposals;

/// <summary>How a proposed fact compares with the record.</summary>
public enum ProposalKind
{
    /// <summary>The record does not say it yet.</summary>
    New,

    /// <summary>The record says the same. Accepting it can add evidence to a bare value.</summary>
    Confirmation,

    /// <summary>The record says something else, without evidence.</summary>
    Correction,

    /// <summary>The record says something else with evidence, or two proposals say different things: a person must decide.</summary>
    Contradiction,

    /// <summary>It cannot be written: <see cref="Proposal.Why"/> says why.</summary>
    Unplaced,
}

/// <summary>What the record says now.</summary>
/// <param name="Text">What it says.</param>
/// <param name="Span">Where.</param>
/// <param name="Evidence">How it is known; empty for a bare value.</param>
public sealed record CurrentFact(string Text, SourceSpan Span, FactEvidence Evidence);

/// <summary>A fact that can be accepted, rejected or left for later.</summary>
public sealed record Proposal
{
    /// <summary>Unique in its list, and the same when the input is read again: <c>C-0417:length</c>.</summary>
    public string Id => Copy == 1
        ? $"{Fact.RecordId}:{Fact.Key}"
        : string.Create(CultureInfo.InvariantCulture, $"{Fact.RecordId}:{Fact.Key}#{Copy}");

    /// <summary>Which of the proposals for this fact it is, from 1.</summary>
    public int Copy { get; init; } = 1;

    public required ProposalKind Kind { get; init; }

    /// <summary>What is proposed. Its key names the end of a cable as the record numbers it.</summary>
    public required ProposedFact Fact { get; init; }

    /// <summary>All places where it was found.</summary>
    public required ImmutableArray<ProposalOrigin> Origins { get; init; }

    /// <summary>The file it is written to, within the archive; null if it cannot be placed.</summary>
    public string? File { get; init; }

    /// <summary>What the record says now; null if it says nothing.</summary>
    public CurrentFact? Current { get; init; }

    /// <summary>Why it is a contradiction or cannot be placed; a sentence without capital and full stop. Null for other kinds.</summary>
    public string? Why { get; init; }

    /// <summary>How many marked parts its photo has in the record: new ones are counted on from there.</summary>
    public int PartsBefore { get; init; }

    /// <summary>Whether the record itself is new.</summary>
    public bool IsNewRecord { get; init; }

    /// <summary>Whether accepting it changes the record.</summary>
    public bool IsChange { get; init; }

    /// <summary>Whether it was rejected before.</summary>
    public bool IsRejected { get; init; }

    /// <summary>Whether it waits for a decision.</summary>
    public bool IsOpen => IsChange && !IsRejected;
}
