using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text;
using Archive.Drawings.Frames;
using Archive.Drawings.Halls;
using Archive.Drawings.QrCodes;
using Archive.Drawings.Sheets;
using Archive.Drawings.Trays;
using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Halls.Trays;
using Archive.Halls.Views;
using Archive.LabelSheets;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Site.Contents;
using Archive.Storage.Output;

namespace Archive.Site.Indexes;

/// <summary>The drawings as pages want them.</summary>
/// <param name="lists">The lists that pages link into.</param>
/// <param name="readyLabels">The QR labels that the site holds ready.</param>
internal sealed class PageDrawings(SiteContents site, FactFormatter formatter, SharedIndexes lists, Lazy<PreparedLabels> readyLabels)
{
    // A small plan draws its whole hall. In a great record that would be drawn on a hundred thousand pages: beyond so many strokes in all,
    // pages go without, and lead to the hall's own plan.
    private const long MostStrokes = 2_000_000;

    private DisplayUnits Units => formatter.Text.Units;

    /// <summary>A frame's face with its positions, each leading to its line of the table; none without positions.</summary>
    /// <param name="slots">What is in each slot of a position.</param>
    public HtmlFragment Elevation(Frame frame, Func<Position, ImmutableArray<SlotContent>> slots) => frame.Positions.Length == 0
        ? HtmlFragment.None
        : FrameElevation.Draw(
            frame,
            new FrameElevationOptions
            {
                Href = position => Href.Here(PagePaths.PositionAnchor(position.Id.Value)).Value,
                Units = Units,
                Slots = slots,
            });

    /// <summary>A frame's front or rear as large as the page allows; none where its size or the heights of its positions are not
    /// recorded.</summary>
    /// <param name="isRear">Whether it is seen from behind.</param>
    public HtmlFragment Face(
        Frame frame, Func<Position, ImmutableArray<FacePort>> ports, Func<Position, ImmutableArray<FaceSlot>> slots, bool isRear) =>
        FrameFace.Draw(frame, new FrameFaceOptions
        {
            IsRear = isRear,
            Href = position => Href.Here(PagePaths.PositionAnchor(position.Id.Value)).Value,
            Ports = ports,
            Slots = slots,
            Units = Units,
        });

    /// <summary>A frame among its neighbours, seen from the front.</summary>
    public static HtmlFragment Neighbours(FramePlacement placement, PageLocation location) =>
        RowStrip.Draw(placement, frame => location.To(frame).Value);

    /// <summary>A small plan with one frame marked; none in a great record.</summary>
    public HtmlFragment WhereStands(FramePlacement placement, PageLocation location) =>
        Inset(placement.Layout, location, placement.Placed.Frame.Id, []);

    /// <summary>A small plan with one tray marked; none in a great record.</summary>
    public HtmlFragment WhereHangs(Tray tray, Hall hall, PageLocation location) =>
        site.HallLayouts.ByHall.TryGetValue(hall.Id, out var layout) ? Inset(layout, location, tray.Id, []) : HtmlFragment.None;

    /// <summary>A tray in cross-section, with what lies in it.</summary>
    public HtmlFragment Section(TrayContents contents, PageLocation location) => TraySection.Draw(contents, new TraySectionOptions
    {
        Href = cable => location.To(cable).Value,
        Units = Units,
        Limit = site.Record.Statement.FillLimit?.Value,
    });

    /// <summary>A tray in cross-section at a place along it.</summary>
    public HtmlFragment Section(TrayStation station, string title) => TraySection.Draw(station.Contents, new TraySectionOptions
    {
        Title = title,
        Units = Units,
        Limit = site.Record.Statement.FillLimit?.Value,
    });

    /// <summary>How many cables lie along a tray.</summary>
    public HtmlFragment Profile(TraySpans spans, ImmutableArray<TrayStation> stations) => TrayProfile.Draw(spans, stations, Units);

    /// <summary>A cable's way through the hall; none where its trays are not known, or in a great record.</summary>
    public HtmlFragment Route(Cable cable, PageLocation location) =>
        Ways.HallOf(cable) is { } layout && !IsTooMuch(layout) && Ways.In(layout, cable).Ways is [var longest, .. var tails]
            ? Inset(layout, location, null, longest.Line, tails)
            : HtmlFragment.None;

    /// <summary>Where cables run.</summary>
    public CableWays Ways { get; } = new(site);

    /// <summary>The script with the ways of all cables in a hall, for plans that show them; null where there is none.</summary>
    public Href? WaysIn(HallLayout layout, PageLocation location) =>
        HallWaysFile.PathOf(layout, site.Record) is { } path ? location.To(path) : null;

    /// <summary>What plans of a hall can show of its frames.</summary>
    public ImmutableArray<NamedLayer> LayersOf(HallLayout layout) => PlanLayers.Of(layout, site, Units);

    /// <summary>A hall's floor plan.</summary>
    /// <param name="layout">The hall set out.</param>
    public HtmlFragment Plan(HallLayout layout, PageLocation location) =>
        Plan(layout, location, options => options with { Signs = SignsIn(layout) });

    // Where it was found everything stood, and what belongs to others still does; elsewhere a plan says what is there.
    private FrozenDictionary<string, FrameSign> SignsIn(HallLayout layout) =>
        layout.PlacedFrames.Select(placed => placed.Frame).DistinctBy(frame => frame.Id)
            .Where(frame => layout != site.HallLayouts.AsFound || frame.Owner is not null)
            .ToFrozenDictionary(
                frame => frame.Id,
                frame => frame.Owner is not null ? FrameSign.NotOurs : SignOf(frame.Id, layout.Hall),
                StringComparer.Ordinal);

    private FrameSign SignOf(string frame, Hall hall)
    {
        var progress = site.Basis.Progress;
        if (progress.JourneyOf(frame) is not { } journey || journey.Hall != hall.Id) return FrameSign.Planned;
        if (!progress.IsInPlace(frame)) return FrameSign.Arrived;
        return site.Graph.At(frame).Any(end => progress.IsConnectedAt(end.Cable, frame)) ? FrameSign.Connected : FrameSign.Standing;
    }

    /// <summary>A hall's floor plan with something shown on it.</summary>
    /// <param name="layout">The hall set out.</param>
    /// <param name="show">Adds what is shown.</param>
    public HtmlFragment Plan(HallLayout layout, PageLocation location, Func<FloorPlanOptions, FloorPlanOptions> show) =>
        FloorPlan.Draw(layout, show(Options(location) with
        {
            RowHref = row => lists.Frames.RowHref(row, location)?.Value ?? location.To(layout.Hall).Value,
        }));

    /// <summary>The page on which a hall is drawn from above one of its corners; null where it holds nothing, or too much.</summary>
    public static string? ViewOf(HallLayout layout) =>
        layout.PlacedFrames.Length > 0
        && layout.PlacedFrames.Length + layout.Trays.Sum(tray => (long)tray.Path.Length) <= VisibleFaces.MostSolids
            ? $"halls/{layout.Hall.Id}/view/index.html"
            : null;

    /// <summary>The way to that page with a cable drawn; null where there is none.</summary>
    public Link? InHall(Cable cable, PageLocation location) =>
        Ways.HallOf(cable) is { } layout && HallWaysFile.PathOf(layout, site.Record) is not null && ViewOf(layout) is { } view
            ? new Link("See it in the hall", location.To(view).Showing(cable.Id))
            : null;

    /// <summary>A hall from above one of its corners; none for one in which nothing has a place, or too much.</summary>
    public static HtmlFragment FromCorner(HallLayout layout, PageLocation location) =>
        IsometricView.Draw(layout, record => location.To(record).Value);

    /// <summary>A hall's floor plan as a sheet that hangs on a wall.</summary>
    /// <param name="trays">Ids of the trays that are shown; null for all.</param>
    public HtmlFragment OnWall(
        HallLayout layout, PaperFormat paper, WallSheetText text, FrozenSet<string>? trays, PageLocation location) =>
        HallSheet.Draw(
            layout,
            Options(location) with
            {
                RowHref = row => lists.Frames.RowHref(row, location)?.Value ?? location.To(layout.Hall).Value,
                Signs = SignsIn(layout),
                OnlyTrays = trays,
            },
            paper,
            text);

    /// <summary>
    /// A small plan with the way of a cable in a hall where it may stand again; none where it has no route, or in a great record.
    /// </summary>
    public HtmlFragment Route(HallReach reach, CableReach cable, PageLocation location) =>
        !IsTooMuch(reach.Layout) && reach.RouteOf(cable) is { } route ? Inset(reach.Layout, location, null, route.Line) : HtmlFragment.None;

    /// <summary>An address as a QR code.</summary>
    public HtmlFragment Qr(string address) => QrDrawing.Draw(address, readyLabels.Value.Code(address));

    private FloorPlanOptions Options(PageLocation location) => new() { Href = record => location.To(record).Value, Units = Units };

    private HtmlFragment Inset(
        HallLayout layout,
        PageLocation location,
        string? marked,
        ImmutableArray<PlanPoint> route,
        ImmutableArray<CableRoute> tails = default)
    {
        return IsTooMuch(layout)
            ? HtmlFragment.None
            : FloorPlan.Draw(layout, Options(location) with
            {
                Ground = location.To(GroundOf(layout)).Value,
                Marked = marked,
                Route = route,
                Tails = tails.IsDefault ? [] : [.. tails.Select(tail => tail.Line)]
            });
    }

    /// <summary>A hall's ground, on which small plans draw; none where there are no small plans.</summary>
    public IEnumerable<OutputFile> Ground(HallLayout layout)
    {
        if (IsTooMuch(layout) || PlanGround.Draw(layout) is not { } ground) yield break;
        yield return new StreamedFile(GroundOf(layout), stream => stream.Write(Encoding.UTF8.GetBytes(ground)));
    }

    private static string GroundOf(HallLayout layout) => $"halls/{layout.Hall.Id}/ground.svg";

    private bool IsTooMuch(HallLayout layout)
    {
        var pages = (long)site.Record.Frames.Length + site.Record.Cables.Length + site.Record.Trays.Length;
        return pages * (layout.PlacedFrames.Length + layout.Trays.Length) > MostStrokes;
    }
}
