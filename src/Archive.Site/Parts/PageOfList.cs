using System.Collections.Immutable;
using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>A sheet of a long list: which one, and the way to the others.</summary>
/// <param name="Number">Its number, from 1.</param>
/// <param name="Previous">The sheet before, or null; named by what it begins with.</param>
/// <param name="Next">The sheet after, or null; named likewise.</param>
/// <param name="Others">Links to sheets, named by what they begin with; all of a few, some of many.</param>
public sealed record PageOfList(int Number, int Count, Link? Previous, Link? Next, ImmutableArray<PageLink> Others)
{
    /// <summary>Ways down a sheet that is long, spread over it; empty for a short one.</summary>
    public ImmutableArray<Link> Jumps { get; init; } = [];
}

/// <summary>A link to a sheet.</summary>
/// <param name="Text">What it begins with.</param>
/// <param name="Href">Its page.</param>
/// <param name="IsThis">Whether it is the one being read.</param>
public sealed record PageLink(string Text, Href Href, bool IsThis);
