using System.Collections.Immutable;
using Archive.Drawings.Trays;
using Archive.Halls.Trays;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The sections of a tray along its length.</summary>
public sealed record TraySectionsPage(PageHead Head) : PageView(Head)
{
    public required RecordLink Tray { get; init; }

    /// <summary>How many cables lie along it, with the places of the sections.</summary>
    public required HtmlFragment Profile { get; init; }

    /// <summary>The sections, from the first point of the tray's path on; none on further sheets.</summary>
    public required ImmutableArray<TraySectionView> Sections { get; init; }

    /// <summary>Its cables in the order in which they come out; those that stay come last.</summary>
    public required ImmutableArray<ComingOut> Cables { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A section of a tray.</summary>
/// <param name="Letter">Its name on the profile.</param>
/// <param name="At">Where it is, along the tray.</param>
/// <param name="Unsure">How many of its cables may not reach so far; empty for none.</param>
public sealed record TraySectionView(string Letter, string At, string Unsure, HtmlFragment Drawing);

/// <summary>A cable that comes out of a tray.</summary>
/// <param name="Step">The step of the crew sheet that takes it out; empty where it stays.</param>
/// <param name="Layer">Its layer, from 1 at the bottom.</param>
/// <param name="Along">From where to where it lies; empty where that is not known.</param>
/// <param name="At">Letters of the sections that it is in.</param>
public sealed record ComingOut(string Step, RecordLink Cable, int Layer, string Along, string At);

/// <summary>Makes the pages of the sections of trays.</summary>
internal sealed class TraySectionPages(SiteContents site, PageFactory pageFactory, FactFormatter formatter, PageDrawings drawings)
{
    // Each is named by a letter. Cables are drawn one by one, so that there are fewer sections of a full tray: else its page would be too
    // large.
    private const int MostSections = 26;
    private const int MostDrawn = 1500;

    private readonly Lazy<Dictionary<string, int>> _steps = new(() => site.Basis.TakingOut.Steps
        .Where(step => step is { Pulls: true, Cable: not null })
        .DistinctBy(step => step.Cable!.Id)
        .ToDictionary(step => step.Cable!.Id, step => step.Number, StringComparer.Ordinal));

    /// <summary>Path of a tray's page; null for a tray that has none: empty, without a size, a height or a hall.</summary>
    public string? PathOf(Tray tray) =>
        tray is { Size: not null, Height: not null, Hall: not null } && site.Trays[tray.Id].Cables.Length > 0
            && site.Record.Find<Hall>(tray.Hall.Value.Value) is { } hall && site.HallLayouts.AsFound?.Hall == hall
            ? $"trays/{tray.Id}/sections/index.html"
            : null;

    /// <summary>The pages: the sections with the first cables that come out, and one more for each further sheet of those.</summary>
    public IEnumerable<OutputFile> Create(Tray tray)
    {
        if (PathOf(tray) is not { } first) yield break;
        var along = new Lazy<AlongTray>(() => AlongTray.Create(TraySpans.Create(
            site.Trays[tray.Id], cable => drawings.Ways.In(site.HallLayouts.AsFound!, cable).Ways)));
        var sheets = new PagedList<LyingCable>(
            [
                .. site.Trays[tray.Id].Cables.OrderBy(lying => _steps.Value.GetValueOrDefault(lying.Cable.Id, int.MaxValue))
                    .ThenByDescending(lying => lying.Layer)
                    .ThenBy(lying => lying.Cable.Id, StringComparer.Ordinal),
            ],
            first,
            $"trays/{tray.Id}/sections",
            lying => lying.Cable.Id)
        {
            Size = SheetSizes.CablesComingOut,
            Key = lying => lying.Cable.Id,
        };
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(sheets.Path(sheet), location => View(along.Value, sheets, sheet, location));
        }
    }

    private TraySectionsPage View(AlongTray along, PagedList<LyingCable> sheets, int sheet, PageLocation location)
    {
        var (spans, stations) = (along.Spans, along.Stations);
        var tray = spans.Tray;
        var says = $"Tray {tray.Id} in cross-section at {Phrase.Count(stations.Length, "place")}, and the order in which its cables come out";
        return new TraySectionsPage(pageFactory.Head(
            "tray-sections",
            location,
            $"Sections of tray {tray.Id}{(sheet == 1 ? "" : $", page {Phrase.Number(sheet)}")}",
            sheets.Says(sheet, says) + ".",
            new Link("Trays", location.To(PagePaths.Index(RecordKind.Tray))),
            new Link(tray.Id, location.To(tray))))
        {
            Tray = RecordLink.To(tray, location),
            Profile = sheet > 1 ? HtmlFragment.None : drawings.Profile(spans, stations),
            Sections = sheet > 1 ? [] :
            [
                .. stations.Select((station, i) => new TraySectionView(
                    TrayProfile.Letter(i),
                    formatter.Text.FormatComputed(station.At),
                    station.Unsure == 0 ? "" : Phrase.Count(station.Unsure),
                    drawings.Section(station, $"Section {TrayProfile.Letter(i)} of tray {tray.Id}"))),
            ],
            Cables = [.. sheets.RowsOf(sheet).Select(lying => Row(along.ByCable[lying.Cable.Id].First()))],
            Sheet = sheets.On(sheet, location),
        };

        ComingOut Row(LyingSpan span) => new(
            _steps.Value.TryGetValue(span.Lying.Cable.Id, out var step) ? Phrase.Number(step) : "",
            RecordLink.To(span.Lying.Cable, location),
            span.Lying.Layer + 1,
            span.IsKnown
                ? $"{formatter.Text.FormatComputed(UnitsNet.Length.FromMillimeters(span.From))} to {formatter.Text.FormatComputed(UnitsNet.Length.FromMillimeters(span.To))}"
                : "",
            LettersOf(span, stations));
    }

    // The letters of a run of sections, which follow each other: “A to F”.
    private static string LettersOf(LyingSpan span, ImmutableArray<TrayStation> stations)
    {
        var within = Enumerable.Range(0, stations.Length)
            .Where(i => span.From <= stations[i].At.Millimeters && stations[i].At.Millimeters <= span.To)
            .ToList();
        return within.Count switch
        {
            0 => "",
            1 => TrayProfile.Letter(within[0]),
            _ => $"{TrayProfile.Letter(within[0])} to {TrayProfile.Letter(within[^1])}",
        };
    }

    // What the sheets of one tray share.
    private sealed record AlongTray(TraySpans Spans, ImmutableArray<TrayStation> Stations, ILookup<string, LyingSpan> ByCable)
    {
        public static AlongTray Create(TraySpans spans)
        {
            var fullest = spans.Profile().Select(piece => piece.Count).DefaultIfEmpty().Max();
            return new AlongTray(
                spans,
                spans.Stations(Math.Clamp(MostDrawn / Math.Max(1, fullest), 6, MostSections)),
                spans.All.ToLookup(span => span.Lying.Cable.Id, StringComparer.Ordinal));
        }
    }
}
