using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Templates;
using Archive.Markup.Text;

namespace Archive.Site.Layout;

/// <summary>What every page's template is given as <c>page</c>.</summary>
public abstract record PageView(PageHead Head);

/// <summary>Title, address and the way to a page.</summary>
/// <param name="Template">Name of the page's template, without <c>.html</c>.</param>
/// <param name="Title">Its title, without the archive's.</param>
/// <param name="Description">One sentence on what it holds.</param>
/// <param name="Canonical">Its lasting address; empty where the archive has no base.</param>
/// <param name="Trail">The pages above it, outermost first, without the home page.</param>
public sealed record PageHead(string Template, string Title, string Description, string Canonical, ImmutableArray<Link> Trail)
{
    /// <summary>The path of the site on its host, for a page that is served at addresses other than its own; null for all others.</summary>
    public Href? Root { get; init; }

    /// <summary>The base of such a page, and the script that adjusts it to where the page is read; nothing on all others.</summary>
    public HtmlFragment Base => Root is { } root ? ContentSecurityPolicy.Base(root) : HtmlFragment.None;

    /// <summary>How the page is cited; null where it has no lasting address.</summary>
    public Citation? Citation { get; init; }

    /// <summary>What the page says of itself to programs, as JSON-LD; empty where it has no lasting address.</summary>
    public HtmlFragment Linked { get; init; } = HtmlFragment.None;
}

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
    public required ImmutableArray<Link> Ways { get; init; }

    /// <summary>The other lists, for the foot of each page.</summary>
    public required ImmutableArray<Link> Lists { get; init; }
}
