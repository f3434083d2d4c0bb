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
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The sections of a tray along its length.</summary>
public sealed record TraySectionsPage(PageHead Head) : PageView(Head)
{
    public required RecordLink Tray { get; init; }

    /// <summary>How many cables lie along it, with the places of the sections.</summary>
    public required HtmlFragment Profile { get; init; }

    /// <summary>The sections, from the first point of the tray's path on.</summary>
    public required ImmutableArray<TraySectionView> Sections { get; init; }

    /// <summary>Its cables in the order in which they come out; those that stay come last. Of very many, the first.</summary>
    public required ImmutableArray<ComingOut> Cables { get; init; }

    /// <summary>How many cables are not listed.</summary>
    public required int More { get; init; }
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
    private const int MostSections = 6;
    private const int MostListed = 400;

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

    /// <summary>The page, if there is one.</summary>
    public IEnumerable<OutputFile> Create(Tray tray) =>
        PathOf(tray) is { } path ? [pageFactory.Page(path, location => View(tray, location))] : [];

    private TraySectionsPage View(Tray tray, PageLocation location)
    {
        var layout = site.HallLayouts.AsFound!;
        var spans = TraySpans.Create(site.Trays[tray.Id], cable => drawings.Ways.In(layout, cable).Ways);
        var stations = spans.Stations(MostSections);
        var cables = spans.All.OrderBy(span => _steps.Value.GetValueOrDefault(span.Lying.Cable.Id, int.MaxValue))
            .ThenByDescending(span => span.Lying.Layer)
            .ThenBy(span => span.Lying.Cable.Id, StringComparer.Ordinal);
        return new TraySectionsPage(pageFactory.Head(
            "tray-sections",
            location,
            $"Sections of tray {tray.Id}",
            $"Tray {tray.Id} in cross-section at {Phrase.Count(stations.Length, "place")}, and the order in which its cables come out.",
            new Link("Trays", location.To(PagePaths.Index(RecordKind.Tray))),
            new Link(tray.Id, location.To(tray))))
        {
            Tray = RecordLink.To(tray, location),
            Profile = drawings.Profile(spans, stations),
            Sections =
            [
                .. stations.Select((station, i) => new TraySectionView(
                    TrayProfile.Letter(i),
                    formatter.Text.FormatComputed(station.At),
                    station.Unsure == 0 ? "" : Phrase.Count(station.Unsure),
                    drawings.Section(station, $"Section {TrayProfile.Letter(i)} of tray {tray.Id}"))),
            ],
            Cables =
            [
                .. cables.Take(MostListed).Select(span => new ComingOut(
                    _steps.Value.TryGetValue(span.Lying.Cable.Id, out var step) ? Phrase.Count(step) : "",
                    RecordLink.To(span.Lying.Cable, location),
                    span.Lying.Layer + 1,
                    span.IsKnown
                        ? $"{formatter.Text.FormatComputed(UnitsNet.Length.FromMillimeters(span.From))} to {formatter.Text.FormatComputed(UnitsNet.Length.FromMillimeters(span.To))}"
                        : "",
                    string.Join(" ", stations
                        .Select((station, i) => (At: station.At.Millimeters, Letter: TrayProfile.Letter(i)))
                        .Where(station => span.From <= station.At && station.At <= span.To)
                        .Select(station => station.Letter)))),
            ],
            More = Math.Max(0, spans.All.Length - MostListed),
        };
    }
}
