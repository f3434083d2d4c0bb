using System.Collections.Immutable;
using Archive.Drawings.QrCodes;
using Archive.LabelSheets;
using Archive.Markup.Links;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>QR labels to print.</summary>
public sealed record LabelsPage(PageHead Head) : PageView(Head)
{
    /// <summary>Whether the archive has a base, without which a code leads nowhere.</summary>
    public required bool HasBase { get; init; }

    /// <summary>Why labels are not all ready; empty where they are.</summary>
    public required string OnRequest { get; init; }

    /// <summary>The level of error correction.</summary>
    public required string Level { get; init; }

    /// <summary>The sizes that are ready.</summary>
    public required ImmutableArray<LabelSize> Sizes { get; init; }

    /// <summary>Batches of this sheet, by row, module and display.</summary>
    public required ImmutableArray<RowGroup<LabelLine>> Groups { get; init; }

    /// <summary>Labels of cables, coils, trays and doors; on further sheets none.</summary>
    public required ImmutableArray<LabelLine> Others { get; init; }

    /// <summary>What is missing for more of them.</summary>
    public required ImmutableArray<string> Missing { get; init; }

    /// <summary>Which page of the list this is.</summary>
    public required PageOfList Sheet { get; init; }
}

/// <summary>A size of label.</summary>
/// <param name="Size">Width and height.</param>
/// <param name="OnSheets">How many go on a sheet of each paper.</param>
/// <param name="Module">Side of a module in the code.</param>
/// <param name="Distance">From how far it is read.</param>
public sealed record LabelSize(string Size, string OnSheets, string Module, string Distance);

/// <summary>A batch of labels.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Count">How many labels.</param>
/// <param name="Papers">Its sheets, a paper each.</param>
public sealed record LabelLine(string Name, string Count, ImmutableArray<LabelPaper> Papers);

/// <summary>The sheets of a batch on a paper.</summary>
/// <param name="Sheets">Its sheets, a size each; several links where one page would be too long.</param>
public sealed record LabelPaper(string Paper, ImmutableArray<Link> Sheets);

/// <summary>Makes the pages that lead to labels.</summary>
internal sealed class LabelPages
{
    private const int BatchesOnSheet = 60;
    private static readonly ImmutableArray<RowHeading> Headings =
    [
        new("By row", "by-row"),
        new("By module", "by-module"),
        new("By display", "by-display")
    ];
    private readonly ArchiveModel _archive;
    private readonly PageFactory _pageFactory;
    private readonly PreparedLabels _readyLabels;
    private readonly PreparedSubjects _subjects;
    private readonly ImmutableArray<ImmutableArray<string>> _folders;
    private readonly ImmutableArray<ImmutableArray<(LabelStock Stock, LabelSheetSet Sheets)>> _sheets;
    private readonly GroupedRows<(int By, int Batch)> _rows;

    /// <summary>Lists the batches.</summary>
    /// <param name="readyLabels">The QR labels that the site holds ready.</param>
    /// <param name="subjects">The labels of cables, coils, trays and doors.</param>
    public LabelPages(ArchiveModel archive, PageFactory pageFactory, PreparedLabels readyLabels, PreparedSubjects subjects)
    {
        (_archive, _pageFactory, _readyLabels, _subjects) = (archive, pageFactory, readyLabels, subjects);
        var (labels, kinds) = (_readyLabels, Enum.GetValues<BatchBy>());
        var isReady = !labels.Ready.IsEmpty;
        _folders = isReady ? [.. kinds.Select(labels.Folders)] : [];
        _sheets = isReady ? [.. kinds.Select(by =>
            labels.Ready.SelectMany(size => size.Stocks.Select(stock => (stock, labels.Sheets(by, size, stock)))).ToImmutableArray())] : [];
        var rows = _folders.SelectMany((folders, by) => folders.Select((_, batch) => (Headings[by], (by, batch)))).ToImmutableArray();
        _rows = new GroupedRows<(int By, int Batch)>(
            rows, "labels/index.html", "labels", row => labels.Batches[row.Row.By][row.Row.Batch].Name, BatchesOnSheet);
    }

    public IEnumerable<OutputFile> Pages()
    {
        for (var number = 1; number <= _rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return _pageFactory.Page(_rows.Sheets.Path(sheet), location => new LabelsPage(
                _pageFactory.Head("labels", location, "QR labels", "Labels for frames, cables, coils, trays and doors, to print and cut."))
            {
                HasBase = _archive.Statement.Base is not null,
                OnRequest = OnRequest(),
                Level = Worn(_readyLabels.Level),
                Sizes = [.. _readyLabels.Ready.Select(Size)],
                Groups = _rows.On(sheet, row => Line(row.By, row.Batch, location)),
                Others = sheet > 1 ? [] : [.. _subjects.All
                    .Where(subject => subject.Labels > 0 && subject.Sets.Length > 0)
                    .Select(subject => Line(subject, location))],
                Missing = sheet > 1 ? [] : [.. _subjects.IsTooLarge
                    ? ["This record is too large to prepare labels of its cables, coils, trays and doors in advance."]
                    : Array.Empty<string>(), .. _subjects.All.SelectMany(subject => subject.Missing)],
                Sheet = _rows.Sheets.On(sheet, location),
            });
        }
    }

    private string OnRequest() => _readyLabels switch
    {
        { IsTooLarge: true } => "This record is too large to prepare labels for it in advance.",
        { Ready.IsEmpty: true } => _archive.Frames.Any(frame => !frame.IsWithdrawn)
            ? "The addresses of this site are too long for codes of these sizes."
            : "There are no frames yet.",
        { IsOfOneSize: true } => "For a record of this size, labels are prepared in one size only.",
        _ => "",
    };

    // ISO/IEC 18004: what each level can restore.
    private static string Worn(ErrorCorrectionLevel level) => level switch
    {
        ErrorCorrectionLevel.L => "level L (readable with up to about 7 % of the code damaged)",
        ErrorCorrectionLevel.M => "level M (readable with up to about 15 % of the code damaged)",
        ErrorCorrectionLevel.Q => "level Q (readable with up to about 25 % of the code damaged)",
        _ => "level H (readable with up to about 30 % of the code damaged)",
    };

    private static LabelSize Size(PreparedSize size) => new(
        size.Stocks[0].SizeText,
        string.Join(", ", size.Stocks.Select(stock => FormattableString.Invariant($"{stock.PerSheet} on {stock.Paper.DisplayName}"))),
        FormattableString.Invariant($"{size.Design.Module:0.00} mm"),
        FormattableString.Invariant($"{Math.Floor(size.Design.Distance / 10):0} cm"));

    private LabelLine Line(int by, int batch, PageLocation location)
    {
        var worded = _readyLabels.Batches[by][batch];
        var papers = _sheets[by].GroupBy(of => of.Stock.Paper).Select(of => new LabelPaper(
            of.Key.DisplayName, [.. of.SelectMany(each => Links(each.Sheets, each.Stock, _folders[by][batch], batch, location))]));
        return new LabelLine((BatchBy)by == BatchBy.Module && worded.Id.Length > 0
            ? worded.Id
            : worded.Name, Phrase.Count(worded.Labels.Length), [.. papers]);
    }

    private static LabelLine Line(PreparedSubject subject, PageLocation location) => new(
        subject.Name, Phrase.Count(subject.Labels),
        [.. subject.Sets.GroupBy(set => set.Stock.Paper).Select(of => new LabelPaper(
            of.Key.DisplayName,
            [.. of.SelectMany(set => set.Pages.Select((path, i) => new Link(
                $"{FormOf(set.Stock)}{(set.Pages.Length == 1 ? "" : FormattableString.Invariant($", {i + 1} of {set.Pages.Length}"))}",
                location.To(path))))]))]);

    private static string FormOf(LabelStock stock) =>
        stock.Form == LabelForm.Tag ? stock.SizeTextShort : $"{stock.Form.ToString().ToLowerInvariant()} {stock.SizeTextShort}";

    private static IEnumerable<Link> Links(LabelSheetSet sheets, LabelStock stock, string folder, int batch, PageLocation location)
    {
        var pages = PreparedLabels.Pages(sheets, folder, batch, stock).ToList();
        return pages.Select((path, i) => new Link(
            pages.Count == 1 ? stock.SizeTextShort : FormattableString.Invariant($"{stock.SizeTextShort}, {i + 1} of {pages.Count}"),
            location.To(path)));
    }
}
