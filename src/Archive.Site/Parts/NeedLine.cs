using System.Collections.Immutable;
using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>One thing that is needed.</summary>
/// <param name="Says">How many of what; empty for a single frame.</param>
public sealed record NeedLine(string Says, ImmutableArray<RecordLink> Frames);
