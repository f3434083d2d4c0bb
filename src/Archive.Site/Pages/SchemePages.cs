using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Labels;

namespace Archive.Site.Pages;

/// <summary>The page of a label scheme.</summary>
public sealed record SchemePage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people call it.</summary>
    public required string Name { get; init; }

    /// <summary>Whether it reads the tags at the ends, and not the labels of whole cables.</summary>
    public required bool IsForEnds { get; init; }

    /// <summary>One label read step by step, for someone who has never read one; null without an example.</summary>
    public required LessonView? Lesson { get; init; }

    /// <summary>Further examples taken apart.</summary>
    public required ImmutableArray<ExampleView> Examples { get; init; }

    public required ImmutableArray<TableView> Tables { get; init; }

    /// <summary>Sets of characters that are mistaken for each other on these labels.</summary>
    public required ImmutableArray<string> Confusions { get; init; }

    /// <summary>The pattern, as a regular expression.</summary>
    public required string Reads { get; init; }

    /// <summary>What the pattern means, an address an end.</summary>
    public required ImmutableArray<string> Means { get; init; }

    /// <summary>Cables whose print was misread, with what it may have been by this scheme.</summary>
    public required ImmutableArray<MisreadRow> Misread { get; init; }

    /// <summary>How many cables it reads, by what that is worth.</summary>
    public required ImmutableArray<FactLine> Worth { get; init; }

    public required HtmlFragment About { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>A label taken apart.</summary>
/// <param name="Label">The label, exactly as written.</param>
/// <param name="Parts">Its stretches.</param>
/// <param name="Means">The places it means.</param>
public sealed record ExampleView(string Label, ImmutableArray<PartView> Parts, ImmutableArray<EndPlace> Means);

/// <summary>A label read step by step.</summary>
/// <param name="Example">The label taken apart.</param>
/// <param name="Steps">What each stretch says, from left to right.</param>
/// <param name="Places">How the places that it means are put together, in order.</param>
public sealed record LessonView(ExampleView Example, ImmutableArray<StepView> Steps, ImmutableArray<PutTogetherView> Places);

/// <summary>A step of reading a label.</summary>
/// <param name="Text">The stretch, exactly as written.</param>
/// <param name="Where">Which characters of the label these are, such as <c>1st and 2nd</c>.</param>
/// <param name="Says">What it says, such as <c>row</c>.</param>
/// <param name="End">Which place it is part of, such as <c>first</c>; empty where it is part of none.</param>
/// <param name="Table">The table to look it up in; null where it stands for itself.</param>
public sealed record StepView(string Text, string Where, string Says, string End, Link? Table, string StandsFor);

/// <summary>How a place is put together.</summary>
/// <param name="End">Which place, such as <c>first</c>.</param>
/// <param name="Pieces">Its pieces in order: what a stretch stands for has a name, what the scheme sets between has none.</param>
/// <param name="Means">The place.</param>
public sealed record PutTogetherView(string End, ImmutableArray<PartView> Pieces, EndPlace Means);

/// <summary>A cable whose print was misread.</summary>
/// <param name="Recorded">What was recorded, exactly as written.</param>
/// <param name="Perhaps">What it may have been, the most likely.</param>
public sealed record MisreadRow(RecordLink Cable, string Recorded, CandidateView Perhaps);

/// <summary>A table of a scheme.</summary>
/// <param name="Name">What it is for, such as <c>row</c>.</param>
/// <param name="Entries">What is printed, and what it stands for.</param>
public sealed record TableView(string Name, string Anchor, ImmutableArray<FactLine> Entries);

/// <summary>Makes the pages of schemes.</summary>
internal sealed class SchemePages(
    SiteContents site, PageFactory pageFactory, ProseRenderer prose, ProvenanceBuilder provenances, LabelViewBuilder labelViews)
{
    private const int MostMisread = 24;

    private readonly Lazy<ILookup<string, LabelVerdict>> _worth = new(() => site.Readings.Cables
        .SelectMany(known => known.Tags
            .Prepend(known.Label)
            .OfType<LabelReading>()
            .Select(reading => reading.Scheme.Scheme.Id)
            .Distinct()
            .Select(scheme => (Scheme: scheme, known.Verdict)))
        .ToLookup(pair => pair.Scheme, pair => pair.Verdict, StringComparer.Ordinal));

    private readonly Lazy<ILookup<string, CableReading>> _misread = new(() => site.Readings.Cables
        .Where(known => !known.Candidates.IsEmpty).ToLookup(known => known.Candidates[0].Reading.Scheme.Scheme.Id, StringComparer.Ordinal));

    /// <summary>The page of a scheme.</summary>
    /// <param name="scheme">A scheme that stands.</param>
    public OutputFile Create(LabelScheme scheme) => pageFactory.Page(PagePaths.For(scheme), location => View(scheme, location));

    private SchemePage View(LabelScheme scheme, PageLocation location)
    {
        var compiled = site.Readings.Schemes.FirstOrDefault(known => ReferenceEquals(known.Scheme, scheme))
            ?? CompiledScheme.Compile(scheme);
        var trail = new Link("How to read labels", location.To(PagePaths.Index(RecordKind.Scheme)));
        return new SchemePage(pageFactory.Head("scheme", location, scheme.Title, $"How labels are read: {scheme.Title}.", trail))
        {
            Id = scheme.Id,
            Name = scheme.Title,
            IsForEnds = compiled.IsForEnds,
            Lesson = scheme.Examples.IsEmpty ? null : Lesson(scheme.Examples[0], compiled, location),
            Misread = [.. _misread.Value[scheme.Id].Take(MostMisread).Select(known => Misread(known, location))],
            Examples = [.. scheme.Examples.Skip(1).Select(example => Example(example, compiled, location))],
            Tables = [.. scheme.Tables
                .OrderBy(table => table.Key, StringComparer.Ordinal)
                .Select(table => new TableView(table.Key, Anchor(table.Key),
                    [.. table.Value
                        .OrderBy(entry => new NaturalSortKey(entry.Key))
                        .Select(entry => new FactLine(entry.Key, new FactText(entry.Value.Value)))]))],
            Confusions = [.. scheme.Confusions.Select(set => string.Join(' ', set.Value.EnumerateRunes()))],
            Reads = scheme.Reads?.Value ?? "",
            Means = [.. scheme.Means.Select(means => means.Value)],
            Worth = [.. _worth.Value[scheme.Id].GroupBy(verdict => verdict).OrderBy(group => group.Key)
                .Select(group =>
                    new FactLine(Phrase.Sentence(group.Key.InWords()).TrimEnd('.'), new FactText(Phrase.Count(group.Count(), "cable"))))],
            About = prose.Blocks(scheme.About?.Value, location),
            Note = prose.Blocks(scheme.Note?.Value, location, 2, "note"),
            Provenance = provenances.Create(scheme, location),
        };
    }

    private ExampleView Example(SchemeExample example, CompiledScheme compiled, PageLocation location) => new(
        example.Label.Value,
        LabelViewBuilder.Parts(compiled.TakeApart(example.Label.Value)),
        labelViews.Means([.. example.Means.Select(means => means.Value)], location));

    private MisreadRow Misread(CableReading known, PageLocation location)
    {
        var best = known.Candidates[0];
        var recorded = best.End is { } end ? known.Cable.Ends[end].Label : known.Cable.Label;
        return new MisreadRow(RecordLink.To(known.Cable, location), recorded?.Value ?? "", labelViews.Candidate(best, known, location));
    }

    private LessonView? Lesson(SchemeExample example, CompiledScheme compiled, PageLocation location)
    {
        var label = example.Label.Value;
        var put = compiled.PutTogether(label);
        if (put.IsEmpty) return null;
        var view = Example(example, compiled, location);
        return new LessonView(
            view,
            [.. compiled
                .TakeApart(label)
                .Where(part => part.Group is not null)
                .Select(part => Step(part, label, (compiled, put), location))],
            [.. put.Select((parts, end) => new PutTogetherView(
                EndOf(end, put.Length),
                [.. parts.Select(part => new PartView(part.StandsFor ?? part.Text, LabelViewBuilder.Says(part), ""))],
                view.Means[Math.Min(end, view.Means.Length - 1)]))]);
    }

    private static StepView Step(
        LabelPart part, string label, (CompiledScheme Scheme, ImmutableArray<ImmutableArray<LabelPart>> Put) read, PageLocation location)
    {
        var (compiled, put) = read;
        var glyph = label[..part.Start].EnumerateRunes().Count();
        var last = glyph + part.Text.EnumerateRunes().Count() - 1;
        var ends = Enumerable.Range(0, put.Length).Where(end => put[end].Any(other => other.Group == part.Group)).ToList();
        var where = last == glyph
            ? Phrase.Ordinal(glyph)
            : last == glyph + 1
            ? $"{Phrase.Ordinal(glyph)} and {Phrase.Ordinal(last)}"
            : $"{Phrase.Ordinal(glyph)} to {Phrase.Ordinal(last)}";
        return new StepView(
            part.Text,
            where,
            LabelViewBuilder.Says(part),
            ends.Count == 0 || put.Length == 1 ? "" : string.Join(" and ", ends.Select(end => EndOf(end, put.Length))),
            compiled.TableNameOf(part.Group!) is { } table ? new Link(table, location.To(location.Path, Anchor(table))) : null,
            part.StandsFor ?? "unknown");
    }

    private static string EndOf(int end, int of) => of == 1 ? "" : Phrase.Nth(end);

    private static string Anchor(string table) => "table-" + PagePaths.Anchor(table);
}
