using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.Records;

namespace Archive.Site;

/// <summary>What can stand in the way of labels.</summary>
public abstract record LabelOutcome
{
    private LabelOutcome()
    {
    }

    /// <summary>Sheets of labels.</summary>
    /// <param name="Sheets">The sheets.</param>
    public sealed record Done(LabelSheets Sheets) : LabelOutcome;

    /// <summary>The archive does not say where it is published: codes would lead nowhere.</summary>
    public sealed record NoAddress : LabelOutcome;

    /// <summary>The label is too small for the distance.</summary>
    /// <param name="Height">Height that it needs, in millimetres.</param>
    /// <param name="Address">The longest address.</param>
    public sealed record TooSmall(double Height, string Address) : LabelOutcome;
}

/// <summary>Labels of frames on sheets that print to size, a batch after the other, each on a sheet of its own; and each label by itself.</summary>
public sealed class LabelSheets
{
    private readonly ImmutableArray<(LabelBatch Batch, ImmutableArray<LabelWords> Labels)> _batches;
    private readonly LabelStock _stock;
    private readonly LabelDrawing _drawing;
    private readonly string _title;

    private LabelSheets(ImmutableArray<(LabelBatch, ImmutableArray<LabelWords>)> batches, LabelStock stock, LabelDesign design, string title)
    {
        _batches = batches;
        _stock = stock;
        _drawing = new LabelDrawing(stock, design);
        _title = title;
        Design = design;
    }

    /// <summary>How codes are set, the longest address decides.</summary>
    public LabelDesign Design { get; }

    /// <summary>All labels, each once, by id.</summary>
    public IEnumerable<LabelWords> Labels => _batches.SelectMany(batch => batch.Labels).DistinctBy(label => label.Id).OrderBy(label => label.Id, StringComparer.Ordinal);

    /// <summary>Number of sheets.</summary>
    public int Count => _batches.Sum(batch => (batch.Labels.Length + _stock.PerSheet - 1) / _stock.PerSheet);

    /// <summary>Sets labels.</summary>
    /// <param name="record">The record.</param>
    /// <param name="batches">Which frames.</param>
    /// <param name="stock">The label's size and the paper.</param>
    /// <param name="distance">From how far codes are to be read, in millimetres.</param>
    public static LabelOutcome Of(AsFound record, ImmutableArray<LabelBatch> batches, LabelStock stock, double distance)
    {
        if (record.Statement.Base is not { } site) return new LabelOutcome.NoAddress();
        var home = site.Value.AbsoluteUri.TrimEnd('/');
        var title = record.Statement.Title?.Value ?? "";
        ImmutableArray<(LabelBatch, ImmutableArray<LabelWords>)> texts =
            [.. batches.Select(batch => (batch, batch.Frames.Select(frame => new LabelWords(frame.Id, frame.Name?.Value ?? "", title, $"{home}/{RecordKind.Frame.Folder()}/{frame.Id}/")).ToImmutableArray()))];
        var longest = texts.SelectMany(batch => batch.Item2).Select(label => label.Address).DefaultIfEmpty(home).MaxBy(address => address.Length)!;
        return LabelDesign.For(longest, stock, distance) is { } design
            ? new LabelOutcome.Done(new LabelSheets(texts, stock, design, title))
            : new LabelOutcome.TooSmall(LabelDesign.HeightFor(longest, distance), longest);
    }

    /// <summary>A label by itself, as an SVG to size.</summary>
    /// <param name="label">What it says.</param>
    public string Svg(LabelWords label) => _drawing.Svg(label);

    /// <summary>All sheets as one page of HTML that needs nothing beside it and prints to size.</summary>
    /// <param name="to">Where to.</param>
    public void Write(TextWriter to)
    {
        to.Write($"<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>{Escaping.Html($"Labels · {_title}")}</title>\n<style>\n{Style()}</style>\n</head>\n<body>\n");
        foreach (var (batch, labels) in _batches)
        {
            for (var from = 0; from < labels.Length; from += _stock.PerSheet) Write(to, batch, labels, from);
        }

        to.Write("</body>\n</html>\n");
    }

    private void Write(TextWriter to, LabelBatch batch, ImmutableArray<LabelWords> labels, int from)
    {
        var sheets = (labels.Length + _stock.PerSheet - 1) / _stock.PerSheet;
        to.Write(string.Create(CultureInfo.InvariantCulture, $"<section>\n<h2>{Escaping.Html(batch.Name)}, sheet {(from / _stock.PerSheet) + 1} of {sheets}. Print without scaling; cut at the lines.</h2>\n"));
        for (var i = from; i < Math.Min(labels.Length, from + _stock.PerSheet); i++)
        {
            var (row, column) = ((i - from) / _stock.Columns, (i - from) % _stock.Columns);
            to.Write(string.Create(CultureInfo.InvariantCulture, $"<div style=\"left:{LabelDesign.OnDot(_stock.Left + (column * _stock.Width)):0.######}mm;top:{LabelDesign.OnDot(_stock.Top + (row * _stock.Height)):0.######}mm\">{_drawing.Svg(labels[i])}</div>\n"));
        }

        to.Write("</section>\n");
    }

    // The cut line is light, and half of it lies in each of two neighbours.
    private string Style() => new StringBuilder()
        .Append(CultureInfo.InvariantCulture, $"@page {{ size: {_stock.Paper.Width}mm {_stock.Paper.Height}mm; margin: 0; }}\n")
        .Append("* { margin: 0; padding: 0; }\nbody { background: #fff; color: #000; -webkit-print-color-adjust: exact; print-color-adjust: exact; }\n")
        .Append(CultureInfo.InvariantCulture, $"section {{ position: relative; width: {_stock.Paper.Width}mm; height: {_stock.Paper.Height - 0.1:0.###}mm; overflow: hidden; break-after: page; }}\nsection:last-child {{ break-after: auto; }}\n")
        .Append(CultureInfo.InvariantCulture, $"h2 {{ position: absolute; left: {_stock.Left:0.###}mm; top: 3mm; font: 2.8mm/1 system-ui, sans-serif; color: #555; white-space: nowrap; }}\n")
        .Append(CultureInfo.InvariantCulture, $"div {{ position: absolute; width: {_stock.Width}mm; height: {_stock.Height}mm; outline: .1mm dashed #aaa; }}\nsvg {{ display: block; }}\n")
        .Append("@media screen { section { margin: 5mm; outline: 1px solid #999; } }\n").ToString();
}
