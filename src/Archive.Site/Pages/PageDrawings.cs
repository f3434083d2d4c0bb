using System.Collections.Immutable;
using Archive.Hall;
using Archive.Records;

namespace Archive.Site;

/// <summary>The drawings as pages want them.</summary>
/// <param name="site">All that the pages are made from.</param>
/// <param name="formatter">Writes facts with their units and evidence.</param>
/// <param name="lists">The lists that pages link into.</param>
/// <param name="readyLabels">The QR labels that the site holds ready.</param>
internal sealed class PageDrawings(SiteContents site, Figures formatter, Lists lists, ReadyLabels readyLabels)
{
    // A small plan draws its whole hall. In a great record that would be drawn on a hundred thousand pages: beyond so many strokes in all, pages go
    // without, and lead to the hall's own plan.
    private const long MostStrokes = 2_000_000;

    private UnitChoice Units => formatter.Text.Units;

    /// <summary>A frame's face with its positions, each leading to its line of the table; none without positions.</summary>
    /// <param name="frame">The frame.</param>
    public Markup Elevation(Frame frame) => frame.Positions.Length == 0
        ? Markup.None
        : FrameElevation.Draw(frame, new FrameElevationOptions { Href = position => Href.Here(PagePaths.PositionAnchor(position.Id.Value)).Value, Units = Units });

    /// <summary>A frame among its neighbours, seen from the front.</summary>
    /// <param name="where">Where it stands.</param>
    /// <param name="place">The page.</param>
    public static Markup Neighbours(Whereabouts where, PagePlace place) => RowStrip.Draw(where, frame => place.To(frame).Value);

    /// <summary>A small plan with one frame marked; none in a great record.</summary>
    /// <param name="where">Where it stands.</param>
    /// <param name="place">The page.</param>
    public Markup WhereStands(Whereabouts where, PagePlace place) => Inset(where.Layout, place, where.Standing.Frame.Id, []);

    /// <summary>A small plan with one tray marked; none in a great record.</summary>
    /// <param name="tray">The tray.</param>
    /// <param name="hall">Its hall.</param>
    /// <param name="place">The page.</param>
    public Markup WhereHangs(Tray tray, Records.Hall hall, PagePlace place) =>
        site.Standings.ByHall.TryGetValue(hall.Id, out var layout) ? Inset(layout, place, tray.Id, []) : Markup.None;

    /// <summary>A tray cut across, with what lies in it.</summary>
    /// <param name="contents">The tray.</param>
    /// <param name="place">The page.</param>
    public Markup Section(TrayContents contents, PagePlace place) => TraySection.Draw(contents, new TraySectionOptions
    {
        Href = cable => place.To(cable).Value,
        Units = Units,
        Limit = site.Record.Statement.FillLimit?.Value,
    });

    /// <summary>A cable's way through the hall; none where its trays are not known, or in a great record.</summary>
    /// <param name="cable">The cable.</param>
    /// <param name="place">The page.</param>
    public Markup Route(Cable cable, PagePlace place)
    {
        var trays = cable.LiesIn.Select(id => site.Record.Find<Tray>(id.Value)).OfType<Tray>().ToImmutableArray();
        if (trays.Length == 0 || trays.Length < cable.LiesIn.Length || trays[0].Hall is not { } id) return Markup.None;
        if (site.Record.Find<Records.Hall>(id.Value) is not { } hall || !site.Standings.ByHall.TryGetValue(hall.Id, out var layout)) return Markup.None;
        if (IsTooMuch(layout)) return Markup.None;
        var frames = (site.Readings.Of(cable.Id)?.Ends ?? []).Select(end => site.Record.FrameAt(end.At)).ToImmutableArray();
        var network = site.Basis.Runs.NetworkOf(layout);
        if (frames.Length > 2) return CableRoute.OfTails(layout, network, trays, frames) is [var longest, .. var tails] ? Inset(layout, place, null, longest.Line, tails) : Markup.None;
        var route = CableRoute.Through(layout, network, trays, frames.ElementAtOrDefault(0), frames.ElementAtOrDefault(1));
        return route is null ? Markup.None : Inset(layout, place, null, route.Line);
    }

    /// <summary>A hall's floor plan.</summary>
    /// <param name="layout">The hall set out.</param>
    /// <param name="place">The page.</param>
    public Markup Plan(HallLayout layout, PagePlace place) => Plan(layout, place, options => options);

    /// <summary>A hall's floor plan with something shown on it.</summary>
    /// <param name="layout">The hall set out.</param>
    /// <param name="place">The page.</param>
    /// <param name="show">Adds what is shown.</param>
    public Markup Plan(HallLayout layout, PagePlace place, Func<FloorPlanOptions, FloorPlanOptions> show) => FloorPlan.Draw(layout, show(Options(place) with
    {
        RowHref = row => lists.Frames.RowHref(row, place)?.Value ?? place.To(layout.Hall).Value,
    }));

    /// <summary>A small plan with the way of a cable in a hall where it may stand again; none where it has no way, or in a great record.</summary>
    /// <param name="reach">The hall.</param>
    /// <param name="cable">The cable.</param>
    /// <param name="place">The page.</param>
    public Markup Route(HallReach reach, CableReach cable, PagePlace place) =>
        !IsTooMuch(reach.Layout) && reach.RouteOf(cable) is { } route ? Inset(reach.Layout, place, null, route.Line) : Markup.None;

    /// <summary>An address as a QR code.</summary>
    /// <param name="address">The address.</param>
    public Markup Qr(string address) => QrSquare.Draw(address, readyLabels.Code(address));

    private FloorPlanOptions Options(PagePlace place) => new() { Href = record => place.To(record).Value, Units = Units };

    private Markup Inset(HallLayout layout, PagePlace place, string? marked, ImmutableArray<PlanPoint> route, ImmutableArray<CableRoute> tails = default)
    {
        return IsTooMuch(layout)
            ? Markup.None
            : FloorPlan.Draw(layout, Options(place) with { IsInset = true, Marked = marked, Route = route, Tails = tails.IsDefault ? [] : [.. tails.Select(tail => tail.Line)] });
    }

    private bool IsTooMuch(HallLayout layout)
    {
        var pages = (long)site.Record.Frames.Length + site.Record.Cables.Length + site.Record.Trays.Length;
        return pages * (layout.Standing.Length + layout.Trays.Length) > MostStrokes;
    }
}
