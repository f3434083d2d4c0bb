using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Site;

/// <summary>The page of a display.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record DisplayPage(PageHead Head) : PageView(Head)
{
    /// <summary>Its id.</summary>
    public required string Id { get; init; }

    /// <summary>What people call it.</summary>
    public required string Name { get; init; }

    /// <summary>What it needs; all of them.</summary>
    public required ImmutableArray<NeedLine> Needs { get; init; }

    /// <summary>The fewest frames that it runs with, as worked out; empty where its needs cannot be met.</summary>
    public required ImmutableArray<RecordLink> Set { get; init; }

    /// <summary>Plans that say more of the set: what it weighs and draws, and how its cables are laid back.</summary>
    public required ImmutableArray<Link> Plans { get; init; }

    /// <summary>Description.</summary>
    public required Markup About { get; init; }

    /// <summary>Remark.</summary>
    public required Markup Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>The page of a kind of cable.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record KindPage(PageHead Head) : PageView(Head)
{
    /// <summary>Its id.</summary>
    public required string Id { get; init; }

    /// <summary>What people call it.</summary>
    public required string Name { get; init; }

    /// <summary>Family, diameter, mass and the like.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>What can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>How many cables are of it.</summary>
    public required int CableCount { get; init; }

    /// <summary>Where they are listed; null where there are none.</summary>
    public required Href? Cables { get; init; }

    /// <summary>Description.</summary>
    public required Markup About { get; init; }

    /// <summary>Remark.</summary>
    public required Markup Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>The page of an event.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record EventPage(PageHead Head) : PageView(Head)
{
    /// <summary>Its id.</summary>
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

    /// <summary>Remark.</summary>
    public required Markup Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>Makes the pages of displays, kinds of cable, and events.</summary>
/// <param name="desk">What every page is written at.</param>
internal sealed class OtherPages(Desk desk)
{
    private const int MostOf = 500;

    /// <summary>The page of a display.</summary>
    /// <param name="display">A display that stands.</param>
    public SiteFile Of(Display display) => desk.Page(PagePaths.Of(display), place =>
        new DisplayPage(desk.Head("display", place, display.Title, $"{display.Title}: what must stand for it to run.", Trail("Displays", RecordKind.Display, place)))
        {
            Id = display.Id,
            Name = display.Title,
            Needs = desk.Rows.Needs(display.Needs, place),
            Set = [.. SetOf(display).Select(frame => RecordLink.To(frame, place))],
            Plans =
            [
                new Link("What the set weighs and draws, and its cables", place.To(WorkingSetsPlan.Kind.Page)),
                .. SetOf(display).IsEmpty ? Array.Empty<Link>() : [new Link("How its cables are laid back", place.To(ReconnectionPages.PathOf(display)))],
            ],
            About = desk.Prose.Blocks(display.About?.Value, place),
            Note = desk.Prose.Blocks(display.Note?.Value, place, 2, "note"),
            Provenance = desk.Provenances.Of(display, place),
        });

    private ImmutableArray<Frame> SetOf(Display display) => desk.Contents.Basis.Sets.Of(display.Id) is { IsMet: true } set ? set.Frames : [];

    /// <summary>The page of a kind of cable.</summary>
    /// <param name="kind">A kind that stands.</param>
    public SiteFile Of(CableKind kind) => desk.Page(PagePaths.Of(kind), place =>
        new KindPage(desk.Head("kind", place, kind.Title, $"{kind.Title}, a kind of cable.", Trail("Kinds of cable", RecordKind.CableKind, place)))
        {
            Id = kind.Id,
            Name = kind.Title,
            Facts = Facts(kind),
            Cautions = Cautions.For(kind.Family?.Value) is { } caution ? [caution] : [],
            CableCount = desk.References.CablesOf[kind.Id].Count(),
            Cables = desk.Lists.Cables.KindHref(kind.Id, place),
            About = desk.Prose.Blocks(kind.About?.Value, place),
            Note = desk.Prose.Blocks(kind.Note?.Value, place, 2, "note"),
            Provenance = desk.Provenances.Of(kind, place, "", ("Diameter", kind.Diameter?.Evidence), ("Mass", kind.Mass?.Evidence), ("Gauge", kind.Gauge?.Evidence)),
        });

    /// <summary>The page of an event.</summary>
    /// <param name="happening">An event that stands.</param>
    public SiteFile Of(ArchiveEvent happening) => desk.Page(PagePaths.Of(happening), place =>
    {
        var line = desk.Rows.Event(happening, place);
        return new EventPage(desk.Head("event", place, $"{happening.Id}: {line.What}, {line.On}", $"{line.On}: {line.What}.", Trail("Events", RecordKind.Event, place)))
        {
            Id = happening.Id,
            What = line.What,
            Facts = Facts(line),
            Of = [.. happening.Of.Take(MostOf).Select(id => desk.Rows.Record(id.Value, place))],
            OfCount = happening.Of.Length,
            Photos = desk.Rows.PhotosOf(happening, place),
            Note = desk.Prose.Blocks(happening.Note?.Value, place, 2, "note"),
            Provenance = desk.Provenances.Of(happening, place),
        };
    });

    private static ImmutableArray<Link> Trail(string text, RecordKind kind, PagePlace place) => [new(text, place.To(PagePaths.Index(kind)))];

    private ImmutableArray<FactLine> Facts(CableKind kind)
    {
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        if (kind.Family is { } family) facts.Add(new FactLine("Family", new Figure(Words.Of(family.Value))));
        facts.Add(new FactLine("Diameter", desk.Figures.Of(kind.Diameter)));
        facts.Add(new FactLine("Mass", desk.Figures.Of(kind.Mass)));
        if (kind is { Bend: { } bend, Diameter: { } diameter })
        {
            facts.Add(new FactLine("Least bending radius", new Figure(
                desk.Figures.Text.Of(diameter.Value * bend.Value), EvidenceText.Derived($"{bend.Value.ToString(System.Globalization.CultureInfo.InvariantCulture)} diameters"))));
        }

        if (kind.Pairs is not null) facts.Add(new FactLine("Pairs", desk.Figures.Of(kind.Pairs)));
        if (kind.Gauge is not null) facts.Add(new FactLine("Conductor", desk.Figures.Of(kind.Gauge)));
        return facts.ToImmutable();
    }

    private static ImmutableArray<FactLine> Facts(EventLine line)
    {
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        facts.Add(new FactLine("When", new Figure(line.On)));
        if (line.To is { } hall) facts.Add(new FactLine("To", new Figure(hall.Text), hall.Href));
        if (line.Place.Length > 0) facts.Add(new FactLine("Place", new Figure(line.Place)));
        if (line.By.Length > 0) facts.Add(new FactLine("By", new Figure(line.By)));
        return facts.ToImmutable();
    }
}
