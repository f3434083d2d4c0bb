using System.Collections.Immutable;
using System.Text;
using System.Xml;
using Archive.Spreadsheets.Model;

namespace Archive.Spreadsheets.Reading;

/// <summary>Reads xlsx: its list of sheets, the texts they share, their styles; then sheets row by row.</summary>
internal static class XlsxWorkbook
{
    private const string Root = "_rels/.rels";

    internal static Workbook Open(Package package)
    {
        var path = Relations(package, Root, "").Values.FirstOrDefault(each => each.Type == "officeDocument").Path ?? "xl/workbook.xml";
        var folder = path[..(path.LastIndexOf('/') + 1)];
        var relations = Relations(package, $"{folder}_rels/{path[folder.Length..]}.rels", folder);
        var (isFrom1904, named) = ReadBook(package, path);
        var shared = relations.Values.FirstOrDefault(each => each.Type == "sharedStrings").Path;
        var styles = relations.Values.FirstOrDefault(each => each.Type == "styles").Path;
        var texts = new XlsxTexts(
            shared is null ? [] : SharedTexts(package, shared), XlsxStyles.Read(package, styles ?? folder + "styles.xml"), isFrom1904);
        return new Workbook(
            [.. named.Where(sheet => relations.ContainsKey(sheet.Relation) && relations[sheet.Relation].Type == "worksheet")
                .Select(sheet => new XlsxSheet(sheet.Name, package, relations[sheet.Relation].Path, texts))],
            package);
    }

    private static (bool IsFrom1904, List<(string Name, string Relation)> Sheets) ReadBook(Package package, string path)
    {
        var (isFrom1904, sheets) = (false, new List<(string, string)>());
        using var xml = package.Read(path);
        while (xml.Read())
        {
            if (xml.Type != XmlNodeType.Element) continue;
            if (xml.Name == "workbookPr") isFrom1904 = xml["date1904"] is "1" or "true";
            else if (xml.Name == "sheet") sheets.Add((xml["name"] ?? "", xml["id"] ?? ""));
            if (sheets.Count > SpreadsheetLimits.Sheets)
                throw SpreadsheetException.TooLarge($"it has more than {SpreadsheetLimits.Sheets} sheets");
        }

        return (isFrom1904, sheets);
    }

    // Parts outside the file are never opened.
    private static Dictionary<string, (string Type, string Path)> Relations(Package package, string path, string folder)
    {
        var relations = new Dictionary<string, (string, string)>(StringComparer.Ordinal);
        if (!package.Has(path)) return relations;
        using var xml = package.Read(path);
        while (xml.Read())
        {
            if (xml.Type != XmlNodeType.Element || xml.Name != "Relationship" || xml["TargetMode"] == "External") continue;
            if (xml["Id"] is not { } id || xml["Target"] is not { } target || xml["Type"] is not { } type) continue;
            relations[id] = (type[(type.LastIndexOf('/') + 1)..], target.StartsWith('/') ? target[1..] : Resolve(folder + target));
        }

        return relations;
    }

    private static string Resolve(string path)
    {
        var parts = new List<string>();
        foreach (var part in path.Split('/'))
        {
            if (part == ".." && parts.Count > 0) parts.RemoveAt(parts.Count - 1);
            else if (part is not ("." or "..")) parts.Add(part);
        }

        return string.Join('/', parts);
    }

    private static List<string> SharedTexts(Package package, string path)
    {
        var (texts, letters) = (new List<string>(), 0L);
        using var xml = package.Read(path);
        while (xml.Read())
        {
            if (xml.Type != XmlNodeType.Element || xml.Name != "si") continue;
            var text = RichText(xml);
            letters += text.Length + 8;
            if (letters > SpreadsheetLimits.SharedLetters) throw SpreadsheetException.TooLarge("its cells share too much text");
            texts.Add(text);
        }

        return texts;
    }

    /// <summary>The text of an element whose runs may each have a look of their own; how it is pronounced is left out.</summary>
    internal static string RichText(PartReader xml)
    {
        if (xml.IsEmpty) return "";
        var text = new StringBuilder();
        var (depth, isText) = (xml.Depth, false);
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.Type == XmlNodeType.Element && xml.Name == "rPh") xml.Skip();
            else if (xml.Type == XmlNodeType.Element) isText = xml.Name == "t" && !xml.IsEmpty;
            else if (xml.Type == XmlNodeType.EndElement) isText = false;
            else if (isText && xml.IsText) CellText.Append(text, xml.Value);
        }

        return CellText.Unescape(text.ToString());
    }
}

/// <summary>What the cells of all sheets refer to.</summary>
internal sealed record XlsxTexts(List<string> Shared, XlsxStyles Styles, bool IsFrom1904);

/// <summary>A sheet of an xlsx file.</summary>
internal sealed class XlsxSheet(string name, Package package, string path, XlsxTexts texts) : Sheet(name)
{
    public override IEnumerable<SheetRow> Rows()
    {
        using var xml = package.Read(path);
        var (row, cells) = (0, 0);
        while (xml.Read())
        {
            if (xml.Type != XmlNodeType.Element || xml.Name != "row") continue;
            row = XlsxStyles.Number(xml["r"]) is > 0 and var number ? number : row + 1;
            if (row > SpreadsheetLimits.Rows) throw SpreadsheetException.TooLarge($"it has more than {SpreadsheetLimits.Rows} rows");
            var read = Cells(xml, row);
            cells += read.Length;
            if (cells > SpreadsheetLimits.Cells)
                throw SpreadsheetException.TooLarge($"a sheet has more than {SpreadsheetLimits.Cells} cells");
            if (!read.IsEmpty) yield return new SheetRow(row, read);
        }
    }

    public override ImmutableArray<CellRange> Merged()
    {
        var merged = ImmutableArray.CreateBuilder<CellRange>();
        using var xml = package.Read(path);
        while (xml.Read())
        {
            if (xml.Type != XmlNodeType.Element || xml.Name != "mergeCell" || xml["ref"] is not { } range) continue;
            if (merged.Count >= SpreadsheetLimits.Merged) throw SpreadsheetException.TooLarge("it has too many merged cells");
            var colon = range.IndexOf(':', StringComparison.Ordinal);
            var (first, last) = (CellAddress.Parse(range.AsSpan(0, Math.Max(colon, 0))), CellAddress.Parse(range.AsSpan(colon + 1)));
            if (first.Row > 0 && last.Row >= first.Row && last.Column >= first.Column)
                merged.Add(new CellRange(first.Row, first.Column, last.Row, last.Column));
        }

        return merged.DrainToImmutable();
    }

    private ImmutableArray<SheetCell> Cells(PartReader xml, int row)
    {
        if (xml.IsEmpty) return [];
        var cells = ImmutableArray.CreateBuilder<SheetCell>();
        var (depth, column) = (xml.Depth, 0);
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.Type != XmlNodeType.Element || xml.Name != "c") continue;
            column = CellAddress.Parse(xml["r"]).Column is > 0 and var own && own > column ? own : column + 1;
            if (column > SpreadsheetLimits.Columns)
                throw SpreadsheetException.TooLarge($"it has more than {SpreadsheetLimits.Columns} columns");
            if (Cell(xml, row, column) is { } cell) cells.Add(cell);
        }

        return cells.DrainToImmutable();
    }

    private SheetCell? Cell(PartReader xml, int row, int column)
    {
        var (type, (style, isDate)) = (xml["t"] ?? "n", texts.Styles[XlsxStyles.Number(xml["s"])]);
        string? value = null;
        if (!xml.IsEmpty)
        {
            var (depth, text, isValue) = (xml.Depth, new StringBuilder(), false);
            while (xml.Read() && xml.Depth > depth)
            {
                if (xml.Type == XmlNodeType.Element && xml.Name == "is") value = XlsxWorkbook.RichText(xml);
                else if (xml.Type == XmlNodeType.Element) isValue = xml.Name == "v" && !xml.IsEmpty;
                else if (xml.Type == XmlNodeType.EndElement) isValue = false;
                else if (isValue && xml.IsText) CellText.Append(text, xml.Value);
            }

            if (text.Length > 0) value = text.ToString();
        }

        if (string.IsNullOrEmpty(value))
            return style == CellStyle.Plain || (style.Fill is null && style.Borders == CellBorders.None)
                ? null
                : new SheetCell(row, column, CellType.Empty, "", 0, style);
        return type switch
        {
            "s" => XlsxStyles.Number(value) is >= 0 and var shared && shared < texts.Shared.Count
                ? Text(texts.Shared[shared])
                : throw SpreadsheetException.Damaged($"cell {CellAddress.Write(row, column)} refers to a text that is not there"),
            "b" => new SheetCell(row, column, CellType.Flag, value is "1" or "true" ? "true" : "false", 0, style),
            "e" => new SheetCell(row, column, CellType.Error, value, 0, style),
            "d" => new SheetCell(row, column, CellType.Date, SerialDates.WithoutMidnight(value), 0, style),
            "n" when CellText.TryNumber(value, out var number) => isDate && SerialDates.Write(number, texts.IsFrom1904) is { } date
                ? new SheetCell(row, column, CellType.Date, date, number, style)
                : new SheetCell(row, column, CellType.Number, CellText.Write(number), number, style),
            "inlineStr" => Text(value),
            _ => Text(CellText.Unescape(value)),
        };

        SheetCell Text(string text) => new(row, column, text.Length == 0 ? CellType.Empty : CellType.Text, text, 0, style);
    }
}
