using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Reading.Values;

/// <summary>What a single value can be: the reader, the schemas and the reference all take it from here.</summary>
/// <param name="Noun">What it is, for people: <c>a length with its unit</c>.</param>
public abstract record ValueFormat(string Noun)
{
    /// <summary>The only words that it can be; empty for any.</summary>
    public ImmutableArray<string> Words { get; init; } = [];

    /// <summary>
    /// A regular expression, as in ECMA-262, that every value fits; null for none. It may let through what the reader refuses, never the
    /// other way round.
    /// </summary>
    public string? Pattern { get; init; }

    /// <summary>What YAML may take it for, as JSON Schema names types.</summary>
    public ImmutableArray<string> JsonTypes { get; init; } = ["string"];

    /// <summary>How much each of its letters counts.</summary>
    internal Exactness Exactness { get; init; }

    /// <summary>The noun of the records whose id it is; null if it is none.</summary>
    public string? RecordNoun { get; init; }

    /// <summary>The kinds of the records whose id it is; empty if it is none.</summary>
    public ImmutableArray<RecordKind> RecordKinds { get; init; } = [];

    /// <summary>Whether it names someone of <c>people</c> in archive.yaml.</summary>
    public bool IsPerson { get; init; }

    /// <summary>Whether it is a date.</summary>
    public bool IsDate { get; init; }

    /// <summary>For numbers: the least.</summary>
    public double? Least { get; init; }

    /// <summary>For numbers: what it must be above.</summary>
    public double? Above { get; init; }

    /// <summary>For numbers: the most.</summary>
    public double? Most { get; init; }
}

/// <summary>What a single value can be, and how it is read.</summary>
/// <typeparam name="T">What it becomes.</typeparam>
internal sealed record ValueFormat<T>(string Noun, ReadValue<T> Read) : ValueFormat(Noun);
