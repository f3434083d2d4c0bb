using Archive.LabelSheets;
using Archive.Markup.Facts;
using Archive.Markup.Prose;
using Archive.Plans;
using Archive.Plans.Accounts;
using Archive.Plans.Boxes;
using Archive.Plans.Connections;
using Archive.Plans.Decabling;
using Archive.Plans.Floor;
using Archive.Plans.HandTags;
using Archive.Plans.Moving;
using Archive.Plans.Now;
using Archive.Plans.Progress;
using Archive.Plans.Reach;
using Archive.Plans.Reconnecting;
using Archive.Plans.Sets;
using Archive.Plans.Survey;
using Archive.Plans.Whereabouts;
using Archive.Records.References;
using Archive.Site.Contents;
using Archive.Site.Iiif;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Pages;
using Archive.Site.Parts;
using Archive.Site.PhotoPlaces;
using Archive.Site.PlanPages;
using Archive.Storage.Output;

namespace Archive.Site;

/// <summary>
/// The builders of all pages, each given what it needs. This is the one place where they are put together; no builder is handed this.
/// </summary>
internal sealed class PageBuilders
{
    private readonly Func<Plan, IEnumerable<OutputFile>> _pagesOf;
    private readonly Lazy<PreparedLabels> _readyLabels;
    private readonly Lazy<PreparedSubjects> _readySubjects;
    private readonly Lazy<GapsPages> _gaps;
    private readonly Lazy<LabelPages> _labels;

    /// <summary>Puts them together. What looks through the whole record is made when a page needs it.</summary>
    public PageBuilders(SiteContents site)
    {
        var record = site.Record;
        var references = new CrossReferences(record);
        var prose = new ProseRenderer(record);
        var formatter = new FactFormatter(record);
        var units = site.Basis.Units;
        var unitRows = new UnitRows(site, units);
        var lacks = new GapFinder(site.Basis, references, site.Findings);
        var pages = new PageFactory(site);
        var outlines = new PhotoOutlines(site);
        var rows = new RowBuilder(site, references, prose, formatter, outlines);
        var sequence = new PhotoSequence(site);
        var pairs = new PhotoPairBuilder(sequence, rows);
        _readyLabels = new(() => new PreparedLabels(record, site.Errors));
        Lists = new SharedIndexes(
            pages,
            new(() => new FrameIndexes(site, references, pages, formatter)),
            new(() => new CableIndexes(site, pages, rows, new CableFilterFile(site, formatter))));
        var drawings = new PageDrawings(site, formatter, Lists, _readyLabels);
        var provenances = new ProvenanceBuilder(pages, formatter, drawings, _readyLabels, rows);
        var labelViews = new LabelViewBuilder(site, prose, rows);

        var stepLists = new StepListPages(record, pages);

        Home = new HomePages(site, pages, prose, rows, drawings);
        bool IsListedAlone(string frame) => ((DecablingPlan)site.Plans[DecablingPlan.Kind]).ListOf(frame) is not null;
        var status = new Lazy<RecordStatus>(() => new RecordStatus(site.Basis, site.Basis.TakingOut, site.Basis.Connecting));
        Frames = new FramePages(
            site,
            references,
            pages,
            prose,
            formatter,
            rows,
            Lists,
            drawings,
            provenances,
            lacks,
            status,
            IsListedAlone,
            units,
            unitRows,
            pairs);
        Cables = new CablePages(
            site,
            references,
            pages,
            prose,
            formatter,
            rows,
            drawings,
            provenances,
            lacks,
            labelViews,
            new EndPhotoBuilder(site, references, rows, sequence),
            new CableNeighbours(site, rows),
            status);
        Photos = new PhotoPages(site, pages, prose, formatter, rows, labelViews, provenances, outlines, sequence, pairs);
        Trays = new TrayPages(site, pages, prose, formatter, rows, Lists, drawings, provenances, lacks);
        Units = new UnitPages(site.Graph, references, units, unitRows, pages, prose, formatter, rows, provenances);
        Pieces = new PiecePages(site, references, pages, prose, formatter, rows, provenances);
        Documents = new DocumentPages(site, pages, prose, formatter, rows, provenances);
        var boxRows = new BoxRows(site, formatter);
        Boxes = new BoxPages(site, references, pages, prose, formatter, rows, boxRows, provenances);
        Halls = new HallPages(site, pages, prose, formatter, rows, drawings, provenances);
        Schemes = new SchemePages(site, pages, prose, provenances, labelViews);
        Stories = new StoryPages(record, pages, prose, provenances);
        Displays = new DisplayPages(site, pages, prose, rows, provenances);
        Kinds = new KindPages(references, pages, prose, formatter, Lists, provenances);
        Events = new EventPages(pages, prose, rows, provenances);
        Plain = new PlainPages(site, references, pages, prose, formatter, rows, provenances);
        Format = new FormatPages(pages, prose);
        RecordIndexes = new RecordIndexes(site, references, units, pages, formatter, rows);
        _gaps = new(() => new GapsPages(site, pages, lacks, stepLists));
        _readySubjects = new(() => new PreparedSubjects(
            record,
            new LabelWriter(record, site.Readings, ((HandTagsPlan)site.Plans[HandTagsPlan.Kind]).Tags),
            site.Errors,
            ReadyLabels.Codes));
        _labels = new(() => new LabelPages(record, pages, ReadyLabels, ReadySubjects));
        Iiif = () => IiifFiles.Create(site, references, pages);
        Data = new DataPages(site, pages);

        _pagesOf = plan => plan switch
        {
            NowPlan now => new NowPages(record, pages, rows, now).All(),
            HandTagsPlan tags => new HandTagPages(record, pages, prose, rows, labelViews, tags, stepLists).All(),
            WorkingSetsPlan sets =>
                new WorkingSetPages(site, pages, prose, formatter, rows, drawings, plan.Kind).All(sets.Sets, plan.Summary),
            DecablingPlan decabling => new CrewSheetPages(record, pages, formatter, rows, decabling, stepLists).All(),
            PackingPlan packing => new PackingPages(site, pages, formatter, rows, boxRows, packing).All(),
            AccountingPlan accounts => new AccountingPages(site, pages, rows, accounts).All(),
            MovingPlan loads => new MovingPages(pages, formatter, drawings, loads, stepLists).All(),
            FloorLoadsPlan floor => new FloorPages(site, pages, formatter, plan.Kind, plan.Summary).All(floor.Halls, floor.Feeders),
            ReachPlan reach => new ReachPages(site, pages, formatter, rows, drawings, plan.Kind, plan.Summary).All(reach.Halls),
            ReconnectionPlan lists => new ReconnectionPages(record, references, pages, formatter, rows, sequence, lists, stepLists).All(),
            WhereaboutsPlan whereabouts => new WhereaboutsPages(record, pages, rows, plan.Kind, plan.Summary).All(whereabouts.All),
            WiringPlan wiring => new WiringPages(pages, rows, Lists, wiring).All(),
            _ => throw new InvalidOperationException($"the plan {plan.Kind.Name} has no pages"),
        };
    }

    public HomePages Home { get; }

    public FramePages Frames { get; }

    public CablePages Cables { get; }

    public PhotoPages Photos { get; }

    public TrayPages Trays { get; }

    /// <summary>Pages of plug-in units.</summary>
    public UnitPages Units { get; }

    /// <summary>Pages of pieces that were taken off.</summary>
    public PiecePages Pieces { get; }

    public DocumentPages Documents { get; }

    public BoxPages Boxes { get; }

    public HallPages Halls { get; }

    /// <summary>Pages of label schemes.</summary>
    public SchemePages Schemes { get; }

    public StoryPages Stories { get; }

    public DisplayPages Displays { get; }

    /// <summary>Pages of kinds of cable.</summary>
    public KindPages Kinds { get; }

    public EventPages Events { get; }

    /// <summary>Search, plans, not found; withdrawn and renamed records.</summary>
    public PlainPages Plain { get; }

    /// <summary>What programs and spreadsheets can read.</summary>
    public DataPages Data { get; }

    /// <summary>How the record is written.</summary>
    public FormatPages Format { get; }

    /// <summary>Lists of frames and cables.</summary>
    public SharedIndexes Lists { get; }

    /// <summary>Lists of all other records.</summary>
    public RecordIndexes RecordIndexes { get; }

    /// <summary>What is still to be recorded.</summary>
    public GapsPages Lacks => _gaps.Value;

    /// <summary>The pages that lead to labels.</summary>
    public LabelPages Labels => _labels.Value;

    /// <summary>The labels of cables, coils, trays and doors that the site holds ready.</summary>
    public PreparedSubjects ReadySubjects => _readySubjects.Value;

    /// <summary>The QR labels that the site holds ready.</summary>
    public PreparedLabels ReadyLabels => _readyLabels.Value;

    /// <summary>What IIIF viewers read.</summary>
    public Func<IEnumerable<OutputFile>> Iiif { get; }

    /// <summary>The pages of a plan.</summary>
    /// <exception cref="InvalidOperationException">The plan has no pages.</exception>
    public IEnumerable<OutputFile> PagesOf(Plan plan) => _pagesOf(plan);
}
