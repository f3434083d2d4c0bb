using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Plans.Survey;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Site.PlanPages;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>What is still to be recorded while the machine is standing.</summary>
public sealed record GapsPage(PageHead Head) : PageView(Head)
{
    /// <summary>How much is still to be recorded, by heading, as links.</summary>
    public required ImmutableArray<FactLine> Counts { get; init; }

    /// <summary>The document of the whole list.</summary>
    public required Link Whole { get; init; }

    /// <summary>What is still to be recorded, on this page.</summary>
    public required ImmutableArray<GapGroup> Groups { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>Things still to record under one heading.</summary>
/// <param name="IsContinued">Whether it began on a sheet before.</param>
/// <param name="Sets">What is still to be recorded of several records alike.</param>
/// <param name="Rows">What is still to be recorded of one record.</param>
public sealed record GapGroup(string Heading, string Anchor, bool IsContinued, ImmutableArray<GapSet> Sets, ImmutableArray<GapRow> Rows);

/// <summary>What is still to be recorded of several records alike.</summary>
/// <param name="Says">What it is; empty where the heading says it all.</param>
/// <param name="Records">Of what.</param>
public sealed record GapSet(string Says, ImmutableArray<RecordLink> Records);

/// <summary>Something still to record.</summary>
/// <param name="Record">Of what.</param>
/// <param name="Says">What it is, where the heading does not say it all.</param>
public sealed record GapRow(RecordLink Record, string Says);

/// <summary>Makes the pages of what is missing in the record.</summary>
internal sealed class GapsPages
{
    private readonly SiteContents _site;
    private readonly PageFactory _pageFactory;
    private readonly GapFinder _lacks;
    private readonly StepListPages _stepLists;
    private readonly GroupedRows<(ArchiveRecord Record, string Says)> _rows;

    /// <summary>Finds all that is missing. Linear in the record.</summary>
    public GapsPages(SiteContents site, PageFactory pageFactory, GapFinder lacks, StepListPages stepLists)
    {
        (_site, _pageFactory, _lacks, _stepLists) = (site, pageFactory, lacks, stepLists);
        var rows = Sections()
            .SelectMany(section => section.Rows.Select(row => (new RowHeading(section.Heading, section.Anchor), row)))
            .ToImmutableArray();
        _rows = new GroupedRows<(ArchiveRecord Record, string Says)>(
            rows,
            "lacks/index.html",
            "lacks",
            row => $"{row.Heading.Heading}: {row.Row.Record.Id}",
            key: row => $"{row.Record.Id} {row.Says}");
    }

    public IEnumerable<OutputFile> Pages()
    {
        var counts = _rows.Sheets.Rows.GroupBy(
            row => row.Heading.Anchor, StringComparer.Ordinal).Select(group => (group.First().Heading, Count: group.Count())).ToList();
        for (var number = 1; number <= _rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return _pageFactory.Page(_rows.Sheets.Path(sheet), location => new GapsPage(_pageFactory.Head(
                "lacks",
                location,
                "Still to record",
                "Facts and photos still missing from this record, to collect while the machine is still standing."))
            {
                Counts = [.. counts.Select(count =>
                    new FactLine(count.Heading.Heading, new FactText(Phrase.Count(count.Count)), _rows.To(count.Heading, location)))],
                Groups = [.. _rows.On(sheet, row => new GapRow(RecordLink.To(row.Record, location), row.Says)).Select(Gathered)],
                Whole = new Link("Whole list, to print or one by one", location.To(StepListPages.PathOf("lacks"))),
                Sheet = _rows.Sheets.On(sheet, location),
            });
        }

        foreach (var file in _stepLists.All(new StepList<GapLine>("Still to record", "lacks/index.html", "lacks", _ => [])
        {
            Says = [counts.Count == 0
                ? "Nothing that this list looks for is missing."
                : $"{Phrase.Heading(Phrase.Count(_rows.Sheets.Rows.Count, "gap"))} to fill while the machine is still standing."],
            Things = "Of",
            Steps = [.. _rows.Sheets.Rows.Select((row, index) =>
                (row.Heading, new GapLine(index + 1, row.Heading.Heading, row.Row.Record, row.Row.Says)))],
            Row = (gap, location) => new ListedStep(gap.Number, RecordLink.To(gap.Record, location), [], [new CrewText(
                $"{gap.Heading}{(gap.Says.Length == 0 ? "" : ": " + gap.Says)}", null)])
            { Key = $"{gap.Heading}: {gap.Record.Id}" },
        })) yield return file;
    }

    private sealed record GapLine(int Number, string Heading, ArchiveRecord Record, string Says);

    // Reported of many alike once, in the order in which they come; what stands alone keeps its line.
    private static GapGroup Gathered(RowGroup<GapRow> group)
    {
        var alike = group.Rows.GroupBy(row => row.Says, StringComparer.Ordinal).ToList();
        return new GapGroup(
            group.Heading, group.Anchor, group.IsContinued,
            [.. alike.Where(IsSet).Select(set => new GapSet(set.Key, [.. set.Select(row => row.Record)]))],
            [.. alike.Where(set => !IsSet(set)).SelectMany(set => set)]);

        static bool IsSet(IGrouping<string, GapRow> set) => set.Key.Length == 0 || set.Skip(1).Any();
    }

    private IEnumerable<(string Heading, string Anchor, IEnumerable<(ArchiveRecord Record, string Says)> Rows)> Sections()
    {
        var record = _site.Record;
        var frames = record.Frames.Where(frame => !frame.IsWithdrawn).ToList();
        var cables = record.Cables.Where(cable => !cable.IsWithdrawn).ToList();
        yield return ("Photos still to take", "views", WantedViews());
        var findings = _site.Findings;
        yield return ("Photos to take again", "photos", Photos(photo => findings.Again.GetValueOrDefault(photo.Id)));
        yield return ("Photos that look the same", "alike", Photos(photo => findings.Alike.GetValueOrDefault(photo.Id)));
        yield return ("Photos without a date", "untimed", Photos(photo => findings.Untimed.Contains(photo.Id) ? "" : null));
        yield return (
            "Unknown ends",
            "ends",
            cables.Where(cable => Known(cable) < 2).Select(cable => Row(cable, Known(cable) == 0 ? "neither end" : "one end")));
        yield return ("Ends known only from a label", "derived", cables.Where(IsDerived).Select(cable => Row(cable, "")));
        yield return ("Unknown lengths", "lengths", cables.Where(cable => cable.Length is null).Select(cable => Row(cable, "")));
        yield return (
            "Cables without a label or tag",
            "labels",
            cables.Where(cable => cable.Label is null && cable.Ends.All(end => end.Label is null)).Select(cable => Row(cable, "")));
        yield return ("Unknown weights", "weights", frames.Where(frame => frame.Weight is null).Select(frame => Row(frame, "")));
        yield return ("Unknown sizes", "sizes", frames.Where(frame => frame.Size is null).Select(frame => Row(frame, "")));
        yield return (
            "Frames not placed in the hall as found",
            "places",
            frames.Where(frame => _site.HallLayouts.AsFound?.ByFrame.ContainsKey(frame.Id) != true).Select(frame => Row(frame, "")));
        yield return (
            "Ends without a photo", "unphotographed", cables.Select(cable => (Cable: cable, Ends: _lacks.EndsNoPhotoShows(cable).ToList()))
                .Where(pair => pair.Ends.Count > 0).Select(pair => Row(pair.Cable, string.Join(" and ", pair.Ends))));
    }

    private IEnumerable<(ArchiveRecord, string)> WantedViews() =>
        from kind in _site.Record.Statement.WantedViews.Keys.Order()
        from record in _site.Record.ById.Values
            .Where(record => record.RecordKind == kind && !record.IsWithdrawn)
            .OrderBy(record => record.Id, StringComparer.Ordinal)
        let lacking = string.Join(", ", _lacks.MissingViews(record))
        where lacking.Length > 0
        select (record, lacking);

    private IEnumerable<(ArchiveRecord, string)> Photos(Func<Photo, string?> finding) =>
        from photo in _site.Record.Photos
        where !photo.IsWithdrawn
        let says = finding(photo)
        where says is not null
        select Row(photo, says);

    private static (ArchiveRecord, string) Row(ArchiveRecord record, string says) => (record, says);

    private int Known(Cable cable) => _site.Readings.Find(cable.Id)?.Ends.Length ?? 0;

    private bool IsDerived(Cable cable) => _site.Readings.Find(cable.Id)?.Ends.Any(end => end.IsDerived) == true;
}
