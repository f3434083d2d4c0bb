using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Drawings.Frames;
using Archive.Drawings.Halls;
using Archive.Drawings.QrCodes;
using Archive.Drawings.Trays;
using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Halls.Trays;
using Archive.LabelSheets;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Site.Contents;

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

    /// <summary>A cable's way through the hall; none where its trays are not known, or in a great record.</summary>
    public HtmlFragment Route(Cable cable, PageLocation location)
    {
        var trays = cable.LiesIn.Select(id => site.Record.Find<Tray>(id.Value)).OfType<Tray>().ToImmutableArray();
        if (trays.Length == 0 || trays.Length < cable.LiesIn.Length || trays[0].Hall is not { } id) return HtmlFragment.None;
        if (site.Record.Find<Hall>(id.Value) is not { } hall || !site.HallLayouts.ByHall.TryGetValue(hall.Id, out var layout))
            return HtmlFragment.None;
        if (IsTooMuch(layout)) return HtmlFragment.None;
        var frames = (site.Readings.Find(cable.Id)?.Ends ?? []).Select(end => site.Record.FrameAt(end.At)).ToImmutableArray();
        var network = site.Basis.Runs.NetworkOf(layout);
        if (frames.Length > 2) return CableRoute.OfTails(layout, network, trays, frames) is [var longest, .. var tails]
            ? Inset(layout, location, null, longest.Line, tails)
            : HtmlFragment.None;
        var route = CableRoute.Through(layout, network, trays, frames.ElementAtOrDefault(0), frames.ElementAtOrDefault(1));
        return route is null ? HtmlFragment.None : Inset(layout, location, null, route.Line);
    }

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
                IsInset = true,
                Marked = marked,
                Route = route,
                Tails = tails.IsDefault ? [] : [.. tails.Select(tail => tail.Line)]
            });
    }

    private bool IsTooMuch(HallLayout layout)
    {
        var pages = (long)site.Record.Frames.Length + site.Record.Cables.Length + site.Record.Trays.Length;
        return pages * (layout.PlacedFrames.Length + layout.Trays.Length) > MostStrokes;
    }
}
