using System.Collections.Immutable;
using Archive.Records;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>The page of a label scheme.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record SchemePage(PageHead Head) : PageView(Head)
{
    /// <summary>Its id.</summary>
    public required string Id { get; init; }

    /// <summary>What people call it.</summary>
    public required string Name { get; init; }

    /// <summary>Whether it reads the tags at the ends, and not the labels of whole cables.</summary>
    public required bool IsForEnds { get; init; }

    /// <summary>Examples taken apart.</summary>
    public required ImmutableArray<ExampleView> Examples { get; init; }

    /// <summary>Its tables.</summary>
    public required ImmutableArray<TableView> Tables { get; init; }

    /// <summary>Sets of glyphs that the print is misread between.</summary>
    public required ImmutableArray<string> Confusions { get; init; }

    /// <summary>The pattern, as a regular expression.</summary>
    public required string Reads { get; init; }

    /// <summary>What the pattern means, an address an end.</summary>
    public required ImmutableArray<string> Means { get; init; }

    /// <summary>How many cables it reads, by what that is worth.</summary>
    public required ImmutableArray<FactLine> Worth { get; init; }

    /// <summary>Description.</summary>
    public required Markup About { get; init; }

    /// <summary>Remark.</summary>
    public required Markup Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>A label taken apart.</summary>
/// <param name="Label">The label, letter for letter.</param>
/// <param name="Parts">Its stretches.</param>
/// <param name="Means">The places it means.</param>
public sealed record ExampleView(string Label, ImmutableArray<PartView> Parts, ImmutableArray<EndPlace> Means);

/// <summary>A table of a scheme.</summary>
/// <param name="Name">What it is for, such as <c>row</c>.</param>
/// <param name="Entries">What is printed, and what it stands for.</param>
public sealed record TableView(string Name, ImmutableArray<FactLine> Entries);

/// <summary>Makes the pages of schemes.</summary>
/// <param name="desk">What every page is written at.</param>
internal sealed class SchemePages(Desk desk)
{
    private readonly Lazy<ILookup<string, Verdict>> _worth = new(() => desk.Contents.Readings.Cables
        .SelectMany(known => known.Tags.Prepend(known.Label).OfType<Reading>().Select(reading => reading.Scheme.Scheme.Id).Distinct().Select(scheme => (Scheme: scheme, known.Verdict)))
        .ToLookup(pair => pair.Scheme, pair => pair.Verdict, StringComparer.Ordinal));

    /// <summary>The page of a scheme.</summary>
    /// <param name="scheme">A scheme that stands.</param>
    public SiteFile Of(LabelScheme scheme) => desk.Page(PagePaths.Of(scheme), place => View(scheme, place));

    private SchemePage View(LabelScheme scheme, PagePlace place)
    {
        var compiled = desk.Contents.Readings.Schemes.FirstOrDefault(known => ReferenceEquals(known.Scheme, scheme)) ?? CompiledScheme.Of(scheme);
        var trail = new Link("How labels are read", place.To(PagePaths.Index(RecordKind.Scheme)));
        return new SchemePage(desk.Head("scheme", place, scheme.Title, $"How labels are read: {scheme.Title}.", trail))
        {
            Id = scheme.Id,
            Name = scheme.Title,
            IsForEnds = compiled.IsForEnds,
            Examples = [.. scheme.Examples.Select(example => Example(example, compiled, place))],
            Tables = [.. scheme.Tables.OrderBy(table => table.Key, StringComparer.Ordinal).Select(table => new TableView(table.Key,
                [.. table.Value.OrderBy(entry => new NaturalText(entry.Key)).Select(entry => new FactLine(entry.Key, new Figure(entry.Value.Value)))]))],
            Confusions = [.. scheme.Confusions.Select(set => string.Join(' ', set.Value.EnumerateRunes()))],
            Reads = scheme.Reads?.Value ?? "",
            Means = [.. scheme.Means.Select(means => means.Value)],
            Worth = [.. _worth.Value[scheme.Id].GroupBy(verdict => verdict).OrderBy(group => group.Key)
                .Select(group => new FactLine(Words.Sentence(Words.Of(group.Key)).TrimEnd('.'), new Figure(Words.Count(group.Count(), "cable"))))],
            About = desk.Prose.Blocks(scheme.About?.Value, place),
            Note = desk.Prose.Blocks(scheme.Note?.Value, place, 2, "note"),
            Provenance = desk.Provenances.Of(scheme, place),
        };
    }

    private ExampleView Example(SchemeExample example, CompiledScheme compiled, PagePlace place) => new(
        example.Label.Value, LabelViews.Parts(compiled.TakeApart(example.Label.Value)), desk.Labels.Means([.. example.Means.Select(means => means.Value)], place));
}
