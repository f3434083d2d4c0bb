using Archive.Markup.Facts;
using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>Where an end of a cable is.</summary>
/// <param name="Text">The address, or the words that say it is not known.</param>
/// <param name="Local">The address on its own frame: position and port.</param>
/// <param name="Href">The frame's page at that position; null where there is none.</param>
/// <param name="FrameName">What people call the frame; empty where it has no name.</param>
/// <param name="Mark">What it rests on, where it was not seen itself.</param>
/// <param name="IsKnown">Whether the place is known.</param>
public sealed record EndPlace(string Text, string Local, Href? Href, string FrameName, EvidenceMark? Mark, bool IsKnown);
