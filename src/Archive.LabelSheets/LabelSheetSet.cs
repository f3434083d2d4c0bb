using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.Drawings.QrCodes;
using Archive.Markup.Templates;
using Archive.Markup.Text;
using Archive.Records.Model;

namespace Archive.LabelSheets;

/// <summary>What can prevent labels.</summary>
public abstract record LabelResult
{
    private LabelResult()
    {
    }

    /// <summary>Sheets of labels.</summary>
    public sealed record Done(LabelSheetSet Sheets) : LabelResult;

    /// <summary>The archive does not say where it is published: codes would lead nowhere.</summary>
    public sealed record NoAddress : LabelResult;

    /// <summary>The label is too small for the distance.</summary>
    /// <param name="Height">Height that it needs, in millimetres.</param>
    /// <param name="Address">The longest address.</param>
    public sealed record TooSmall(double Height, string Address) : LabelResult;
}

/// <summary>Labels on sheets that print to size, a batch after the other, each on a sheet of its own; and each label by itself.</summary>
public sealed class LabelSheetSet
{
    // How small a sheet is shown on a screen that holds no more than so much of its width.
    private static readonly (double Zoom, double Of)[] Zooms = [(0.8, 1), (0.65, 0.8), (0.5, 0.65), (0.4, 0.5), (0.35, 0.4)];

    private readonly ImmutableArray<BatchLabels> _batches;
    private readonly LabelStock _stock;
    private readonly LabelDrawing _drawing;
    private readonly string _title;

    /// <summary>Sets labels that are worded already.</summary>
    /// <param name="stock">The label's size and the paper.</param>
    /// <param name="design">How codes are set.</param>
    /// <param name="title">What the archive is called.</param>
    internal LabelSheetSet(ImmutableArray<BatchLabels> batches, LabelStock stock, LabelDesign design, string title)
    {
        _batches = batches;
        _stock = stock;
        _drawing = new LabelDrawing(stock, design);
        _title = title;
        Design = design;
    }

    /// <summary>How codes are set, the longest address decides.</summary>
    public LabelDesign Design { get; }

    /// <summary>Codes that are encoded already, and will be.</summary>
    internal EncodedTexts Codes { get; init; } = new();

    /// <summary>Places of the first sheet that are left free, as they are on one that was used in part.</summary>
    public int Skip { get; init; }

    /// <summary>All labels, each once, by what they are called.</summary>
    public IEnumerable<LabelText> Labels =>
        _batches.SelectMany(batch => batch.Labels).DistinctBy(label => label.Key).OrderBy(label => label.Key, StringComparer.Ordinal);

    /// <summary>Number of sheets.</summary>
    public int Count => Enumerable.Range(0, _batches.Length).Sum(SheetsOf);

    /// <summary>Sets labels.</summary>
    /// <param name="worded">The labels.</param>
    /// <param name="stock">The label's size and the paper.</param>
    /// <param name="distance">From how far codes are to be read, in millimetres.</param>
    /// <param name="skip">Places of the first sheet that are left free.</param>
    public static LabelResult Create(
        ArchiveModel record, ImmutableArray<BatchLabels> worded, LabelStock stock, double distance, int skip = 0)
    {
        if (record.Statement.Base is null) return new LabelResult.NoAddress();
        var longest = BatchLabels.LongestAddress(worded);
        return LabelDesign.For(longest, stock.Panel, distance) is { } design
            ? new LabelResult.Done(new LabelSheetSet(worded, stock, design, LabelText.FootOf(record)) { Skip = skip })
            : new LabelResult.TooSmall(LabelDesign.HeightFor(longest, distance), longest);
    }

    /// <summary>A label by itself, as an SVG to size.</summary>
    public string Svg(LabelText label) => _drawing.Alone(label, Code(label));

    /// <summary>All sheets as one page of HTML that needs nothing beside it and prints to size.</summary>
    public void Write(TextWriter to)
    {
        var style = "\n" + Style(_stock);
        Begin(to, $"Labels · {_title}", $"{ContentSecurityPolicy.MetaForStyle(style)}\n<style>{style}</style>");
        for (var batch = 0; batch < _batches.Length; batch++)
            Sheets(to, batch, 0, SheetsOf(batch), label => _drawing.Inline(label, Code(label)));
        End(to);
    }

    /// <summary>Some sheets of a batch as a page of a site, with codes of its own.</summary>
    /// <param name="to">Where to.</param>
    /// <param name="batch">The batch's place among the batches.</param>
    /// <param name="part">The first sheet, from 0, and how many.</param>
    /// <param name="style">Where its style sheet is, the text of which is <see cref="Style"/>.</param>
    /// <param name="head">HTML over the sheets, which is not printed.</param>
    internal void Write(TextWriter to, int batch, (int First, int Count) part, string style, string head)
    {
        Begin(
            to,
            $"Labels · {_batches[batch].Name} · {_title}",
            $"{ContentSecurityPolicy.MetaForPages}\n<link rel=\"stylesheet\" href=\"{HtmlEscaping.Html(style)}\">");
        to.Write(head);
        Sheets(to, batch, part.First, Math.Min(part.Count, SheetsOf(batch) - part.First), label => _drawing.Inline(label, Code(label)));
        End(to);
    }

    /// <summary>Number of sheets of a batch.</summary>
    /// <param name="batch">Its place among the batches.</param>
    internal int SheetsOf(int batch) => (_batches[batch].Labels.Length + SkipOf(batch) + _stock.PerSheet - 1) / _stock.PerSheet;

    // Each batch begins a sheet of its own: only the very first is one that was used before.
    private int SkipOf(int batch) => batch == 0 ? Skip : 0;

    /// <summary>Some sheets of a batch as a page of a site: codes are taken from the labels that are there by themselves.</summary>
    /// <param name="batch">The batch's place among the batches.</param>
    /// <param name="part">The first sheet, from 0, and how many.</param>
    /// <param name="style">Where its style sheet is, the text of which is <see cref="Style"/>.</param>
    /// <param name="head">HTML over the sheets, which is not printed.</param>
    /// <param name="alone">The code of a label, and where its SVG is.</param>
    internal void Write(
        TextWriter to,
        int batch,
        (int First, int Count) part,
        string style,
        string head,
        Func<LabelText, (QrMatrix Code, string Href)> alone)
    {
        Begin(
            to,
            $"Labels · {_batches[batch].Name} · {_title}",
            $"{ContentSecurityPolicy.MetaForPages}\n<link rel=\"stylesheet\" href=\"{HtmlEscaping.Html(style)}\">");
        to.Write(head);
        Sheets(to, batch, part.First, Math.Min(part.Count, SheetsOf(batch) - part.First), label =>
        {
            var (code, href) = alone(label);
            return _drawing.Inline(label, code, href);
        });
        End(to);
    }

    private string Folding => _stock.Form switch
    {
        LabelForm.Flag => " Fold at the dots.",
        LabelForm.Wrap => " Wind the blank tail over the code.",
        _ => "",
    };

    private QrMatrix Code(LabelText label) => Codes.Find(label.Address, Design.Level)!;

    private static void Begin(TextWriter to, string title, string style) => to.Write(
        $"<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n{style}\n<title>{HtmlEscaping.Html(title)}</title>\n</head>\n<body>\n");

    private static void End(TextWriter to) => to.Write("</body>\n</html>\n");

    private void Sheets(TextWriter to, int batch, int first, int count, Func<LabelText, string> draw)
    {
        var (_, name, labels) = _batches[batch];
        for (var sheet = first; sheet < first + count; sheet++)
        {
            to.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"<section>\n<h2>{HtmlEscaping.Html(name)}, sheet {sheet + 1} of {SheetsOf(batch)}. Print at 100 %, without scaling; cut along the lines.{Folding}</h2>\n"));
            var from = (sheet * _stock.PerSheet) - SkipOf(batch);
            for (var i = Math.Max(0, from); i < Math.Min(labels.Length, from + _stock.PerSheet); i++)
            {
                to.Write(string.Create(CultureInfo.InvariantCulture, $"<div class=\"at-{i - from}\">{draw(labels[i])}</div>\n"));
            }

            to.Write("</section>\n");
        }
    }

    // On a screen narrower than the paper a sheet is seen small rather than scrolled sideways; paper has its true size, whatever the
    // screen.
    private static string Shrinking(LabelStock stock)
    {
        const double pixelsInMillimetre = 96 / 25.4;
        const int beside = 42;
        var style = new StringBuilder();
        foreach (var (zoom, of) in Zooms)
        {
            style.Append(
                CultureInfo.InvariantCulture,
                $"@media screen and (max-width: {(stock.Paper.Width * pixelsInMillimetre * of) + beside:0}px) {{ section {{ zoom: {zoom:0.##}; }} }}\n");
        }

        return style.ToString();
    }

    /// <summary>The style of sheets of a stock: the same for all of them.</summary>
    /// <param name="stock">The label's size and the paper.</param>
    /// <remarks>The cut line is light, and half of it lies in each of two neighbours.</remarks>
    internal static string Style(LabelStock stock) => new StringBuilder()
        .Append(CultureInfo.InvariantCulture, $"@page {{ size: {stock.Paper.Width}mm {stock.Paper.Height}mm; margin: 0; }}\n")
        .Append("* { margin: 0; padding: 0; }\nbody { background: #fff; color: #000; -webkit-print-color-adjust: exact; print-color-adjust: exact; }\n")
        .Append(
            CultureInfo.InvariantCulture,
            $"section {{ position: relative; width: {stock.Paper.Width}mm; height: {stock.Paper.Height - 0.1:0.###}mm; overflow: hidden; break-after: page; }}\nsection:last-child {{ break-after: auto; }}\n")
        .Append(
            CultureInfo.InvariantCulture,
            $"h2 {{ position: absolute; left: {stock.Left:0.###}mm; top: 3mm; font: 2.8mm/1 system-ui, sans-serif; color: #555; white-space: nowrap; }}\n")
        .Append(
            CultureInfo.InvariantCulture,
            $"div {{ position: absolute; width: {stock.Width}mm; height: {stock.Height}mm; outline: .1mm dashed #aaa; }}\nsvg {{ display: block; }}\n")
        .Append(Places(stock))
        .Append(Shrinking(stock))
        .Append("nav { font: 1rem/1.5 system-ui, sans-serif; padding: 1rem; }\nh1 { font-size: 1.25rem; }\n@media screen { section { margin: 5mm; outline: 1px solid #999; } }\n@media print { nav { display: none; } }\n")
        .ToString();

    // Where each label of a sheet lies, from the first: no policy lets an element of a page bring a style of its own.
    private static string Places(LabelStock stock)
    {
        var style = new StringBuilder();
        for (var place = 0; place < stock.PerSheet; place++)
        {
            var (row, column) = (place / stock.Columns, place % stock.Columns);
            style.Append(
                CultureInfo.InvariantCulture,
                $".at-{place} {{ left: {LabelDesign.OnDot(stock.Left + (column * stock.Width)):0.######}mm; top: {LabelDesign.OnDot(stock.Top + (row * stock.Height)):0.######}mm; }}\n");
        }

        return style.ToString();
    }
}
