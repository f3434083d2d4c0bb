using System.Collections.Immutable;
using Archive.Drawings.Halls;
using Archive.Halls.Layout;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.Safety;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The page of a hall.</summary>
public sealed record HallPage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people call it.</summary>
    public required string Name { get; init; }

    /// <summary>Whether the machine was found there.</summary>
    public required bool IsAsFound { get; init; }

    /// <summary>Cautions before work begins; where the machine was found.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>Its floor plan.</summary>
    public required HtmlFragment Plan { get; init; }

    /// <summary>What the plan can show of frames, each a page of its own.</summary>
    public required PlanLinks Layers { get; init; }

    /// <summary>Its sheets to hang on a wall; null where it has none.</summary>
    public required Link? Sheets { get; init; }

    /// <summary>Ceiling, floor and the like.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>Its rows with their frames, from the first.</summary>
    public required ImmutableArray<RowOfFrames> Rows { get; init; }

    /// <summary>Doors and other openings.</summary>
    public required ImmutableArray<FactLine> Openings { get; init; }

    public required ImmutableArray<string> Obstacles { get; init; }

    /// <summary>Frames by their side of the taped line; empty where the hall has none.</summary>
    public required ImmutableArray<TakenGroup> Taken { get; init; }

    /// <summary>Trays that hang in it.</summary>
    public required ImmutableArray<RecordLink> Trays { get; init; }

    /// <summary>Photos that show it, by view.</summary>
    public required ImmutableArray<PhotoGroup> Photos { get; init; }

    public required HtmlFragment About { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>A hall's floor plan with one layer.</summary>
public sealed record HallLayerPage(PageHead Head) : PageView(Head)
{
    public required RecordLink Hall { get; init; }

    /// <summary>What the layer is called.</summary>
    public required string Title { get; init; }

    /// <summary>What the marks on the frames mean, in a sentence.</summary>
    public required string Explains { get; init; }

    /// <summary>The floor plan.</summary>
    public required HtmlFragment Plan { get; init; }

    /// <summary>The layers, this one marked.</summary>
    public required PlanLinks Layers { get; init; }

    /// <summary>What frames may be, each with its frames.</summary>
    public required ImmutableArray<LayerClass> Classes { get; init; }

    /// <summary>The trays that are drawn.</summary>
    public required ImmutableArray<RecordLink> Trays { get; init; }

    /// <summary>What frames are of which the layer says nothing.</summary>
    public required string OthersAre { get; init; }

    /// <summary>Those frames; of very many, the first.</summary>
    public required ImmutableArray<RecordLink> Others { get; init; }
}

/// <summary>A hall from above one of its corners.</summary>
public sealed record HallViewPage(PageHead Head) : PageView(Head)
{
    public required RecordLink Hall { get; init; }

    /// <summary>The isometric drawing.</summary>
    public required HtmlFragment Plan { get; init; }

    /// <summary>The other drawings of the hall.</summary>
    public required PlanLinks Layers { get; init; }

    /// <summary>The frames that stand in it.</summary>
    public required ImmutableArray<RecordLink> Frames { get; init; }

    /// <summary>The trays that hang in it.</summary>
    public required ImmutableArray<RecordLink> Trays { get; init; }
}

/// <summary>The layers of a plan, and what its script reads.</summary>
/// <param name="Links">The plain plan, then each layer.</param>
/// <param name="Ways">The script with the ways of cables; null where there is none.</param>
public sealed record PlanLinks(ImmutableArray<PageLink> Links, Href? Ways);

/// <summary>What frames may be, by the key of a layer.</summary>
/// <param name="Sample">The pattern that they are filled with.</param>
/// <param name="Frames">Those that are so; of very many, the first.</param>
/// <param name="Count">How many are.</param>
public sealed record LayerClass(HtmlFragment Sample, string Says, ImmutableArray<LayerFrame> Frames, int Count);

/// <summary>A frame of a layer.</summary>
/// <param name="Mark">What is written on it, where that is not the same for all of its class; else empty.</param>
public sealed record LayerFrame(RecordLink Frame, string Mark);

/// <summary>Frames on one side of the taped line.</summary>
/// <param name="Side">The side, in words.</param>
/// <param name="Frames">The frames; of very many, the first.</param>
public sealed record TakenGroup(string Side, ImmutableArray<RecordLink> Frames, int Count);

/// <summary>Makes the pages of halls.</summary>
internal sealed class HallPages(
    SiteContents site,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    PageDrawings drawings,
    ProvenanceBuilder provenances)
{
    private const int MostInRow = 500;

    private readonly HallWaysFile _ways = new(site, drawings.Ways);
    private readonly WallSheetPages _sheets = new(site, pageFactory, formatter, drawings);

    /// <summary>
    /// The pages of a hall: its own, one for each layer of its plan, its wall sheets, and the script with the ways of its cables.
    /// </summary>
    /// <param name="hall">A hall that stands.</param>
    public IEnumerable<OutputFile> Create(Hall hall)
    {
        yield return pageFactory.Page(PagePaths.For(hall), location => View(hall, location));
        var layout = site.HallLayouts.ByHall[hall.Id];
        foreach (var layer in drawings.LayersOf(layout))
            yield return pageFactory.Page(PathOf(layer, hall), location => View(layout, layer, location));
        if (PageDrawings.ViewOf(layout) is { } view) yield return pageFactory.Page(view, location => FromCorner(layout, location));
        foreach (var sheet in _sheets.Create(layout)) yield return sheet;
        foreach (var ground in drawings.Ground(layout)) yield return ground;
        if (HallWaysFile.PathOf(layout, site.Record) is not null) yield return _ways.File(layout);
    }

    private static string PathOf(NamedLayer layer, Hall hall) => $"halls/{hall.Id}/{layer.Name}/index.html";

    private HallViewPage FromCorner(HallLayout layout, PageLocation location) => new(pageFactory.Head(
        "hall-view",
        location,
        $"From above: {layout.Hall.Title}",
        $"{layout.Hall.Title} from above its south-east corner, frames and trays at their heights.",
        new Link("Halls", location.To(PagePaths.Index(RecordKind.Hall))),
        new Link(layout.Hall.Title, location.To(layout.Hall))))
    {
        Hall = RecordLink.To(layout.Hall, location),
        Plan = PageDrawings.FromCorner(layout, location),
        Layers = LayersOf(layout, null, location, isView: true),
        Frames = [.. layout.ByFrame.Values.Select(placed => placed.Frame)
            .OrderBy(frame => frame.Id, StringComparer.Ordinal)
            .Select(frame => RecordLink.To(frame, location))],
        Trays = [.. layout.Trays.Select(tray => RecordLink.To(tray, location))],
    };

    private PlanLinks LayersOf(HallLayout layout, NamedLayer? current, PageLocation location, bool isView = false)
    {
        var layers = drawings.LayersOf(layout);
        return new PlanLinks(
            layers.IsEmpty ? [] : [
                new PageLink("Plain", location.To(layout.Hall), current is null && !isView),
                .. layers.Select(layer =>
                    new PageLink(layer.Title, location.To(PathOf(layer, layout.Hall)), layer.Name == current?.Name)),
                .. PageDrawings.ViewOf(layout) is { } view
                    ? [new PageLink("From above", location.To(view), isView)]
                    : Array.Empty<PageLink>(),
            ],
            drawings.WaysIn(layout, location));
    }

    private HallLayerPage View(HallLayout layout, NamedLayer layer, PageLocation location)
    {
        var (hall, marks) = (layout.Hall, layer.Layer.Marks);
        var placed = layout.PlacedFrames.Select(frame => frame.Frame).DistinctBy(frame => frame.Id).ToList();
        var byClass = placed.Where(frame => marks.ContainsKey(frame.Id)).ToLookup(frame => marks[frame.Id].Class);
        return new HallLayerPage(pageFactory.Head(
            "hall-layer",
            location,
            $"{layer.Title}: {hall.Title}",
            $"Floor plan of {hall.Title}: {layer.Layer.Title}.",
            new Link("Halls", location.To(PagePaths.Index(RecordKind.Hall))),
            new Link(hall.Title, location.To(hall))))
        {
            Hall = RecordLink.To(hall, location),
            Title = layer.Title,
            Explains = layer.Explains,
            Plan = drawings.Plan(layout, location, options => options with { Layer = layer.Layer }),
            Layers = LayersOf(layout, layer, location),
            Classes =
            [
                .. layer.Layer.Classes
                    .Select((shown, i) => new LayerClass(
                        PlanPatterns.Sample(shown.Pattern),
                        shown.Says,
                        [.. byClass[i].Take(MostInRow).Select(frame => new LayerFrame(
                            RecordLink.To(frame, location),
                            shown.Says.StartsWith(marks[frame.Id].Text + ":", StringComparison.Ordinal) ? "" : marks[frame.Id].Text))],
                        byClass[i].Count()))
                    .Where(shown => shown.Count > 0),
            ],
            Trays = [.. layout.Trays.Select(tray => RecordLink.To(tray, location))],
            OthersAre = layer.Others,
            Others =
            [
                .. placed.Where(frame => !marks.ContainsKey(frame.Id)).Take(MostInRow).Select(frame => RecordLink.To(frame, location)),
            ],
        };
    }

    private HallPage View(Hall hall, PageLocation location)
    {
        var layout = site.HallLayouts.ByHall[hall.Id];
        var isAsFound = hall.AsFound is { Value: true };
        var trail = new Link("Halls", location.To(PagePaths.Index(RecordKind.Hall)));
        return new HallPage(pageFactory.Head(
            "hall",
            location,
            hall.Title,
            $"{hall.Title}: floor plan, {Phrase.Count(layout.PlacedFrames.Length, "frame")} in {Phrase.Count(layout.Rows.Length, "row")}.",
            trail))
        {
            Id = hall.Id,
            Name = hall.Title,
            IsAsFound = isAsFound,
            Cautions = [.. HazardCautions.For(hall.Hazards), .. isAsFound
                ? [StandardCautions.OldMaterials, StandardCautions.Tall, StandardCautions.Overhead]
                : Array.Empty<Caution>()],
            Plan = drawings.Plan(layout, location),
            Layers = LayersOf(layout, null, location),
            Sheets = _sheets.LinkTo(layout, location),
            Facts = [new("Ceiling", formatter.Format(hall.Ceiling)), new("Floor load limit", formatter.Format(hall.FloorRating))],
            Rows = [.. layout.Rows.Select(row => RowOf(row, location))],
            Openings = [.. hall.Openings.Select(opening => new FactLine(opening.Name?.Value ?? "opening", formatter.Format(opening)))],
            Obstacles = [.. hall.Obstacles.Select(obstacle => obstacle.Name?.Value ?? "unnamed obstacle")],
            Taken = Taken(layout, location),
            Trays = [.. layout.Trays.Select(tray => RecordLink.To(tray, location))],
            Photos = rowBuilder.PhotosOf(hall, location),
            About = prose.Blocks(hall.About?.Value, location),
            Note = prose.Blocks(hall.Note?.Value, location, 2, "note"),
            Provenance = provenances.Create(
                hall, location, "", ("Ceiling", hall.Ceiling?.Evidence), ("Floor load limit", hall.FloorRating?.Evidence)),
        };
    }

    private static RowOfFrames RowOf(RowLayout row, PageLocation location) => new(
        $"{Phrase.NameOf(row.Row)}, facing {Phrase.For(row.Row.Faces.Value)}",
        [.. row.Frames.Take(MostInRow).Select(frame => RecordLink.To(frame.Frame, location))], Math.Max(0, row.Frames.Length - MostInRow));

    private static ImmutableArray<TakenGroup> Taken(HallLayout layout, PageLocation location) =>
    [
        .. TakeBoundary.Classify(layout).GroupBy(taken => taken.Side).OrderBy(group => group.Key)
            .Select(group => new TakenGroup(
                group.Key.InWords(),
                [.. group.Take(MostInRow).Select(taken => RecordLink.To(taken.Placed.Frame, location))],
                group.Count())),
    ];
}
