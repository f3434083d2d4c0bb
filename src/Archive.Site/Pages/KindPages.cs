using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.Safety;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Wording;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The page of a kind of cable.</summary>
public sealed record KindPage(PageHead Head) : PageView(Head)
{
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

    public required HtmlFragment About { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>Makes the pages of kinds of cable.</summary>
/// <param name="lists">The lists that pages link into.</param>
internal sealed class KindPages(
    CrossReferences references,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    SharedIndexes lists,
    ProvenanceBuilder provenances)
{
    /// <summary>The page of a kind of cable.</summary>
    /// <param name="kind">A kind that stands.</param>
    public OutputFile Create(CableKind kind) => pageFactory.Page(PagePaths.For(kind), location =>
        new KindPage(pageFactory.Head(
            "kind",
            location,
            kind.Title,
            $"{kind.Title}, a kind of cable.",
            [new Link("Kinds of cable", location.To(PagePaths.Index(RecordKind.CableKind)))]))
        {
            Id = kind.Id,
            Name = kind.Title,
            Facts = Facts(kind),
            Cautions = [.. HazardCautions.For(kind.Hazards), .. StandardCautions.For(kind.Family?.Value) is { } caution
                ? [caution]
                : Array.Empty<Caution>()],
            CableCount = references.CablesOf[kind.Id].Count(),
            Cables = lists.Cables.KindHref(kind.Id, location),
            About = prose.Blocks(kind.About?.Value, location),
            Note = prose.Blocks(kind.Note?.Value, location, 2, "note"),
            Provenance = provenances.Create(
                kind, location, "", ("Diameter", kind.Diameter?.Evidence), ("Mass", kind.Mass?.Evidence), ("Gauge", kind.Gauge?.Evidence)),
        });

    private ImmutableArray<FactLine> Facts(CableKind kind)
    {
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        if (kind.Family is { } family) facts.Add(new FactLine("Family", new FactText(Phrase.For(family.Value))));
        facts.Add(new FactLine("Diameter", formatter.Format(kind.Diameter)));
        facts.Add(new FactLine("Mass", formatter.Format(kind.Mass)));
        if (kind is { Bend: { } bend, Diameter: { } diameter })
        {
            facts.Add(new FactLine("Minimum bend radius", new FactText(
                formatter.Text.Format(diameter.Value * bend.Value),
                EvidenceText.Derived($"{bend.Value.ToString(System.Globalization.CultureInfo.InvariantCulture)} diameters"))));
        }

        if (kind.Pairs is not null) facts.Add(new FactLine("Pairs", formatter.Format(kind.Pairs)));
        if (kind.Gauge is not null) facts.Add(new FactLine("Conductor", formatter.Format(kind.Gauge)));
        return facts.ToImmutable();
    }
}
