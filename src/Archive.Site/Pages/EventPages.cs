using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The page of an event.</summary>
public sealed record EventPage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What happened.</summary>
    public required string What { get; init; }

    /// <summary>When, where to, by whom.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>To what; of very many, the first.</summary>
    public required ImmutableArray<RecordLink> Of { get; init; }

    /// <summary>How many records it happened to.</summary>
    public required int OfCount { get; init; }

    /// <summary>Photos that show it.</summary>
    public required ImmutableArray<PhotoGroup> Photos { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>Makes the pages of events.</summary>
internal sealed class EventPages(PageFactory pageFactory, ProseRenderer prose, RowBuilder rowBuilder, ProvenanceBuilder provenances)
{
    private const int MostOf = 500;

    /// <summary>The page of an event.</summary>
    /// <param name="archiveEvent">An event that stands.</param>
    public OutputFile Create(ArchiveEvent archiveEvent) => pageFactory.Page(PagePaths.For(archiveEvent), location =>
    {
        var line = rowBuilder.Event(archiveEvent, location);
        return new EventPage(pageFactory.Head(
            "event",
            location,
            $"{archiveEvent.Id}: {line.What}, {line.On}",
            $"{line.On}: {line.What}.",
            [new Link("Events", location.To(PagePaths.Index(RecordKind.Event)))]))
        {
            Id = archiveEvent.Id,
            What = line.What,
            Facts = Facts(line),
            Of = [.. Subjects(archiveEvent, location).Take(MostOf)],
            OfCount = archiveEvent.Of.Length + archiveEvent.Ends.Length,
            Photos = rowBuilder.PhotosOf(archiveEvent, location),
            Note = prose.Blocks(archiveEvent.Note?.Value, location, 2, "note"),
            Provenance = provenances.Create(archiveEvent, location),
        };
    });

    private IEnumerable<RecordLink> Subjects(ArchiveEvent archiveEvent, PageLocation location) =>
        archiveEvent.Of.Select(id => rowBuilder.Record(id.Value, location))
            .Concat(archiveEvent.Ends.Select(end => rowBuilder.Record(end.Cable.Value, location) with { Name = $"at {end.At.Value}" }));

    private static ImmutableArray<FactLine> Facts(EventLine line)
    {
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        facts.Add(new FactLine("Date", new FactText(line.On)));
        if (line.Into is { } box) facts.Add(new FactLine("Into", new FactText(box.Id), box.Href));
        if (line.To is { } hall) facts.Add(new FactLine("Hall", new FactText(hall.Text), hall.Href));
        if (line.Place.Length > 0) facts.Add(new FactLine("Place", new FactText(line.Place)));
        if (line.By.Length > 0) facts.Add(new FactLine("Done by", new FactText(line.By)));
        return facts.ToImmutable();
    }
}
