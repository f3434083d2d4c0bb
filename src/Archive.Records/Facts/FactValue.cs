using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Records.Facts;

/// <summary>What a fact says, before it is written: a text, a list or a mapping.</summary>
public abstract record FactValue
{
    /// <summary>What it says in one line, as <see cref="RawFact.Text"/> has it: items of a list are joined by commas.</summary>
    public abstract string Text { get; }

    /// <summary>A single value.</summary>
    public static FactValue Of(string text) => new SingleFact(text);

    /// <summary>A list of single values.</summary>
    public static FactValue ListOf(IEnumerable<string> items) => new FactList([.. items.Select(Of)]);

    public sealed override string ToString() => Text;
}

/// <summary>A single value.</summary>
public sealed record SingleFact(string Value) : FactValue
{
    public override string Text => Value.Trim();
}

/// <summary>A list.</summary>
public sealed record FactList(ImmutableArray<FactValue> Items) : FactValue
{
    public override string Text => string.Join(", ", Items.Select(item => item is SingleFact ? item.Text : $"[{item.Text}]"));

    /// <summary>Whether it is one fact: single values, or lists of them, such as points.</summary>
    public bool IsPlain => Items.All(item => item is SingleFact || (item is FactList list && list.Items.All(inner => inner is SingleFact)));

    public bool Equals(FactList? other) => other is not null && Items.SequenceEqual(other.Items);

    public override int GetHashCode() => Items.Length;
}

/// <summary>Keys with values.</summary>
public sealed record FactMapping(ImmutableArray<FactEntry> Entries) : FactValue
{
    public override string Text => string.Join(", ", Entries.Select(entry => $"{entry.Key}: {entry.Value.Text}"));

    public bool Equals(FactMapping? other) => other is not null && Entries.SequenceEqual(other.Entries);

    public override int GetHashCode() => Entries.Length;
}

/// <summary>A key with its value.</summary>
/// <param name="Comment">A comment behind it, which a curator may delete; null for none.</param>
public readonly record struct FactEntry(string Key, FactValue Value, string? Comment = null);

/// <summary>How a fact is known, before it is written: <see cref="Evidence"/> without places.</summary>
/// <param name="By">Who says so: a key of <c>people</c> in archive.yaml, or a name.</param>
/// <param name="On">When it was established, in EDTF.</param>
/// <param name="Note">A remark, in Markdown.</param>
public sealed record FactEvidence(EvidenceSource? From = null, string? By = null, string? On = null, string? Note = null)
{
    /// <summary>Whether it says nothing.</summary>
    public bool IsEmpty => From is null && By is null && On is null && Note is null;

    /// <summary>Its keys as they are written, in their usual order.</summary>
    public IEnumerable<(string Key, string Value)> Entries
    {
        get
        {
            if (From is { } from) yield return ("from", Word(from));
            if (By is not null) yield return ("by", By);
            if (On is not null) yield return ("on", On);
            if (Note is not null) yield return ("note", Note);
        }
    }

    /// <summary>A source as it is written.</summary>
    public static string Word(EvidenceSource source) => source.ToString().ToLowerInvariant();
}

/// <summary>A fact to be written into a record.</summary>
/// <param name="Key">Which: keys joined by full stops, such as <c>length</c>, <c>ends.1.at</c>, <c>positions.S7.holds</c>.</param>
/// <param name="Evidence">How it is known; null for a bare value.</param>
/// <param name="Comment">A comment behind it; null for none.</param>
public sealed record FactToWrite(string Key, FactValue Value, FactEvidence? Evidence = null, string? Comment = null);
