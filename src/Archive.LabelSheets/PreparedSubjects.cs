using System.Collections.Immutable;
using Archive.Drawings.QrCodes;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Storage.Output;

namespace Archive.LabelSheets;

/// <summary>Labels of a subject that a site holds ready.</summary>
/// <param name="Name">What they are called.</param>
/// <param name="Folder">Their folder.</param>
/// <param name="Labels">How many labels.</param>
/// <param name="Missing">What is missing in the record for more of them, in sentences.</param>
/// <param name="Sets">Their sheets, a form and paper each.</param>
public sealed record PreparedSubject(
    string Name, string Folder, int Labels, ImmutableArray<string> Missing, ImmutableArray<PreparedSheets> Sets);

/// <summary>Sheets of a subject.</summary>
/// <param name="Stock">The label and the paper.</param>
/// <param name="Pages">Paths of their pages.</param>
public sealed record PreparedSheets(LabelStock Stock, ImmutableArray<string> Pages)
{
    public required LabelSheetSet Sheets { get; init; }
}

/// <summary>The labels of cables, coils, trays, doors, units, boxes and pieces that a site holds ready to be printed.</summary>
public sealed class PreparedSubjects
{
    // Beyond so many labels sheets are made on request.
    private const int MostLabels = 10_000;

    // Sheets of paper on a page.
    private const int SheetsOnPage = 12;

    private static readonly ImmutableArray<(LabelForm Form, PaperSize Paper)> OnCables =
    [
        (LabelForm.Flag, PaperSize.A4),
        (LabelForm.Flag, PaperSize.Letter),
        (LabelForm.Wrap, PaperSize.A4),
        (LabelForm.Wrap, PaperSize.Letter)
    ];
    private static readonly ImmutableArray<(LabelForm Form, PaperSize Paper)> OnPaper =
    [
        (LabelForm.Tag, PaperSize.A4),
        (LabelForm.Tag, PaperSize.Letter)
    ];

    private readonly int _errors;
    private readonly EncodedTexts _codes;

    /// <summary>Finds which labels are made: none without an address.</summary>
    /// <param name="writer">Words them.</param>
    /// <param name="errors">Errors that the site is published with; sheets say so.</param>
    /// <param name="codes">The codes that pages and labels share.</param>
    public PreparedSubjects(ArchiveModel record, LabelWriter writer, int errors, EncodedTexts codes)
    {
        (_errors, _codes) = (errors, codes);
        if (record.Statement.Base is null) return;

        // Hundreds of thousands of labels are not worded only to be counted.
        IsTooLarge = writer.LeastOfCables > MostLabels;
        if (IsTooLarge) return;
        var foot = LabelText.FootOf(record);
        var cables = writer.Write(LabelSubject.Cables);
        (
            string Name,
            string Folder,
            ImmutableArray<BatchLabels> Batches,
            ImmutableArray<string> Missing,
            ImmutableArray<(LabelForm, PaperSize)> On)[] all =
        [
            ("Cables of the hand-tag list, in its order", "hand-tags", [
                .. cables.Batches.Where(batch => batch.Id == "hand-tags")
            ], [], OnCables),
            ("All other cables", "cables", [.. cables.Batches.Where(batch => batch.Id != "hand-tags")], cables.Missing, [OnCables[0]]),
            Subject("Coils", "coils", LabelSubject.Coils),
            Subject("Trays", "trays", LabelSubject.Trays),
            Subject("Doors and covers", "doors", LabelSubject.Doors),
            Subject("Units", "units", LabelSubject.Units),
            Subject("Boxes", "boxes", LabelSubject.Boxes),
            Subject("Pieces", "pieces", LabelSubject.Pieces),
        ];
        IsTooLarge = all.Sum(each => each.Batches.Sum(batch => batch.Labels.Length)) > MostLabels;
        if (IsTooLarge) return;
        All = [.. all.Select(each => new PreparedSubject(
            each.Name,
            $"labels/{each.Folder}",
            each.Batches.Sum(batch => batch.Labels.Length),
            each.Missing,
            [.. each.On.Select(on => Set(each.Folder, each.Name, each.Batches, on, foot)).OfType<PreparedSheets>()]))];

        (string, string, ImmutableArray<BatchLabels>, ImmutableArray<string>, ImmutableArray<(LabelForm, PaperSize)>) Subject(
            string name, string folder, LabelSubject subject) =>
            writer.Write(subject) is var written ? (name, folder, written.Batches, written.Missing, OnPaper) : default;
    }

    /// <summary>The subjects; none without an address or in a very large record.</summary>
    public ImmutableArray<PreparedSubject> All { get; } = [];

    /// <summary>Whether the record is so large that these labels are made on request.</summary>
    public bool IsTooLarge { get; }

    /// <summary>All files but the style sheets that frames' labels have too.</summary>
    public IEnumerable<OutputFile> Files()
    {
        var styles = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (subject, set) in All.SelectMany(subject => subject.Sets.Select(set => (subject, set))))
        {
            if (set.Stock.Form != LabelForm.Tag && styles.Add(StylePath(set.Stock)))
                yield return PreparedLabels.Text(StylePath(set.Stock), to => to.Write(LabelSheetSet.Style(set.Stock)));
            for (var page = 0; page < set.Pages.Length; page++)
            {
                var first = page * SheetsOnPage;
                yield return PreparedLabels.Text(set.Pages[page], to =>
                    set.Sheets.Write(to, 0, (first, SheetsOnPage), "../" + StylePath(set.Stock)["labels/".Length..], Head(subject, set)));
            }
        }
    }

    private static string StylePath(LabelStock stock) =>
        stock.Form == LabelForm.Tag ? PreparedLabels.StylePath(stock) : $"labels/{NameOf(stock)}.css";

    private static string NameOf(LabelStock stock) => stock.Form == LabelForm.Tag
        ? $"{stock.Paper.Name}-{stock.Size}"
        : $"{stock.Paper.Name}-{stock.Form.ToString().ToLowerInvariant()}-{stock.Size}";

    // One sheet after the other: a batch of its own for each frame would waste most of its sheet.
    private PreparedSheets? Set(
        string folder, string name, ImmutableArray<BatchLabels> batches, (LabelForm Form, PaperSize Paper) on, string foot)
    {
        var (size, around) = PreparedLabels.Usual(on.Form);
        var longest = BatchLabels.LongestAddress(batches);
        if (longest.Length == 0
            || LabelStock.Find(size, on.Paper, on.Form, around) is not { } stock
            || LabelDesign.For(longest, stock.Panel, on.Form == LabelForm.Tag ? 250 : 100) is not { } design) return null;
        var sheets = new LabelSheetSet([new BatchLabels("", name, [.. batches.SelectMany(batch => batch.Labels)])], stock, design, foot)
        {
            Codes = _codes,
        };
        var pages = (sheets.SheetsOf(0) + SheetsOnPage - 1) / SheetsOnPage;
        return new PreparedSheets(stock, [.. Enumerable.Range(1, pages)
            .Select(page => $"labels/{folder}/{NameOf(stock)}{(page == 1 ? "" : "-" + Phrase.Number(page))}.html")])
        { Sheets = sheets };
    }

    private string Head(PreparedSubject subject, PreparedSheets set) =>
        $"<nav><h1>Labels: {HtmlEscaping.Html(subject.Name)}</h1>{PreparedLabels.ErrorsIn(_errors)}"
        + $"<p><a href=\"../index.html\">QR labels</a> · {set.Stock.SizeText} on {set.Stock.Paper.DisplayName}: {PreparedLabels.Describe(set.Sheets.Design)}. Print at 100 % (“actual size”), without scaling and without changing the margins.</p></nav>\n";
}
