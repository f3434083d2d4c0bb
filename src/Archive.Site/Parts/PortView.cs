using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>A port in the list of a position's ports.</summary>
/// <param name="State">What is known of it, in a word: <c>free</c>, <c>used</c>, <c>unseen</c>, <c>disputed</c> or <c>done</c>.</param>
/// <param name="Says">The same in words.</param>
/// <param name="Far">Where its cable goes; empty for a free port.</param>
/// <param name="Href">Its line in the table of cables, or the sheet that holds it; null for a free port.</param>
public sealed record PortView(string Name, string State, string Says, string Far, Href? Href);
