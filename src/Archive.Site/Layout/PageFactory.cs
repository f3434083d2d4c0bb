using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Templates;
using Archive.Plans;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Storage.Output;

namespace Archive.Site.Layout;

/// <summary>Makes pages, and says what stands in their heads.</summary>
internal sealed class PageFactory
{
    private readonly SiteContents _site;
    private readonly ArchiveStatement _statement;
    private readonly Theme _theme;

    // What all pages of one depth in one section share: some dozens, however many pages there are.
    private readonly ConcurrentDictionary<(int Depth, string Section, bool IsFirst), SiteView> _shared = new();

    /// <param name="site">All that pages are made from.</param>
    public PageFactory(SiteContents site) => (_site, _statement, _theme) = (site, site.Record.Statement, site.Theme);

    /// <summary>A page that is made when its turn comes.</summary>
    /// <param name="view">Makes what its template sees.</param>
    public OutputFile Page(string path, Func<PageLocation, PageView> view)
    {
        return new RenderedFile(path, () =>
        {
            var page = view(new PageLocation(path));
            return _theme.RenderPage(page, SharedBy(path), page.Head.Root is not null);
        });
    }

    private SiteView SharedBy(string path)
    {
        var section = SiteViewBuilder.SectionOf(path);
        return _shared.GetOrAdd(
            (path.Count(c => c == '/'), section, path.Length == section.Length + "/index.html".Length),
            static (key, of) => SiteViewBuilder.Create(of._site, new PageLocation(of.path), key.Section, key.IsFirst),
            (_site, path));
    }

    /// <summary>The head of a plan's page.</summary>
    public PageHead PlanHead(PlanKind kind, PageLocation location) =>
        Head(kind.Name, location, kind.Title, kind.Means, new Link("Plans", location.To("plans/index.html")));

    /// <param name="template">Name of its template.</param>
    /// <param name="description">One sentence on what it holds.</param>
    /// <param name="trail">The pages above it.</param>
    public PageHead Head(string template, PageLocation location, string title, string description, params ImmutableArray<Link> trail)
    {
        var head = new PageHead(template, title, Phrase.OneLine(description), Permalink(location.Path), trail)
        {
            Here = template is "frame" or "cable" or "tray" or "unit" or "photo" or "event" or "piece" or "box"
                ? LinkedData.IdOf(location.Path) ?? title
                : title,
        };
        if (head.Canonical.Length == 0 || template is "not-found" or "forward") return head;
        return head with
        {
            Citation = Citation.Create(_statement, title, head.Canonical),
            Linked = LinkedData.Create(_statement, head, location.Path, Permalink("index.html")),
        };
    }

    /// <summary>The lasting address of a page; empty where the archive has no base.</summary>
    /// <param name="path">The page's path.</param>
    public string Permalink(string path)
    {
        if (_statement.Base is not { } site) return "";
        var folder = path.EndsWith("index.html", StringComparison.Ordinal) ? path[..^"index.html".Length] : path;
        return site.Value.AbsoluteUri.TrimEnd('/') + "/" + folder;
    }
}
