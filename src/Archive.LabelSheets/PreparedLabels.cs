using System.Collections.Immutable;
using System.Text;
using Archive.Drawings.QrCodes;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Storage.Output;

namespace Archive.LabelSheets;

/// <summary>A size of label that a site holds ready.</summary>
/// <param name="Stocks">The sheets that it comes on, one a paper.</param>
/// <param name="Design">How codes are set on it.</param>
public sealed record PreparedSize(ImmutableArray<LabelStock> Stocks, LabelDesign Design);

/// <summary>
/// The labels that a site holds ready to be printed: each frame's by itself, and sheets by row, module and display. A code is encoded once:
/// it is the same on a frame's page, on its label, and on all sheets, which show it out of that.
/// </summary>
public sealed class PreparedLabels
{
    // The first is the size of labels that stand by themselves; the others are left out in a great record. Labels of sheets that are common
    // in offices; the distances are ours.
    private static readonly ImmutableArray<(string Size, double Distance)> Sizes =
    [
        ("63.5x38.1", 250),
        ("52x34", 200),
        ("97x57", 350),
        ("140x70", 500)
    ];
    private static readonly ImmutableArray<PaperSize> Papers = [PaperSize.A4, PaperSize.Letter];

    // Beyond so many labels on sheets only the first size is ready, and beyond so many frames nothing is: sheets are then made on request.
    private const int MostOnSheets = 20_000, MostFrames = 20_000;

    // Sheets of paper on a page.
    private const int SheetsOnPage = 12;

    private readonly ArchiveModel _record;
    private readonly int _errors;

    /// <summary>Finds which labels are made.</summary>
    /// <param name="errors">Errors that the site is published with; sheets say so.</param>
    public PreparedLabels(ArchiveModel record, int errors)
    {
        _record = record;
        _errors = errors;
        Level = ErrorCorrectionLevel.Q;
        if (record.Statement.Base is null) return;
        var standing = record.Frames
            .Where(frame => !frame.IsWithdrawn)
            .ToDictionary(frame => frame, frame => LabelText.From(record, frame));
        IsTooLarge = standing.Count > MostFrames;
        if (standing.Count == 0 || IsTooLarge) return;

        Batches = [.. Enum.GetValues<BatchBy>()
            .Select(by => BatchesOf(by).Select(batch => BatchLabels.Create(batch, frame => standing[frame])).ToImmutableArray())];
        var longest = BatchLabels.LongestAddress(Batches[0]);
        var ready = Sizes.Select(size => (size.Size, size.Distance, Design: LabelDesign.For(
            longest, LabelStock.Find(size.Size, PaperSize.A4)!, size.Distance))).Where(size => size.Design is not null).ToList();
        if (ready.Count == 0) return;
        Level = ready[0].Design!.Level;
        var side = QrMatrix.Encode(longest, Level)!.Side;
        IsOfOneSize = Batches.Sum(batches => batches.Sum(batch => batch.Labels.Length)) * Papers.Length * Sizes.Length > MostOnSheets;
        Ready = [.. ready.Take(IsOfOneSize ? 1 : Sizes.Length)
            .Select(size => (
                Stocks: Papers.Select(paper => LabelStock.Find(size.Size, paper)).OfType<LabelStock>().ToImmutableArray(),
                Design: LabelDesign.At(Level, side, LabelStock.Find(size.Size, PaperSize.A4)!, size.Distance)))
            .Where(size => size.Design is not null).Select(size => new PreparedSize(size.Stocks, size.Design!))];
    }

    /// <summary>
    /// The size that labels of a form have unless another is asked for, and what of it goes around a cable, in millimetres.
    /// </summary>
    public static (string Size, double Around) Usual(LabelForm form) => form switch
    {
        LabelForm.Flag => ("96x25", 12),
        LabelForm.Wrap => ("45x50", 25),
        _ => (Sizes[0].Size, 0),
    };

    /// <summary>The level of error correction, on pages as on labels.</summary>
    public ErrorCorrectionLevel Level { get; }

    /// <summary>Whether the record is so large that labels are made on request.</summary>
    public bool IsTooLarge { get; }

    /// <summary>Whether the record is so large that other sizes than one are made on request.</summary>
    public bool IsOfOneSize { get; }

    /// <summary>The sizes that are ready; none without an address, without frames, or in a very large record.</summary>
    public ImmutableArray<PreparedSize> Ready { get; } = [];

    /// <summary>What is on sheets: by row, by module, by display.</summary>
    public ImmutableArray<ImmutableArray<BatchLabels>> Batches { get; } = [];

    /// <summary>The code of an address; null where it is too long for one.</summary>
    public QrMatrix? Code(string address) => Codes.Find(address, Level);

    /// <summary>The codes that pages and labels share.</summary>
    public EncodedTexts Codes { get; } = new();

    /// <summary>Path of a frame's label; null where none is ready.</summary>
    public string? PathOf(Frame frame) => Ready.IsEmpty || frame.IsWithdrawn ? null : $"labels/{frame.Id}.svg";

    /// <summary>Paths of the pages of sheets of a batch.</summary>
    /// <param name="sheets">The sheets of its kind.</param>
    /// <param name="batch">Its place among the batches.</param>
    /// <param name="stock">The label and the paper.</param>
    public static IEnumerable<string> Pages(LabelSheetSet sheets, string folder, int batch, LabelStock stock)
    {
        var name = $"{folder}/{stock.Paper.Name}-{stock.Size}";
        var pages = (sheets.SheetsOf(batch) + SheetsOnPage - 1) / SheetsOnPage;
        for (var page = 1; page <= pages; page++)
            yield return page == 1 ? $"{name}.html" : FormattableString.Invariant($"{name}-{page}.html");
    }

    // All sheets of a stock share it.
    internal static string StylePath(LabelStock stock) => $"labels/{stock.Paper.Name}-{stock.Size}.css";

    /// <summary>A folder for each batch of a kind: by its id where that is plain and nobody else's, else by its number.</summary>
    /// <param name="by">The kind.</param>
    public ImmutableArray<string> Folders(BatchBy by)
    {
        var taken = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        return [.. Batches[(int)by].Select((batch, i) =>
        {
            var id = batch.Id;
            return $"labels/{by.ToString().ToLowerInvariant()}/{(RecordId.IsValid(id) && !id.EndsWith('.') && taken.Add(id) ? id : FormattableString.Invariant($"_{i + 1}"))}";
        })];
    }

    // Where no frame has a module, or none is needed by a display, all of them together are there by row already.
    private ImmutableArray<LabelBatch> BatchesOf(BatchBy by) =>
        LabelBatch.Create(_record, by) is var batches && by != BatchBy.Row && batches is [{ Id: "" }] ? [] : batches;

    /// <summary>The sheets of a kind.</summary>
    /// <param name="by">The kind.</param>
    /// <param name="size">The label's size.</param>
    /// <param name="stock">The label and the paper.</param>
    public LabelSheetSet Sheets(BatchBy by, PreparedSize size, LabelStock stock) =>
        new(Batches[(int)by], stock, size.Design, LabelText.FootOf(_record));

    /// <summary>All files: labels by themselves, then sheets.</summary>
    public IEnumerable<OutputFile> Files()
    {
        if (Ready.IsEmpty) yield break;
        var alone = new LabelDrawing(Ready[0].Stocks[0], Ready[0].Design);
        foreach (var words in Batches[0].SelectMany(batch => batch.Labels).DistinctBy(words => words.Id, StringComparer.Ordinal))
        {
            if (Code(words.Address) is { } code)
                yield return Text($"labels/{words.Id}.svg", to => to.Write(alone.Alone(words, code) + "\n"));
        }

        foreach (var stock in Ready.SelectMany(size => size.Stocks))
            yield return Text(StylePath(stock), to => to.Write(LabelSheetSet.Style(stock)));

        foreach (var (by, size, stock) in from way in Enum.GetValues<BatchBy>()
                                          from size in Ready
                                          from stock in size.Stocks
                                          select (way, size, stock))
        {
            var (sheets, folders) = (Sheets(by, size, stock), Folders(by));
            for (var batch = 0; batch < folders.Length; batch++)
            {
                var (which, first) = (batch, 0);
                foreach (var path in Pages(sheets, folders[batch], batch, stock))
                {
                    var from = first;
                    first += SheetsOnPage;
                    yield return Text(path, to => sheets.Write(
                        to,
                        which,
                        (from, SheetsOnPage),
                        "../../../" + StylePath(stock),
                        Head(Batches[(int)by][which], stock, size.Design),
                        words => (Code(words.Address)!, $"../../{words.Id}.svg")));
                }
            }
        }
    }

    /// <summary>How a code is set, in words.</summary>
    /// <param name="design">How it is set.</param>
    internal static string Describe(LabelDesign design) =>
        FormattableString.Invariant($"QR squares of {design.Module:0.00} mm, readable from up to {Math.Floor(design.Distance / 10):0} cm");

    internal static string ErrorsIn(int errors) => errors == 0
        ? ""
        : $"<p><strong>Published with {Phrase.Count(errors, "error")} in the record.</strong> Some labels may be missing or wrong.</p>";

    private string Head(BatchLabels batch, LabelStock stock, LabelDesign design) =>
        $"<nav><h1>Labels: {HtmlEscaping.Html(batch.Name)}</h1>{ErrorsIn(_errors)}"
        + $"<p><a href=\"../../index.html\">QR labels</a> · {stock.SizeText} on {stock.Paper.DisplayName}: {Describe(design)}. Print at 100 % (“actual size”), without scaling and without changing the margins.</p></nav>\n";

    internal static RenderedFile Text(string path, Action<TextWriter> write) => new(path, () =>
    {
        using var text = new StringWriter { NewLine = "\n" };
        write(text);
        return new RenderedContent(Encoding.UTF8.GetBytes(text.ToString()), []);
    });
}
