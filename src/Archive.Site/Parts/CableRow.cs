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
}

/// <summary>Where an end of a cable is.</summary>
/// <param name="Text">The address, or the words that say it is not known.</param>
/// <param name="Local">The address on its own frame: position and port.</param>
/// <param name="Href">The frame's page at that position; null where there is none.</param>
/// <param name="FrameName">What people call the frame; empty where it has no name.</param>
/// <param name="Mark">What it rests on, where it was not seen itself.</param>
/// <param name="IsKnown">Whether the place is known.</param>
public sealed record EndPlace(string Text, string Local, Href? Href, string FrameName, EvidenceMark? Mark, bool IsKnown);
