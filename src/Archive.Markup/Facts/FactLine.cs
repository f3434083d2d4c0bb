using Archive.Markup.Links;

namespace Archive.Markup.Facts;

/// <summary>A line of a record's facts.</summary>
/// <param name="Name">What the fact is about.</param>
/// <param name="Figure">The fact.</param>
/// <param name="Href">Where it leads, or null.</param>
public sealed record FactLine(string Name, FactText Figure, Href? Href = null);
