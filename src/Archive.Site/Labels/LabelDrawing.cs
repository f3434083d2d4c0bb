using System.Globalization;
using System.Text;

namespace Archive.Site;

/// <summary>What a label says.</summary>
/// <param name="Id">The id, large.</param>
/// <param name="Title">The title below it.</param>
/// <param name="Foot">The archive, at the foot.</param>
/// <param name="Address">What the code carries.</param>
public sealed record LabelWords(string Id, string Title, string Foot, string Address);

/// <summary>Draws a label to size: a code in its quiet zone at the left, words at the right. All lengths are millimetres.</summary>
/// <param name="stock">The label's size.</param>
/// <param name="design">How codes are set.</param>
public sealed class LabelDrawing(LabelStock stock, LabelDesign design)
{
    // The least type that is read at arm's length, 6 pt; and the largest that an id needs.
    private const double LeastType = 2.1, LargestId = 8;

    /// <summary>The label as an SVG that stands by itself, to size.</summary>
    /// <param name="text">What it says.</param>
    public string Svg(LabelWords text) => $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{Mm(stock.Width)}mm\" height=\"{Mm(stock.Height)}mm\" viewBox=\"0 0 {Mm(stock.Width)} {Mm(stock.Height)}\" role=\"img\">"
        + $"<title>{Escaping.Html($"{text.Id} {text.Title}, QR code of {text.Address}")}</title><rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>{Code(text)}{Words(text)}</svg>";

    // One path for all modules, so that no printer leaves a hair between two of them.
    private string Code(LabelWords text)
    {
        if (CodeModules.Of(text.Address, design.Level) is not { } code) return "";
        var (module, room) = (design.Module, (code.Side + (2 * QrSquare.QuietZone)) * design.Module);
        var path = new StringBuilder();
        for (var row = 0; row < code.Side; row++)
        {
            for (var from = 0; from < code.Side; from++)
            {
                if (!code.IsDark(row, from)) continue;
                var to = from;
                while (to + 1 < code.Side && code.IsDark(row, to + 1)) to++;
                path.Append(CultureInfo.InvariantCulture, $"M{from} {row}h{to + 1 - from}v1h-{to + 1 - from}z");
                from = to;
            }
        }

        var left = LabelDesign.OnDot(LabelDesign.Edge + (QrSquare.QuietZone * module));
        var top = LabelDesign.OnDot(((stock.Height - room) / 2) + (QrSquare.QuietZone * module));
        return string.Create(CultureInfo.InvariantCulture, $"<path transform=\"translate({left:0.######} {top:0.######}) scale({module:0.########})\" fill=\"#000\" d=\"{path}\"/>");
    }

    private string Words(LabelWords text)
    {
        var left = (2 * LabelDesign.Edge) + design.Box;
        var width = stock.Width - left - 1.5;
        var words = new StringBuilder("<g font-family=\"system-ui, 'Helvetica Neue', Arial, sans-serif\" fill=\"#000\">");
        var size = Math.Min(Math.Min(LargestId, stock.Height / 4), width / Math.Max(0.1, Lettering.Width(text.Id, 1) * 1.1));
        var y = 1 + size;
        Line(text.Id, size, "bold");
        var small = Math.Max(LeastType, Math.Min(4, stock.Height / 11));
        var bottom = stock.Height - 1 - (text.Foot.Length > 0 ? small * 1.6 : 0);
        foreach (var line in Wrap(text.Title, small, width))
        {
            y += small * 1.25;
            if (y > bottom) break;
            Line(line, small, "normal");
        }

        y = stock.Height - 1.2;
        if (text.Foot.Length > 0) Line(Wrap(text.Foot, LeastType, width).FirstOrDefault() ?? "", LeastType, "normal");
        return words.Append("</g>").ToString();

        void Line(string line, double type, string weight) =>
            words.Append(CultureInfo.InvariantCulture, $"<text x=\"{left:0.##}\" y=\"{y:0.##}\" font-size=\"{type:0.##}\" font-weight=\"{weight}\">{Escaping.Html(line)}</text>");
    }

    // Whole words as far as they go; a word that is wider than the label is cut.
    private static List<string> Wrap(string text, double size, double width)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (Lettering.Width(longer, size) <= width)
            {
                line = longer;
                continue;
            }

            if (line.Length > 0) lines.Add(line);
            line = word;
            while (line.Length > 1 && Lettering.Width(line, size) > width) line = char.IsLowSurrogate(line[^1]) ? line[..^2] : line[..^1];
        }

        if (line.Length > 0) lines.Add(line);
        return lines;
    }

    private static string Mm(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
