namespace Archive.Markup.Links;

/// <summary>A link.</summary>
/// <param name="Text">What is read.</param>
/// <param name="Href">Where it leads; null for what the record names but does not hold.</param>
public sealed record Link(string Text, Href? Href);
