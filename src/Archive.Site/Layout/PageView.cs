using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;

namespace Archive.Site.Layout;

/// <summary>What every page's template is given as <c>page</c>.</summary>
public abstract record PageView(PageHead Head);

/// <summary>What every page's template is given as <c>site</c>: the same for all pages of one depth.</summary>
public sealed record SiteView
{
    /// <summary>The archive's title.</summary>
    public required string Title { get; init; }

    /// <summary>Who keeps it; empty where that is not said.</summary>
    public required string Custodian { get; init; }

    /// <summary>When the as-found state was recorded; empty where that is not said.</summary>
    public required string AsFound { get; init; }

    /// <summary>Whom to credit; empty where that is not said.</summary>
    public required string Credit { get; init; }

    /// <summary>The licence, with a link to its text where one is known; null where none is stated.</summary>
    public required FactLine? Licence { get; init; }

    /// <summary>BCP 47 language of the record's prose.</summary>
    public required string Language { get; init; }

    /// <summary>Errors that the site is published with.</summary>
    public required int Errors { get; init; }

    /// <summary>The site's folder.</summary>
    public required Href Root { get; init; }

    public required Href Home { get; init; }

    /// <summary>The search page.</summary>
    public required Href Search { get; init; }

    /// <summary>The page of what is still to be recorded.</summary>
    public required Href Lacks { get; init; }

    /// <summary>The feed of what happened; null where the archive has no base.</summary>
    public required Href? Feed { get; init; }

    /// <summary>The folder of the theme's assets, without a slash at its end.</summary>
    public required Href Assets { get; init; }

    /// <summary>
    /// The style sheet that says as of when the record is, for print: one file, so that a new event changes no other page.
    /// </summary>
    public required Href AsOf { get; init; }

    /// <summary>The ways in, for the head of each page.</summary>
    public required ImmutableArray<SectionLink> Ways { get; init; }

    /// <summary>The other lists, for the head of each page.</summary>
    public required ImmutableArray<SectionLink> Lists { get; init; }

    /// <summary>What is no list: labels to print, data and the like, for the foot of each page.</summary>
    public required ImmutableArray<SectionLink> Extras { get; init; }
}

/// <summary>A link to a section of the site.</summary>
/// <param name="Current">What <c>aria-current</c> says of it: <c>page</c> on its first page, <c>true</c> on every other page of the
/// section; empty elsewhere.</param>
public sealed record SectionLink(string Text, Href Href, string Current);
