using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.HandTags;
using Archive.Plans.Safety;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Labels;

namespace Archive.Site.PlanPages;

/// <summary>The hand-tag list.</summary>
public sealed record HandTagsPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>What can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The document of the whole list.</summary>
    public required Link Whole { get; init; }

    /// <summary>The cables of this sheet, by frame in walking order.</summary>
    public required ImmutableArray<RowGroup<HandTagRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A cable to tag by hand.</summary>
/// <param name="Why">Why its label is not enough.</param>
/// <param name="Perhaps">What its misread label may really say, the most likely; null where nothing near would do.</param>
public sealed record HandTagRow(CableRow Row, HtmlFragment Why, CandidateView? Perhaps)
{
    /// <summary>What to watch out for, the worst first.</summary>
    public ImmutableArray<WarningLine> Warnings { get; init; } = [];
}

/// <summary>Makes the pages of the hand-tag list.</summary>
/// <param name="plan">The list.</param>
/// <param name="stepLists">Makes the document of the whole list.</param>
internal sealed class HandTagPages(
    ArchiveModel archive,
    PageFactory pageFactory,
    ProseRenderer prose,
    RowBuilder rowBuilder,
    LabelViewBuilder labelViews,
    HandTagsPlan plan,
    StepListPages stepLists)
{
    public IEnumerable<OutputFile> All()
    {
        var summary = plan.Summary;
        var rows = plan.Tags.Select(tag => (HeadingOf(tag), tag)).ToImmutableArray();
        var grouped = new GroupedRows<HandTag>(
            rows,
            HandTagsPlan.Kind.Page,
            HandTagsPlan.Kind.Folder,
            row => row.Heading.Heading,
            SheetSizes.HandTags,
            tag => tag.Reading.Cable.Id);
        for (var number = 1; number <= grouped.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(
                grouped.Sheets.Path(sheet), location => new HandTagsPage(pageFactory.PlanHead(HandTagsPlan.Kind, location))
                {
                    Summary = summary,
                    Cautions = plan.Cautions,
                    Groups = grouped.On(sheet, tag => RowOf(tag, location)),
                    Whole = new Link("Whole list, to print or one by one", location.To(StepListPages.PathOf(HandTagsPlan.Kind.Folder))),
                    Sheet = grouped.Sheet(sheet, location),
                });
        }

        foreach (var file in stepLists.All(new StepList<(int Number, HandTag Tag)>(
            HandTagsPlan.Kind.Title,
            HandTagsPlan.Kind.Page,
            HandTagsPlan.Kind.Folder,
            location => [new Link("Plans", location.To("plans/index.html"))])
        {
            Says = summary,
            Things = "Cable",
            Cautions = _ => plan.Cautions,
            Warnings = step => plan.Warnings.OfTagging(step.Tag.Reading),
            Steps = [.. rows.Select((row, index) => (row.Item1, (index + 1, row.tag)))],
            Row = (step, location) => new ListedStep(
                step.Number,
                RecordLink.To(step.Tag.Reading.Cable, location),
                RowBuilder.PrintOn(step.Tag.Reading.Cable),
                [.. Does(step.Tag, location)]),
        })) yield return file;
    }

    private IEnumerable<CrewText> Does(HandTag tag, PageLocation location)
    {
        var ends = tag.Reading.Ends.OrderByDescending(end => end.At == tag.At).ToList();
        for (var end = 0; end < ends.Count; end++)
            yield return new CrewText(end == 0 ? "Tag it at" : "and at", rowBuilder.At(ends[end], location));
        if (ends.Count < 2) yield return new CrewText(ends.Count == 0
            ? "Neither end is recorded: follow the cable to both ends and tag them"
            : "; follow it to its other end, which is not recorded, and tag that", null);
        yield return new CrewText(".", null);
        yield return new CrewText(Phrase.Sentence(tag.Reading.Why.Replace("`", "", StringComparison.Ordinal)), null);
        if (tag.Best is { } best) yield return new CrewText($"Possibly {best.Reading.Label}: look again.", null);
    }

    // The end here first. What both ends were seen to be need not be said again.
    private HandTagRow RowOf(HandTag tag, PageLocation location)
    {
        var row = rowBuilder.Cable(tag.Reading.Cable, location);
        var ends = row.Ends.OrderByDescending(end => tag.At is { } at && end.Text == at.ToString()).ToImmutableArray();
        var perhaps = tag.Best is { } best ? labelViews.Candidate(best, tag.Reading, location) : null;
        return new HandTagRow(
            row with { Ends = ends },
            prose.Line(Phrase.Sentence(tag.Reading.Why), location),
            tag.Best?.Fit == CandidateFit.AllEnds ? perhaps! with { Means = [] } : perhaps)
        {
            Warnings = [.. plan.Warnings.OfTagging(tag.Reading).Select(warning => WarningLine.Create(warning, archive, location))],
        };
    }

    private RowHeading HeadingOf(HandTag tag) => tag.At is not { } at
        ? new RowHeading("At no known frame", "nowhere")
        : new RowHeading(archive.FrameAt(at) is { } frame && frame.Title != frame.Id
            ? $"{frame.Id}: {frame.Title}"
            : at.Frame, "at-" + PagePaths.Anchor(at.Frame))
        { Short = at.Frame };
}
