using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>A fact as the record states it: what, where it is written, and how it is known.</summary>
/// <typeparam name="T">What is stated.</typeparam>
/// <param name="Value">The value, in SI where it is a quantity.</param>
/// <param name="Span">Where the value stands; <see cref="SourceSpan.Text"/> is what the curator typed.</param>
/// <param name="Evidence">How it is known; null where it is stated bare.</param>
public readonly record struct Stated<T>(T Value, SourceSpan Span, Evidence? Evidence = null);

/// <summary>What a fact rests on, best first.</summary>
public enum EvidenceSource
{
    /// <summary>Read off a rating plate.</summary>
    Plate,

    /// <summary>Printed on the thing itself.</summary>
    Printed,

    /// <summary>Read in a photo, not at the thing itself.</summary>
    Photo,

    /// <summary>Taken from a drawing.</summary>
    Drawing,

    Measured,

    Estimated,

    /// <summary>Reported by someone.</summary>
    Told,
}
