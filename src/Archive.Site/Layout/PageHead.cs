using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Templates;
using Archive.Markup.Text;

namespace Archive.Site.Layout;

/// <summary>Title, address and the way to a page.</summary>
/// <param name="Template">Name of the page's template, without <c>.html</c>.</param>
/// <param name="Title">Its title, without the archive's.</param>
/// <param name="Description">One sentence on what it holds.</param>
/// <param name="Canonical">Its lasting address; empty where the archive has no base.</param>
/// <param name="Trail">The pages above it, outermost first, without the home page.</param>
public sealed record PageHead(string Template, string Title, string Description, string Canonical, ImmutableArray<Link> Trail)
{
    /// <summary>What the page is called where its trail ends: the id of a record, else the title.</summary>
    public string Here { get; init; } = Title;

    /// <summary>The path of the site on its host, for a page that is served at addresses other than its own; null for all others.</summary>
    public Href? Root { get; init; }

    /// <summary>The base of such a page, and the script that adjusts it to where the page is read; nothing on all others.</summary>
    public HtmlFragment Base => Root is { } root ? ContentSecurityPolicy.Base(root) : HtmlFragment.None;

    /// <summary>How the page is cited; null where it has no lasting address.</summary>
    public Citation? Citation { get; init; }

    /// <summary>What the page says of itself to programs, as JSON-LD; empty where it has no lasting address.</summary>
    public HtmlFragment Linked { get; init; } = HtmlFragment.None;
}
