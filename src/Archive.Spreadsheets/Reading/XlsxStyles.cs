using System.Globalization;
using Archive.Spreadsheets.Model;

namespace Archive.Spreadsheets.Reading;

/// <summary>How the cells of an xlsx file look, and which of their numbers are dates.</summary>
internal sealed class XlsxStyles
{
    private readonly List<(CellStyle Style, bool IsDate)> _cells = [];

    internal (CellStyle Style, bool IsDate) this[int index] =>
        index >= 0 && index < _cells.Count ? _cells[index] : (CellStyle.Plain, false);

    internal static XlsxStyles Read(Package package, string path)
    {
        var styles = new XlsxStyles();
        if (!package.Has(path)) return styles;
        var (formats, fills, borders) = (new Dictionary<int, bool>(), new List<string?>(), new List<CellBorders>());
        using var xml = package.Read(path);
        while (xml.Read())
        {
            if (xml.Type != System.Xml.XmlNodeType.Element) continue;
            switch (xml.Name)
            {
                case "numFmt":
                    formats[Number(xml["numFmtId"])] = IsDateCode(xml["formatCode"] ?? "");
                    break;
                case "fill":
                    Add(fills, Fill(xml));
                    break;
                case "border":
                    Add(borders, Border(xml));
                    break;
                case "cellXfs":
                    styles.ReadCells(xml, formats, fills, borders);
                    break;
                case "cellStyleXfs" or "dxfs":
                    xml.Skip();
                    break;
            }
        }

        return styles;
    }

    private static void Add<T>(List<T> list, T value)
    {
        if (list.Count >= SpreadsheetLimits.Styles) throw SpreadsheetException.TooLarge("it has too many styles");
        list.Add(value);
    }

    private void ReadCells(PartReader xml, Dictionary<int, bool> formats, List<string?> fills, List<CellBorders> borders)
    {
        if (xml.IsEmpty) return;
        var depth = xml.Depth;
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.Type != System.Xml.XmlNodeType.Element || xml.Name != "xf") continue;
            var (format, fill, border) = (Number(xml["numFmtId"]), Number(xml["fillId"]), Number(xml["borderId"]));
            var isDate = formats.TryGetValue(format, out var own) ? own : IsDateFormat(format);
            Add(_cells, (
                new CellStyle(
                    fill >= 0 && fill < fills.Count ? fills[fill] : null,
                    border >= 0 && border < borders.Count ? borders[border] : CellBorders.None),
                isDate));
        }
    }

    private static string? Fill(PartReader xml)
    {
        if (xml.IsEmpty) return null;
        var depth = xml.Depth;
        string? colour = null;
        var hasPattern = false;
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.Type != System.Xml.XmlNodeType.Element) continue;
            if (xml.Name == "patternFill") hasPattern = xml["patternType"] is not (null or "none");
            if (xml.Name is "fgColor" or "color" && colour is null) colour = Colour(xml);
        }

        return hasPattern ? colour : null;
    }

    private static string? Colour(PartReader xml) =>
        xml["rgb"] is { Length: 8 } argb ? "#" + argb[2..].ToLowerInvariant()
        : xml["rgb"] is { Length: 6 } rgb ? "#" + rgb.ToLowerInvariant()
        : xml["theme"] is { } theme ? $"theme {theme}{(xml["tint"] is { } tint ? $" tint {tint}" : "")}"
        : xml["indexed"] is { } indexed ? $"indexed {indexed}"
        : null;

    private static CellBorders Border(PartReader xml)
    {
        var borders = CellBorders.None;
        if (xml.IsEmpty) return borders;
        var depth = xml.Depth;
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.Type != System.Xml.XmlNodeType.Element || xml["style"] is null or "none") continue;
            borders |= xml.Name switch
            {
                "left" or "start" => CellBorders.Left,
                "right" or "end" => CellBorders.Right,
                "top" => CellBorders.Top,
                "bottom" => CellBorders.Bottom,
                _ => CellBorders.None,
            };
        }

        return borders;
    }

    // ECMA-376 part 1, 18.8.30: the formats that every program has, dates and times among them.
    private static bool IsDateFormat(int format) =>
        format is (>= 14 and <= 22) or (>= 27 and <= 36) or (>= 45 and <= 47) or (>= 50 and <= 58);

    /// <summary>Whether a format shows a date or a time: a letter of one stands outside quotes, brackets and escapes.</summary>
    internal static bool IsDateCode(string code)
    {
        var (isQuoted, isInBrackets) = (false, false);
        for (var at = 0; at < code.Length; at++)
        {
            var letter = code[at];
            if (letter == '"') isQuoted = !isQuoted;
            else if (isQuoted) continue;
            else if (letter is '\\' or '_' or '*') at++;
            else if (letter == '[') isInBrackets = true;
            else if (letter == ']') isInBrackets = false;
            else if (isInBrackets) continue;
            else if ("dDmMyYhHsS".Contains(letter, StringComparison.Ordinal)) return true;
        }

        return code.Contains("[h", StringComparison.OrdinalIgnoreCase) || code.Contains("[m]", StringComparison.OrdinalIgnoreCase);
    }

    internal static int Number(string? text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : -1;
}
