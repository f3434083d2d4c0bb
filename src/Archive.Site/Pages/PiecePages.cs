using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.Progress;
using Archive.Plans.Safety;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The page of a piece that was taken off.</summary>
public sealed record PiecePage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people call it; empty where that is the id.</summary>
    public required string Name { get; init; }

    /// <summary>What it came off; null where nobody knows.</summary>
    public required RecordLink? Of { get; init; }

    /// <summary>Where it is now, in words.</summary>
    public required HtmlFragment Status { get; init; }

    /// <summary>The box that it is in; null for none.</summary>
    public required RecordLink? Box { get; init; }

    /// <summary>Where it was, how many, weight and the like.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>How to handle it, and what can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>Photos that show it, by view.</summary>
    public required ImmutableArray<PhotoGroup> Photos { get; init; }

    public required HtmlFragment About { get; init; }

    /// <summary>Condition as found.</summary>
    public required HtmlFragment Condition { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>What happened to it since.</summary>
    public required ImmutableArray<EventLine> Events { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>Makes the pages of pieces.</summary>
internal sealed class PiecePages(
    SiteContents site,
    CrossReferences references,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    ProvenanceBuilder provenances)
{
    /// <summary>The page of a piece.</summary>
    /// <param name="piece">A piece that stands.</param>
    public OutputFile Create(Piece piece) => pageFactory.Page(PagePaths.For(piece), location => View(piece, location));

    private PiecePage View(Piece piece, PageLocation location)
    {
        var trail = new Link("Pieces", location.To(PagePaths.Index(RecordKind.Piece)));
        var journey = site.Basis.Progress.JourneyOf(piece.Id);
        var title = piece.Title == piece.Id ? piece.Id : $"{piece.Id} {piece.Title}";
        return new PiecePage(pageFactory.Head(
            "piece",
            location,
            title,
            $"Piece {piece.Id}: {(piece.Of is { } of ? $"came off {of.Value}" : "what it came off is not recorded")}.",
            trail))
        {
            Id = piece.Id,
            Name = piece.Title == piece.Id ? "" : piece.Title,
            Of = piece.Of is { } from ? rowBuilder.Record(from.Value, location) : null,
            Status = UnbrokenIds.In(Phrase.Sentence(
                journey is null ? "as found" : SituationText.Describe(journey, site.Record))),
            Box = journey?.Box is { } box ? rowBuilder.Record(box, location) : null,
            Facts = Facts(piece),
            Cautions = [.. UnitCautions.WhenOut(piece.Handling), .. HazardCautions.For(piece.Hazards)],
            Photos = rowBuilder.PhotosOf(piece, location),
            About = prose.Blocks(piece.About?.Value, location),
            Condition = prose.Blocks(piece.Condition?.Value, location, 3, "condition"),
            Note = prose.Blocks(piece.Note?.Value, location, 2, "note"),
            Events = [.. references.EventsOf[piece.Id].Select(archiveEvent => rowBuilder.Event(archiveEvent, location, piece))],
            Provenance = provenances.Create(
                piece, location, "",
                ("Came off", piece.Of?.Evidence), ("Place", piece.Place?.Evidence), ("Weight", piece.Weight?.Evidence)),
        };
    }

    private ImmutableArray<FactLine> Facts(Piece piece) =>
    [
        new FactLine("Where it was", formatter.Format(piece.Place)),
        new FactLine("How many", piece.Count is null ? new FactText("one") : formatter.Format(piece.Count)),
        new FactLine("Weight, all together", formatter.Format(piece.Weight)),
        .. piece.Size is null
            ? Array.Empty<FactLine>()
            : [new FactLine("Size of one, width × depth × height", formatter.Format(piece.Size))],
    ];
}
