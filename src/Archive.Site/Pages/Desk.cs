using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Site;

/// <summary>What every page is written at: the contents, what refers to what, and the makers of prose and figures.</summary>
internal sealed class Desk
{
    private readonly ImmutableArray<SiteView> _siteByDepth;

    /// <summary>Lays the desk.</summary>
    /// <param name="contents">All that the pages are made from.</param>
    public Desk(SiteContents contents)
    {
        Contents = contents;
        References = new CrossReferences(contents.Record);
        Prose = new Prose(contents.Record);
        Figures = new Figures(contents.Record);
        Rows = new RowMaker(this);
        Lists = new Lists(this);
        Lacks = new LackFinder(contents.Basis, References, contents.Findings);
        ReadyLabels = new ReadyLabels(contents.Record, contents.Errors);
        Plates = new Plates(this);
        Provenances = new Provenances(this);
        Labels = new LabelViews(this);
        EndPhotos = new EndPhotos(this);
        _siteByDepth = [.. Enumerable.Range(0, 6).Select(depth => SiteViews.Of(contents, new PagePlace(string.Concat(Enumerable.Repeat("a/", depth)) + "index.html")))];
    }

    /// <summary>All that the pages are made from.</summary>
    public SiteContents Contents { get; }

    /// <summary>The record.</summary>
    public AsFound Record => Contents.Record;

    /// <summary>What refers to what.</summary>
    public CrossReferences References { get; }

    /// <summary>Makes prose.</summary>
    public Prose Prose { get; }

    /// <summary>Makes figures.</summary>
    public Figures Figures { get; }

    /// <summary>Makes rows of tables.</summary>
    public RowMaker Rows { get; }

    /// <summary>The lists that pages link into.</summary>
    public Lists Lists { get; }

    /// <summary>Finds what the record lacks.</summary>
    public LackFinder Lacks { get; }

    /// <summary>Makes drawings.</summary>
    public Plates Plates { get; }

    /// <summary>Says where facts come from.</summary>
    public Provenances Provenances { get; }

    /// <summary>The QR labels that the site holds ready.</summary>
    public ReadyLabels ReadyLabels { get; }

    /// <summary>Says how labels read.</summary>
    public LabelViews Labels { get; }

    /// <summary>Finds what ends of cables look like.</summary>
    public EndPhotos EndPhotos { get; }

    /// <summary>A page that is made when its turn comes.</summary>
    /// <param name="path">Its path.</param>
    /// <param name="view">Makes what its template sees.</param>
    public SiteFile Page(string path, Func<PagePlace, PageView> view)
    {
        var depth = path.Count(c => c == '/');
        return new RenderedFile(path, () => Contents.Theme.Render("layout", view(new PagePlace(path)), _siteByDepth[depth]));
    }

    /// <summary>The head of a plan's page.</summary>
    /// <param name="kind">Which plan.</param>
    /// <param name="place">The page.</param>
    public PageHead PlanHead(PlanKind kind, PagePlace place) => Head(kind.Name, place, kind.Title, kind.Means, new Link("Plans", place.To("plans/index.html")));

    /// <summary>The head of a page.</summary>
    /// <param name="template">Name of its template.</param>
    /// <param name="place">The page.</param>
    /// <param name="title">Its title.</param>
    /// <param name="description">One sentence on what it holds.</param>
    /// <param name="trail">The pages above it.</param>
    public PageHead Head(string template, PagePlace place, string title, string description, params ImmutableArray<Link> trail)
    {
        var head = new PageHead(template, title, ProseText.OneLine(description), Permalink(place.Path), trail);
        if (head.Canonical.Length == 0 || template is "not-found" or "forward") return head;
        return head with
        {
            Citation = Citation.Of(Record.Statement, title, head.Canonical),
            Linked = LinkedData.Of(Record.Statement, head, place.Path, Permalink("index.html")),
        };
    }

    /// <summary>The lasting address of a page; empty where the archive has no base.</summary>
    /// <param name="path">The page's path.</param>
    public string Permalink(string path)
    {
        if (Record.Statement.Base is not { } site) return "";
        var folder = path.EndsWith("index.html", StringComparison.Ordinal) ? path[..^"index.html".Length] : path;
        return site.Value.AbsoluteUri.TrimEnd('/') + "/" + folder;
    }
}
