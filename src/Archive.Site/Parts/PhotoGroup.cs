using System.Collections.Immutable;

namespace Archive.Site.Parts;

/// <summary>Photos of one view.</summary>
/// <param name="View">The view; empty where it is not said.</param>
public sealed record PhotoGroup(string View, ImmutableArray<Thumbnail> Photos);
