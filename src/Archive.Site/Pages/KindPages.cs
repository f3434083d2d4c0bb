using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Site;

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

/// <summary>Makes the pages of kinds of cable.</summary>
/// <param name="references">What refers to what.</param>
/// <param name="pageFactory">Makes pages and their heads.</param>
/// <param name="prose">Makes prose.</param>
/// <param name="formatter">Writes facts with their units and evidence.</param>
/// <param name="lists">The lists that pages link into.</param>
/// <param name="provenances">Says where facts come from.</param>
internal sealed class KindPages(CrossReferences references, PageFactory pageFactory, Prose prose, Figures formatter, Lists lists, Provenances provenances)
{
    /// <summary>The page of a kind of cable.</summary>
    /// <param name="kind">A kind that stands.</param>
    public SiteFile Of(CableKind kind) => pageFactory.Page(PagePaths.Of(kind), place =>
        new KindPage(pageFactory.Head("kind", place, kind.Title, $"{kind.Title}, a kind of cable.", [new Link("Kinds of cable", place.To(PagePaths.Index(RecordKind.CableKind)))]))
        {
            Id = kind.Id,
            Name = kind.Title,
            Facts = Facts(kind),
            Cautions = Cautions.For(kind.Family?.Value) is { } caution ? [caution] : [],
            CableCount = references.CablesOf[kind.Id].Count(),
            Cables = lists.Cables.KindHref(kind.Id, place),
            About = prose.Blocks(kind.About?.Value, place),
            Note = prose.Blocks(kind.Note?.Value, place, 2, "note"),
            Provenance = provenances.Of(kind, place, "", ("Diameter", kind.Diameter?.Evidence), ("Mass", kind.Mass?.Evidence), ("Gauge", kind.Gauge?.Evidence)),
        });

    private ImmutableArray<FactLine> Facts(CableKind kind)
    {
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        if (kind.Family is { } family) facts.Add(new FactLine("Family", new Figure(Words.Of(family.Value))));
        facts.Add(new FactLine("Diameter", formatter.Of(kind.Diameter)));
        facts.Add(new FactLine("Mass", formatter.Of(kind.Mass)));
        if (kind is { Bend: { } bend, Diameter: { } diameter })
        {
            facts.Add(new FactLine("Minimum bend radius", new Figure(
                formatter.Text.Of(diameter.Value * bend.Value), EvidenceText.Derived($"{bend.Value.ToString(System.Globalization.CultureInfo.InvariantCulture)} diameters"))));
        }

        if (kind.Pairs is not null) facts.Add(new FactLine("Pairs", formatter.Of(kind.Pairs)));
        if (kind.Gauge is not null) facts.Add(new FactLine("Conductor", formatter.Of(kind.Gauge)));
        return facts.ToImmutable();
    }
}
