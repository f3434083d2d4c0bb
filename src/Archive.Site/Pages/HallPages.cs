using System.Collections.Immutable;
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

    /// <summary>The page of a hall.</summary>
    /// <param name="hall">A hall that stands.</param>
    public OutputFile Create(Hall hall) => pageFactory.Page(PagePaths.For(hall), location => View(hall, location));

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
