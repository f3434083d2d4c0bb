using System.Collections.Immutable;
using Archive.Hall;
using Archive.Records;

namespace Archive.Site;

/// <summary>What floors carry, and the heat of each hall.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record FloorPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>What can hurt, and who decides.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The page of feeders.</summary>
    public required Link Feeders { get; init; }

    /// <summary>The frames of this sheet, hall by hall.</summary>
    public required ImmutableArray<RowGroup<FloorRow>> Groups { get; init; }

    /// <summary>What is drawn in each hall; none on further sheets.</summary>
    public required ImmutableArray<DrawnRow> Draws { get; init; }

    /// <summary>Trays and what they carry; none on further sheets.</summary>
    public required ImmutableArray<TrayRow> Trays { get; init; }

    /// <summary>Which page of the list this is.</summary>
    public required Sheet Sheet { get; init; }
}

/// <summary>A frame in a hall.</summary>
/// <param name="Frame">The frame.</param>
/// <param name="Weight">Its weight.</param>
/// <param name="Footprint">Its load over the footprint.</param>
/// <param name="FootprintIs">How that stands against the rating.</param>
/// <param name="Spread">Its load with half of the aisles.</param>
/// <param name="SpreadIs">How that stands against the rating.</param>
/// <param name="Before">The aisle before it.</param>
/// <param name="Behind">The aisle behind it.</param>
/// <param name="Door">What can be said of its doors; empty for nothing.</param>
public sealed record FloorRow(RecordLink Frame, Figure Weight, Figure Footprint, string FootprintIs, Figure Spread, string SpreadIs, Markup Before, Markup Behind, string Door);

/// <summary>What is drawn in a hall at one voltage.</summary>
/// <param name="Hall">The hall.</param>
/// <param name="Volts">The potential.</param>
/// <param name="Amps">The current.</param>
/// <param name="Frames">How many frames draw it.</param>
/// <param name="Heat">The heat, in W and BTU/h.</param>
public sealed record DrawnRow(RecordLink Hall, string Volts, string Amps, int Frames, string Heat);

/// <summary>A tray.</summary>
/// <param name="Tray">The tray.</param>
/// <param name="Fill">How full it is.</param>
/// <param name="FillIs">How that stands against the limit.</param>
/// <param name="Mass">What a metre carries.</param>
/// <param name="Bend">Least radius of its bends.</param>
public sealed record TrayRow(RecordLink Tray, Figure Fill, string FillIs, string Mass, Figure Bend);

/// <summary>What feeders carry.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record FeedersPage(PageHead Head) : PageView(Head)
{
    /// <summary>The result.</summary>
    public required string Summary { get; init; }

    /// <summary>Who decides.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The feeders of this sheet.</summary>
    public required ImmutableArray<FeederRow> Feeders { get; init; }

    /// <summary>Which page of the list this is.</summary>
    public required Sheet Sheet { get; init; }
}

/// <summary>A feeder.</summary>
/// <param name="Cable">The cable.</param>
/// <param name="From">Where it comes from, or null.</param>
/// <param name="Feeds">What it feeds, or null.</param>
/// <param name="Gauge">Its conductor.</param>
/// <param name="Route">Its route, one way.</param>
/// <param name="Carries">Current and voltage.</param>
/// <param name="Drop">What it loses.</param>
/// <param name="Note">What is missing or assumed.</param>
public sealed record FeederRow(RecordLink Cable, RecordLink? From, RecordLink? Feeds, Figure Gauge, Figure Route, Figure Carries, Figure Drop, string Note);

/// <summary>Makes the pages of floors, power and heat.</summary>
/// <param name="site">All that the pages are made from.</param>
/// <param name="pageFactory">Makes pages and their heads.</param>
/// <param name="formatter">Writes facts with their units and evidence.</param>
/// <param name="kind">The plan.</param>
/// <param name="summary">The result.</param>
internal sealed class FloorPages(SiteContents site, PageFactory pageFactory, Figures formatter, PlanKind kind, ImmutableArray<string> summary)
{
    private const int MostTrays = 500;

    private QuantityText Text => formatter.Text;

    private string FeedersAt => $"{kind.Folder}/feeders/index.html";

    /// <summary>The sheets of frames, then those of feeders.</summary>
    /// <param name="halls">The halls.</param>
    /// <param name="feeders">The feeders.</param>
    public IEnumerable<SiteFile> All(ImmutableArray<FloorOfHall> halls, ImmutableArray<Feeder> feeders) => Floors(halls).Concat(Feeders(feeders));

    private IEnumerable<SiteFile> Floors(ImmutableArray<FloorOfHall> halls)
    {
        var rows = new GroupedRows<FloorLoad>(
            [.. halls.SelectMany(hall => hall.Loads.Select(load => (new RowHeading(hall.Layout.Hall.Title, "hall-" + PagePaths.Anchor(hall.Layout.Hall.Id)), load)))],
            kind.Page, kind.Folder, row => row.Row.Standing.Frame.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), place => new FloorPage(pageFactory.PlanHead(kind, place))
            {
                Summary = summary,
                Cautions = [Cautions.Floor, Cautions.Licensed],
                Feeders = new Link("Feeders", place.To(FeedersAt)),
                Groups = rows.On(sheet, load => RowOf(load, place)),
                Draws = sheet > 1 ? [] : [.. halls.SelectMany(hall => hall.Draws.Select(drawn => RowOf(hall, drawn, place)))],
                Trays = sheet > 1 ? [] : [.. site.Record.Trays.Where(tray => !tray.IsWithdrawn).Select(tray => site.Trays[tray.Id]).Where(contents => contents.Cables.Length > 0).Take(MostTrays).Select(contents => RowOf(contents, place))],
                Sheet = rows.Sheet(sheet, place),
            });
        }
    }

    private IEnumerable<SiteFile> Feeders(ImmutableArray<Feeder> feeders)
    {
        var summary = FloorSentences.Of(feeders, site.Record);
        var sheets = new Sheets<Feeder>(feeders, FeedersAt, $"{kind.Folder}/feeders", feeder => feeder.Cable.Id);
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(sheets.Path(sheet), place => new FeedersPage(pageFactory.Head(
                "feeders", place, "Feeders", "Current, voltage drop and route of each feeder.", new Link("Plans", place.To("plans/index.html")), new Link(kind.Title, place.To(kind.Page))))
            {
                Summary = summary,
                Cautions = [Cautions.Licensed, Cautions.DirectCurrent],
                Feeders = [.. sheets.RowsOf(sheet).Select(feeder => RowOf(feeder, place))],
                Sheet = sheets.On(sheet, place),
            });
        }
    }

    private FloorRow RowOf(FloorLoad load, PagePlace place) => new(
        RecordLink.To(load.Standing.Frame, place),
        formatter.Of(load.Standing.Frame.Weight),
        Load(load.OnFootprint, "its weight and size"),
        FloorSentences.Of(load.FootprintAgainst),
        Load(load.OnSpread, "its weight, size and aisles"),
        FloorSentences.Of(load.SpreadAgainst),
        WholeIds.In(load.Aisles is { } before ? FloorSentences.Of(before.Before, Text) : "unknown"),
        WholeIds.In(load.Aisles is { } behind ? FloorSentences.Of(behind.Behind, Text) : "unknown"),
        load.Aisles?.LetsAnyDoorOpen switch { true => "any door opens to 90°", false => "a door as wide as the frame would not open to 90°", _ => "" });

    private Figure Load(UnitsNet.Pressure? load, string rests) => load is { } known ? new Figure(Text.Reckoned(known), EvidenceText.Derived(rests)) : Figure.Unknown;

    private DrawnRow RowOf(FloorOfHall hall, Drawn drawn, PagePlace place) => new(
        RecordLink.To(hall.Layout.Hall, place), Text.Of(drawn.Volts), Text.Of(drawn.Amps), drawn.Frames, QuantityText.Heat(drawn.Heat));

    private TrayRow RowOf(TrayContents contents, PagePlace place) => new(
        RecordLink.To(contents.Tray, place),
        contents.Fill is { } fill ? new Figure((contents.WithoutDiameter > 0 ? "at least " : "") + QuantityText.Reckoned(fill)) : Figure.Unknown,
        FloorSentences.Of(contents.FillAgainst(site.Record.Statement.FillLimit?.Value)),
        (contents.WithoutMass > 0 ? "at least " : "") + Text.Of(contents.Mass),
        contents.BendRadius is { } bend ? new Figure(Text.Of(bend)) : Figure.Unknown);

    private FeederRow RowOf(Feeder feeder, PagePlace place) => new(
        RecordLink.To(feeder.Cable, place),
        feeder.From is { } from ? RecordLink.To(from, place) : null,
        feeder.Feeds is { } feeds ? RecordLink.To(feeds, place) : null,
        formatter.Of(feeder.Kind.Gauge),
        feeder.Route is { } route ? new Figure(feeder.IsRouteItsLength ? Text.Of(route) : Text.Reckoned(route), EvidenceText.Derived(feeder.IsRouteItsLength ? "its length, because its route is unknown" : "its route as found")) : Figure.Unknown,
        feeder is { Amps: { } amps, Volts: { } volts } ? new Figure($"{Text.Of(amps)} at {Text.Of(volts)}") : Figure.Unknown,
        feeder.Drop is { } drop ? new Figure($"{QuantityText.Reckoned(drop)}{(feeder.DropShare is { } share ? $", {QuantityText.Reckoned(share)}" : "")}") : Figure.Unknown,
        feeder.Note + (feeder.Beside > 1 ? $"{(feeder.Note.Length > 0 ? "; " : "")}one of {Words.Count(feeder.Beside)} feeders; each is assumed to carry the full load" : ""));
}
