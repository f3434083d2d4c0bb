using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.Drawings.QrCodes;
using Archive.Drawings.Svg;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.LabelSheets;

/// <summary>What a label says.</summary>
/// <param name="Id">The id, large.</param>
/// <param name="Title">The title below it.</param>
/// <param name="Foot">The archive, at the foot.</param>
/// <param name="Address">What the code carries.</param>
public sealed record LabelText(string Id, string Title, string Foot, string Address)
{
    private const int MostInFull = 2;

    /// <summary>What it is called among all labels; of a file too.</summary>
    public string Key { get; init; } = Id;

    /// <summary>What can hurt at the thing: signs above all other lines.</summary>
    public ImmutableArray<string> Signs { get; init; } = [];

    /// <summary>Lines above the title that must be read, such as where an end goes.</summary>
    public ImmutableArray<string> Lines { get; init; } = [];

    /// <summary>The address of a record's page.</summary>
    internal static string AddressOf(ArchiveModel record, ArchiveRecord of) =>
        $"{record.Statement.Base!.Value.Value.AbsoluteUri.TrimEnd('/')}/{of.RecordKind.Folder()}/{of.Id}/";

    /// <summary>What a frame's label says.</summary>
    /// <param name="record">The record, which says where it is published.</param>
    internal static LabelText From(ArchiveModel record, Frame frame) =>
        new(frame.Id, frame.Name?.Value ?? "", FootOf(record), AddressOf(record, frame)) { Signs = SignsOf(frame.Hazards) };

    /// <summary>The signs of hazards: in full as long as there are few, else their first words.</summary>
    internal static ImmutableArray<string> SignsOf(ImmutableArray<Stated<Hazard>> hazards)
    {
        ImmutableArray<string> signs = [.. hazards.Select(hazard => HazardText.For(hazard.Value).Sign).Distinct()];
        return signs.Length <= MostInFull ? signs : [string.Join(", ", signs.Select(sign => sign.Split(':')[0]))];
    }

    /// <summary>What stands at the foot of a record's labels.</summary>
    internal static string FootOf(ArchiveModel record) => record.Statement.Title?.Value ?? "";
}

/// <summary>Draws a label to size: a code in its quiet zone at the left, words at the right. All lengths are millimetres.</summary>
/// <param name="stock">The label's size.</param>
/// <param name="design">How codes are set.</param>
public sealed class LabelDrawing(LabelStock stock, LabelDesign design)
{
    // What is printed on: a flag says the same on both of its halves.
    private readonly LabelStock _panel = stock.Panel;

    // The least type that is read at arm's length, 6 pt; and the largest that an id needs.
    private const double LeastType = 2.1, LargestId = 8;

    // 8.5 pt; what bold letters are wider than others; from line to line of an id.
    private const double LeastIdOnOneLine = 3, Bold = 1.1, Leading = 1.1;

    /// <summary>The label as an SVG that stands by itself, to size. Its code alone is the view <c>code</c> of it.</summary>
    internal string Alone(LabelText text, QrMatrix code)
    {
        var (left, top, side) = BoxOf(code);
        return Label(text, string.Create(
            CultureInfo.InvariantCulture,
            $"<view id=\"code\" viewBox=\"{left:0.######} {top:0.######} {side:0.######} {side:0.######}\"/>{Path(code)}"));
    }

    /// <summary>The label as an SVG within a page, to size.</summary>
    internal string Inline(LabelText text, QrMatrix code) => Label(text, Path(code));

    /// <summary>The label as an SVG within a page, to size, its code taken from the one that stands by itself.</summary>
    /// <param name="alone">Where that one is.</param>
    internal string Inline(LabelText text, QrMatrix code, string alone)
    {
        var (left, top, side) = BoxOf(code);
        return Label(text, string.Create(
            CultureInfo.InvariantCulture,
            $"<image x=\"{left:0.######}\" y=\"{top:0.######}\" width=\"{side:0.######}\" height=\"{side:0.######}\" href=\"{HtmlEscaping.Html(alone)}#code\"/>"));
    }

    private string Label(LabelText text, string code) =>
        $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{Mm(stock.Width)}mm\" height=\"{Mm(stock.Height)}mm\" viewBox=\"0 0 {Mm(stock.Width)} {Mm(stock.Height)}\" role=\"img\">"
            + $"<title>{HtmlEscaping.Html($"{text.Id} {string.Join(' ', [.. text.Signs, .. text.Lines, text.Title])}, QR code of {text.Address}")}</title><rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>{Panels(text, code)}</svg>";

    private string Panels(LabelText text, string code)
    {
        var panel = code + Words(text);
        switch (stock.Form)
        {
            case LabelForm.Flag:
                // The second half begins on a dot of the printer, as the first does.
                var second = LabelDesign.OnDot(_panel.Width + stock.Around);
                return string.Create(
                    CultureInfo.InvariantCulture,
                    $"<g id=\"{HtmlEscaping.Html(text.Key)}\">{panel}</g><use href=\"#{HtmlEscaping.Html(text.Key)}\" x=\"{second:0.######}\"/>{Dotted(_panel.Width, 0, _panel.Width, stock.Height)}{Dotted(_panel.Width + stock.Around, 0, _panel.Width + stock.Around, stock.Height)}");
            case LabelForm.Wrap:
                return panel + Dotted(0, _panel.Height, stock.Width, _panel.Height);
            default:
                return panel;
        }
    }

    private static string Dotted(double x1, double y1, double x2, double y2) => string.Create(
        CultureInfo.InvariantCulture,
        $"<path d=\"M{x1:0.###} {y1:0.###}L{x2:0.###} {y2:0.###}\" stroke=\"#888\" stroke-width=\".15\" stroke-dasharray=\".5 1\"/>");

    private string Path(QrMatrix code)
    {
        var (left, top, _) = BoxOf(code);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"<path transform=\"translate({left:0.######} {top:0.######}) scale({design.Module:0.########})\" fill=\"#000\" d=\"{code.Outline()}\"/>");
    }

    // Where the code lies, without its quiet zone.
    private (double Left, double Top, double Side) BoxOf(QrMatrix code)
    {
        var room = (code.Side + (2 * QrDrawing.QuietZone)) * design.Module;
        var quiet = QrDrawing.QuietZone * design.Module;
        return (
            LabelDesign.OnDot(LabelDesign.Edge + quiet),
            LabelDesign.OnDot(((_panel.Height - room) / 2) + quiet),
            code.Side * design.Module);
    }

    private string Words(LabelText text)
    {
        var left = (2 * LabelDesign.Edge) + design.Box;
        var width = _panel.Width - left - 1.5;
        var words = new StringBuilder("<g font-family=\"system-ui, 'Helvetica Neue', Arial, sans-serif\" fill=\"#000\">");
        var small = Math.Max(LeastType, Math.Min(4, _panel.Height / 11));
        var bottom = _panel.Height - 1 - (text.Foot.Length > 0 ? small * 1.6 : 0);
        var (size, id) = IdOf(text.Id, width, bottom);
        var y = 1 + size - (size * Leading);
        foreach (var line in id)
        {
            y += size * Leading;
            Line(line, size, "bold");
        }

        // What can hurt, and where an end goes, is never cut short for the title: type grows smaller first. On the smallest labels the
        // first words of a sign have to do.
        var signs = text.Signs;
        if (!Fit(LeastType)) signs = [.. signs.Select(sign => sign.Split(':')[0])];
        var type = small;
        while (type > LeastType && !Fit(type)) type = Math.Max(LeastType, type - 0.1);
        foreach (var line in Signs(type))
        {
            y += type * 1.25;
            words.Append(
                CultureInfo.InvariantCulture,
                $"<rect x=\"{left - 0.3:0.##}\" y=\"{y - (type * 0.95):0.##}\" width=\"{width + 0.6:0.##}\" height=\"{type * 1.25:0.##}\"/>");
            Line(line, type, "bold", "#fff");
        }

        foreach (var line in LabelLines.First(Lines(type), (int)((bottom - y) / (type * 1.25)), type, width / Bold))
        {
            y += type * 1.25;
            Line(line, type, "bold");
        }

        foreach (var line in LabelLines.First(
            LabelLines.Wrap(text.Title, small, width), (int)((bottom - y) / (small * 1.25)), small, width))
        {
            y += small * 1.25;
            Line(line, small, "normal");
        }

        y = _panel.Height - 1.2;
        foreach (var line in LabelLines.First(LabelLines.Wrap(text.Foot, LeastType, width), 1, LeastType, width))
            Line(line, LeastType, "normal");
        return words.Append("</g>").ToString();

        bool Fit(double type) => (Signs(type).Count + Lines(type).Count) * type * 1.25 <= bottom - y;

        List<string> Signs(double type) => [.. signs.SelectMany(line => LabelLines.Wrap(line, type, width / Bold))];

        List<string> Lines(double type) => [.. text.Lines.SelectMany(line => LabelLines.Wrap(line, type, width / Bold, joint: '/'))];

        void Line(string line, double type, string weight, string? colour = null) =>
            words.Append(
                CultureInfo.InvariantCulture,
                $"<text x=\"{left:0.##}\" y=\"{y:0.##}\" font-size=\"{type:0.##}\" font-weight=\"{weight}\"{(colour is null ? "" : $" fill=\"{colour}\"")}>{HtmlEscaping.Html(line)}</text>");
    }

    // The id in one line as long as that can be read from where one stands; a longer one in lines, as large as leaves a third for the
    // title.
    private (double Size, List<string> Lines) IdOf(string id, double width, double bottom)
    {
        var size = Math.Min(Math.Min(LargestId, _panel.Height / 4), width / Math.Max(0.1, TextMetrics.Width(id, 1) * Bold));
        if (size >= LeastIdOnOneLine) return (size, [id]);
        for (size = LeastIdOnOneLine + 1; ; size = Math.Max(LeastType, size - 0.5))
        {
            var lines = LabelLines.Broken(id, size, width / Bold);
            if (size <= LeastType || lines.Count * size * Leading <= bottom * 2 / 3) return (size, lines);
        }
    }

    private static string Mm(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
