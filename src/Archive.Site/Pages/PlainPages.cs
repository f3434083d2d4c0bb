using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Labels;

namespace Archive.Site.Pages;

/// <summary>A page that says little: search, not found, forwarding.</summary>
public sealed record PlainPage(PageHead Head) : PageView(Head);

/// <summary>The page at an address that a record had before.</summary>
/// <param name="Was">The id it had.</param>
public sealed record ForwardPage(PageHead Head, string Was, RecordLink Now) : PageView(Head);

/// <summary>The page of a withdrawn record.</summary>
public sealed record WithdrawnPage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people called it; empty where that was the id.</summary>
    public required string Name { get; init; }

    /// <summary>What it was, such as <c>frame</c>.</summary>
    public required string Noun { get; init; }

    /// <summary>Why it was withdrawn.</summary>
    public required HtmlFragment Why { get; init; }

    /// <summary>What happened to it.</summary>
    public required ImmutableArray<EventLine> Events { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>What is calculated from the record.</summary>
public sealed record PlansPage(PageHead Head) : PageView(Head)
{
    /// <summary>The plans that have a page of their own.</summary>
    public required ImmutableArray<PlanLine> Plans { get; init; }

    /// <summary>Share of cables that can be rebuilt from their labels; null without cables.</summary>
    public required FactText? Rebuildable { get; init; }

    /// <summary>Cables by how reliable their labels are.</summary>
    public required ImmutableArray<FactLine> Verdicts { get; init; }
}

/// <summary>A plan as a line of a list.</summary>
/// <param name="Means">What it tells.</param>
/// <param name="Says">The result, in a sentence.</param>
public sealed record PlanLine(Link Plan, string Means, string Says);

/// <summary>Makes the pages that are no record's.</summary>
internal sealed class PlainPages(
    SiteContents site,
    CrossReferences references,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    ProvenanceBuilder provenances)
{
    /// <summary>Search, plans, not found.</summary>
    public IEnumerable<OutputFile> Pages()
    {
        yield return Plain("search/index.html", "search", "Search", "Find a record by its id, label, name or words.");
        yield return Plain("offline/index.html", "offline", "Use offline", "Save this record on a phone, for a hall without a network.");
        yield return pageFactory.Page("404.html", location => new PlainPage(pageFactory.Head(
            "not-found",
            location,
            "Not found",
            "This page does not exist.") with
        { Root = site.Record.Statement.Base is { } address ? Href.OfHost(address.Value) : null }));
        yield return pageFactory.Page("plans/index.html", Plans);
    }

    /// <summary>The pages at addresses that records had before.</summary>
    public IEnumerable<OutputFile> Forwards() =>
        site.Record.ById.Values.OrderBy(record => record.Id, StringComparer.Ordinal).SelectMany(ForwardsTo);

    /// <summary>The pages at addresses that a record had before.</summary>
    public IEnumerable<OutputFile> ForwardsTo(ArchiveRecord record) =>
        from was in record.Was.Select(was => was.Value).Distinct(StringComparer.Ordinal)
        where RecordId.IsValid(was) && !site.Record.ById.ContainsKey(was) && site.Record.Former[was] == record
        select Forward(was, record);

    /// <summary>The page of a withdrawn record.</summary>
    public OutputFile Withdrawn(ArchiveRecord record) => pageFactory.Page(PagePaths.For(record), location =>
        new WithdrawnPage(pageFactory.Head(
            "withdrawn",
            location,
            $"{record.Id}, withdrawn",
            $"{record.Id} was withdrawn from this record.",
            new Link(ListOf(record.RecordKind), location.To(PagePaths.Index(record.RecordKind)))))
        {
            Id = record.Id,
            Name = record.Title == record.Id ? "" : record.Title,
            Noun = record.RecordKind.Noun(),
            Why = prose.Blocks(record.Withdrawn?.Value, location),
            Events = [.. references.EventsOf[record.Id].Select(archiveEvent => rowBuilder.Event(archiveEvent, location, record))],
            Provenance = provenances.Create(record, location),
        });

    private static string ListOf(RecordKind kind) => kind switch
    {
        RecordKind.CableKind => "Kinds of cable",
        RecordKind.Scheme => "How to read labels",
        RecordKind.Box => "Boxes",
        RecordKind.Story => "Stories",
        _ => Phrase.Sentence(kind.Noun() + "s").TrimEnd('.'),
    };

    private OutputFile Plain(string path, string template, string title, string description) =>
        pageFactory.Page(path, location => new PlainPage(pageFactory.Head(template, location, title, description)));

    private OutputFile Forward(string was, ArchiveRecord record) => pageFactory.Page(PagePaths.For(record.RecordKind, was), location =>
    {
        var head = pageFactory.Head("forward", location, $"{was} is now {record.Id}", $"{was} is now {record.Id}.") with
        {
            Canonical = pageFactory.Permalink(PagePaths.For(record))
        };
        return new ForwardPage(head, was, RecordLink.To(record, location));
    });

    private PlansPage Plans(PageLocation location)
    {
        var readings = site.Readings;
        var share = readings.RebuildableShare;
        return new PlansPage(pageFactory.Head("plans", location, "Plans", "Calculated from the record."))
        {
            Plans = [.. site.Plans.Select(plan =>
                new PlanLine(new Link(plan.Kind.Title, location.To(plan.Kind.Page)), plan.Kind.Means, plan.Summary[0]))],
            Rebuildable = share is { } of
                ? new FactText(
                    $"{Phrase.Count(readings.Rebuildable)} of {Phrase.Count(readings.Cables.Length, "cable")} ({formatter.Text.Format(UnitsNet.Ratio.FromDecimalFractions(of))})")
                : null,
            Verdicts = [.. Enum.GetValues<LabelVerdict>().Select(verdict =>
                new FactLine(Phrase.Sentence(verdict.InWords()).TrimEnd('.'), new FactText(Phrase.Count(readings.Count(verdict)))))],
        };
    }
}
