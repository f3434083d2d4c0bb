using System.Collections.Immutable;
using Archive.Halls.Floor;
using Archive.Halls.Power;
using Archive.Halls.Trays;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans;
using Archive.Plans.Floor;
using Archive.Plans.Safety;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.PlanPages;

/// <summary>What floors carry, and the heat of each hall.</summary>
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

    public required PageOfList Sheet { get; init; }
}

/// <summary>A frame in a hall.</summary>
/// <param name="Footprint">Its load over the footprint.</param>
/// <param name="FootprintIs">How that stands against the rating.</param>
/// <param name="Spread">Its load with half of the aisles.</param>
/// <param name="SpreadIs">How that stands against the rating.</param>
/// <param name="Before">The aisle before it.</param>
/// <param name="Behind">The aisle behind it.</param>
/// <param name="Door">What can be said of its doors; empty for nothing.</param>
public sealed record FloorRow(
    RecordLink Frame,
    FactText Weight,
    FactText Footprint,
    string FootprintIs,
    FactText Spread,
    string SpreadIs,
    HtmlFragment Before,
    HtmlFragment Behind,
    string Door);

/// <summary>What is drawn in a hall at one voltage.</summary>
/// <param name="Volts">The potential.</param>
/// <param name="Amps">The current.</param>
/// <param name="Frames">How many frames draw it.</param>
/// <param name="Heat">The heat, in W and BTU/h.</param>
public sealed record DrawnRow(RecordLink Hall, string Volts, string Amps, int Frames, string Heat);

/// <summary>A tray.</summary>
/// <param name="Fill">How full it is.</param>
/// <param name="FillIs">How that stands against the limit.</param>
/// <param name="Mass">What a metre carries.</param>
/// <param name="Bend">Least radius of its bends.</param>
public sealed record TrayRow(RecordLink Tray, FactText Fill, string FillIs, string Mass, FactText Bend);

/// <summary>What feeders carry.</summary>
public sealed record FeedersPage(PageHead Head) : PageView(Head)
{
    public required string Summary { get; init; }

    /// <summary>Who decides.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The feeders of this sheet.</summary>
    public required ImmutableArray<FeederRow> Feeders { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A feeder.</summary>
/// <param name="From">Where it comes from, or null.</param>
/// <param name="Feeds">What it feeds, or null.</param>
/// <param name="Gauge">Its conductor.</param>
/// <param name="Route">Its route, one way.</param>
/// <param name="Carries">Current and voltage.</param>
/// <param name="Drop">What it loses.</param>
/// <param name="Note">What is missing or assumed.</param>
public sealed record FeederRow(
    RecordLink Cable, RecordLink? From, RecordLink? Feeds, FactText Gauge, FactText Route, FactText Carries, FactText Drop, string Note);

/// <summary>Makes the pages of floors, power and heat.</summary>
internal sealed class FloorPages(
    SiteContents site, PageFactory pageFactory, FactFormatter formatter, PlanKind kind, ImmutableArray<string> summary)
{
    private const int MostTrays = 500;

    private UnitFormatter Text => formatter.Text;

    private string FeedersAt => $"{kind.Folder}/feeders/index.html";

    /// <summary>The sheets of frames, then those of feeders.</summary>
    public IEnumerable<OutputFile> All(ImmutableArray<FloorOfHall> halls, ImmutableArray<Feeder> feeders) =>
        Floors(halls).Concat(Feeders(feeders));

    private IEnumerable<OutputFile> Floors(ImmutableArray<FloorOfHall> halls)
    {
        var rows = new GroupedRows<FloorLoad>(
            [.. halls.SelectMany(hall => hall.Loads.Select(load =>
                (new RowHeading(hall.Layout.Hall.Title, "hall-" + PagePaths.Anchor(hall.Layout.Hall.Id)), load)))],
            kind.Page, kind.Folder, row => row.Row.Placed.Frame.Id, SheetSizes.Frames, key: load => load.Placed.Frame.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), location => new FloorPage(pageFactory.PlanHead(kind, location))
            {
                Summary = summary,
                Cautions = [StandardCautions.Floor, StandardCautions.Licensed],
                Feeders = new Link("Feeders", location.To(FeedersAt)),
                Groups = rows.On(sheet, load => RowOf(load, location)),
                Draws = sheet > 1 ? [] : [.. halls.SelectMany(hall => hall.Draws.Select(drawn => RowOf(hall, drawn, location)))],
                Trays = sheet > 1 ? [] : [.. site.Record.Trays
                    .Where(tray => !tray.IsWithdrawn)
                    .Select(tray => site.Trays[tray.Id])
                    .Where(contents => contents.Cables.Length > 0)
                    .Take(MostTrays)
                    .Select(contents => RowOf(contents, location))],
                Sheet = rows.Sheet(sheet, location),
            });
        }
    }

    private IEnumerable<OutputFile> Feeders(ImmutableArray<Feeder> feeders)
    {
        var sentences = FloorSentences.Describe(feeders, site.Record);
        var sheets = new PagedList<Feeder>(feeders, FeedersAt, $"{kind.Folder}/feeders", feeder => feeder.Cable.Id)
        {
            Key = feeder => feeder.Cable.Id,
        };
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(sheets.Path(sheet), location => new FeedersPage(pageFactory.Head(
                "feeders",
                location,
                "Feeders",
                "Current, voltage drop and route of each feeder.",
                new Link("Plans", location.To("plans/index.html")),
                new Link(kind.Title, location.To(kind.Page))))
            {
                Summary = sentences,
                Cautions = [StandardCautions.Licensed, StandardCautions.DirectCurrent],
                Feeders = [.. sheets.RowsOf(sheet).Select(feeder => RowOf(feeder, location))],
                Sheet = sheets.On(sheet, location),
            });
        }
    }

    private FloorRow RowOf(FloorLoad load, PageLocation location) => new(
        RecordLink.To(load.Placed.Frame, location),
        FrameWeightText.Of(formatter, load.Placed.Frame, load.Weights?.With, load.Weights?.StandingIs, load.Weights?.IsWithAtLeast == true),
        Load(load.OnFootprint, "its weight and size"),
        FloorSentences.Describe(load.FootprintAgainst),
        Load(load.OnSpread, "its weight, size and aisles"),
        FloorSentences.Describe(load.SpreadAgainst),
        UnbrokenIds.In(load.Aisles is { } before ? FloorSentences.Describe(before.Before, Text) : "unknown"),
        UnbrokenIds.In(load.Aisles is { } behind ? FloorSentences.Describe(behind.Behind, Text) : "unknown"),
        load.Aisles?.LetsAnyDoorOpen switch
        {
            true => "any door opens to 90°",
            false => "a door as wide as the frame would not open to 90°",
            _ => ""
        });

    private FactText Load(UnitsNet.Pressure? load, string rests) =>
        load is { } known ? new FactText(Text.FormatComputed(known), EvidenceText.Derived(rests)) : FactText.Unknown;

    private DrawnRow RowOf(FloorOfHall hall, PowerAtVoltage drawn, PageLocation location) => new(
        RecordLink.To(hall.Layout.Hall, location),
        Text.Format(drawn.Volts),
        Text.Format(drawn.Amps),
        drawn.Frames,
        UnitFormatter.Heat(drawn.Heat));

    private TrayRow RowOf(TrayContents contents, PageLocation location) => new(
        RecordLink.To(contents.Tray, location),
        contents.Fill is { } fill
            ? new FactText((contents.WithoutDiameter > 0 ? "at least " : "") + UnitFormatter.FormatComputed(fill))
            : FactText.Unknown,
        FloorSentences.Describe(contents.FillAgainst(site.Record.Statement.FillLimit?.Value)),
        (contents.WithoutMass > 0 ? "at least " : "") + Text.Format(contents.Mass),
        contents.BendRadius is { } bend ? new FactText(Text.Format(bend)) : FactText.Unknown);

    private FeederRow RowOf(Feeder feeder, PageLocation location) => new(
        RecordLink.To(feeder.Cable, location),
        feeder.From is { } from ? RecordLink.To(from, location) : null,
        feeder.Feeds is { } feeds ? RecordLink.To(feeds, location) : null,
        formatter.Format(feeder.Kind.Gauge),
        feeder.Route is { } route ? new FactText(
            feeder.IsRouteItsLength ? Text.Format(route) : Text.FormatComputed(route),
            EvidenceText.Derived(feeder.IsRouteItsLength ? "its length, because its route is unknown" : "its route as found"))
                : FactText.Unknown,
        feeder is { Amps: { } amps, Volts: { } volts } ? new FactText($"{Text.Format(amps)} at {Text.Format(volts)}") : FactText.Unknown,
        feeder.Drop is { } drop
            ? new FactText(
                $"{UnitFormatter.FormatComputed(drop)}{(feeder.DropShare is { } share ? $", {UnitFormatter.FormatComputed(share)}" : "")}")
            : FactText.Unknown,
        feeder.Note + (feeder.Beside > 1
            ? $"{(feeder.Note.Length > 0 ? "; " : "")}one of {Phrase.Count(feeder.Beside)} feeders; each is assumed to carry the full load"
            : ""));
}
