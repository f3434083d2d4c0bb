using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.Boxes;
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
using Archive.Wiring.Journeys;

namespace Archive.Site.Pages;

/// <summary>The page of a box.</summary>
public sealed record BoxPage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people call it; empty where that is the id.</summary>
    public required string Name { get; init; }

    /// <summary>Where it is now, in words.</summary>
    public required HtmlFragment Status { get; init; }

    /// <summary>The box that it is in; null for none.</summary>
    public required RecordLink? Inside { get; init; }

    /// <summary>What to watch out for: too heavy, not packed apart; sentences.</summary>
    public required ImmutableArray<string> Warnings { get; init; }

    /// <summary>Weight packed and empty, limit, size.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>How to handle what is in it, and what can hurt there.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>What is in it now, to tick off; of very much, the first.</summary>
    public required ImmutableArray<PackedRow> Content { get; init; }

    /// <summary>How many things are in it now.</summary>
    public required int ContentCount { get; init; }

    /// <summary>What was in it before, and what is, in order of time; of very much, the first.</summary>
    public required ImmutableArray<StayRow> Stays { get; init; }

    /// <summary>How many times something was put into it.</summary>
    public required int StayCount { get; init; }

    /// <summary>Photos that show it, by view.</summary>
    public required ImmutableArray<PhotoGroup> Photos { get; init; }

    public required HtmlFragment About { get; init; }

    /// <summary>Condition as found.</summary>
    public required HtmlFragment Condition { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>What happened to the box itself.</summary>
    public required ImmutableArray<EventLine> Events { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>A time that something was in the box.</summary>
/// <param name="Packed">The event that put it in.</param>
/// <param name="Out">The event that shows that it is out; null while it is in.</param>
public sealed record StayRow(RecordLink Thing, EventLine Packed, EventLine? Out);

/// <summary>Makes the pages of boxes.</summary>
internal sealed class BoxPages(
    SiteContents site,
    CrossReferences references,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    BoxRows boxRows,
    ProvenanceBuilder provenances)
{
    private const int MostRows = 500;

    private readonly Lazy<Dictionary<string, PackedBox>> _packed = new(() =>
        ((PackingPlan)site.Plans[PackingPlan.Kind]).Boxes.ToDictionary(box => box.Box.Id, StringComparer.Ordinal));

    /// <summary>The page of a box.</summary>
    /// <param name="box">A box that stands.</param>
    public OutputFile Create(Box box) => pageFactory.Page(PagePaths.For(box), location => View(_packed.Value[box.Id], location));

    private BoxPage View(PackedBox packed, PageLocation location)
    {
        var box = packed.Box;
        var journey = site.Basis.Progress.JourneyOf(box.Id);
        var all = site.Basis.Boxes.StaysIn(box.Id);
        var stays = all
            .OrderBy(stay => stay.Packed, CrossReferences.EventOrder)
            .ThenBy(stay => new NaturalSortKey(stay.Thing.Id))
            .Take(MostRows);
        return new BoxPage(pageFactory.Head(
            "box",
            location,
            box.Title == box.Id ? box.Id : $"{box.Id} {box.Title}",
            $"Box {box.Id}: {Phrase.Count(packed.Content.Length, "thing")} in it.",
            new Link("Boxes", location.To(PagePaths.Index(RecordKind.Box)))))
        {
            Id = box.Id,
            Name = box.Title == box.Id ? "" : box.Title,
            Status = UnbrokenIds.In(
                Phrase.Sentence(journey is null ? "not used yet" : SituationText.Describe(journey, site.Record))
                    + Filling(packed.Content.Length)),
            Inside = journey?.Box is { } around ? rowBuilder.Record(around, location) : null,
            Warnings = packed.Warnings,
            Facts = Facts(packed),
            Cautions = PackingPlan.CautionsOf([.. site.Basis.Boxes.Everything(box.Id)]),
            Content = [.. packed.Content.Take(MostRows).Select(thing => boxRows.Row(thing, location))],
            ContentCount = packed.Content.Length,
            Stays = [.. stays.Select(stay => Row(stay, location))],
            StayCount = all.Length,
            Photos = rowBuilder.PhotosOf(box, location),
            About = prose.Blocks(box.About?.Value, location),
            Condition = prose.Blocks(box.Condition?.Value, location, 3, "condition"),
            Note = prose.Blocks(box.Note?.Value, location, 2, "note"),
            Events = [.. references.EventsOf[box.Id].Select(archiveEvent => rowBuilder.Event(archiveEvent, location, box))],
            Provenance = provenances.Create(
                box, location, "", ("Weight", box.Weight?.Evidence), ("Limit", box.Limit?.Evidence), ("Size", box.Size?.Evidence)),
        };
    }

    // A box that came out of another is unpacked and may still be full.
    private static string Filling(int things) => things switch
    {
        0 => " Nothing is in it.",
        1 => " 1 thing is in it.",
        _ => $" {Phrase.Count(things, "thing")} are in it.",
    };

    private StayRow Row(BoxStay stay, PageLocation location) => new(
        RecordLink.To(stay.Thing, location),
        Short(stay.Packed, location),
        stay.Out is { } left ? Short(left, location) : null);

    private EventLine Short(ArchiveEvent archiveEvent, PageLocation location) =>
        rowBuilder.Event(archiveEvent, location) with { Of = [], More = 0 };

    private ImmutableArray<FactLine> Facts(PackedBox packed) =>
    [
        new FactLine("Weight, packed", boxRows.Weight(packed.Laden, isSum: true)),
        new FactLine("Weight, empty", formatter.Format(packed.Box.Weight)),
        new FactLine("May weigh at most", formatter.Format(packed.Box.Limit)),
        new FactLine("Size, width × depth × height", formatter.Format(packed.Box.Size)),
        .. packed.Turn is { } turn
            ? [new FactLine("Turn when boxes are loaded", new FactText(Phrase.Number(turn)))]
            : Array.Empty<FactLine>(),
    ];
}
