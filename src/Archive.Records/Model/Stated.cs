using Archive.Diagnostics;
using Archive.Records.Terms;

namespace Archive.Records.Model;

/// <summary>A fact as the record states it: what, where it is written, and how it is known.</summary>
/// <typeparam name="T">What is stated.</typeparam>
/// <param name="Value">The value, in SI where it is a quantity.</param>
/// <param name="Span">Where the value stands; <see cref="SourceSpan.Text"/> is what the curator typed.</param>
/// <param name="Evidence">How it is known; null where it is stated bare.</param>
public readonly record struct Stated<T>(T Value, SourceSpan Span, Evidence? Evidence = null);

/// <summary>How a fact is known: <c>{is: …, from: …, by: …, on: …, note: …}</c>.</summary>
public sealed record Evidence
{
    /// <summary>What it rests on.</summary>
    public Stated<EvidenceSource>? From { get; init; }

    /// <summary>Who says so: a key of <c>people</c> in archive.yaml.</summary>
    public Stated<string>? By { get; init; }

    /// <summary>When it was established.</summary>
    public Stated<EdtfDate>? On { get; init; }

    /// <summary>A remark, in Markdown.</summary>
    public Stated<string>? Note { get; init; }
}

/// <summary>What a fact rests on, best first.</summary>
public enum EvidenceSource
{
    /// <summary>Read off a rating plate.</summary>
    Plate,

    /// <summary>Printed on the thing itself.</summary>
    Printed,

    /// <summary>Taken from a drawing.</summary>
    Drawing,

    Measured,

    Estimated,

    /// <summary>Reported by someone.</summary>
    Told,
}
