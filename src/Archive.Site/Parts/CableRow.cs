using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>A cable as a line of a table.</summary>
/// <param name="Label">What is printed on it, exactly as written; empty without one.</param>
/// <param name="Kind">Its kind; null where that is not known.</param>
/// <param name="Ends">Its ends; at a frame, the one here first.</param>
/// <param name="Fate">What becomes of it; empty where nothing is said.</param>
public sealed record CableRow(RecordLink Cable, string Label, Link? Kind, ImmutableArray<EndPlace> Ends, FactText Length, string Fate)
{
    /// <summary>Anchor of the first row of a position; empty on all others.</summary>
    public string Anchor { get; init; } = "";

    /// <summary>Anchor of the first row of a port; empty on all others.</summary>
    public string PortAnchor { get; init; } = "";
}
