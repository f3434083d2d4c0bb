using System.Collections.Immutable;
using System.Text;
using System.Xml;
using Archive.Spreadsheets.Model;

namespace Archive.Spreadsheets.Reading;

/// <summary>Reads ods: all sheets are in one part, one after the other.</summary>
internal static class OdsWorkbook
{
    internal const string Content = "content.xml";

    internal static Workbook Open(Package package)
    {
        var styles = new OdsStyles();
        if (package.Has("styles.xml"))
        {
            using var common = package.Read("styles.xml");
            while (common.Read())
            {
                if (common.Type == XmlNodeType.Element && common.Name == "style") styles.Read(common);
            }
        }

        var names = new List<string>();
        using var xml = package.Read(Content);
        var isSpreadsheet = false;
        while (xml.Read())
        {
            if (xml.Type != XmlNodeType.Element) continue;
            if (xml.Name == "spreadsheet") isSpreadsheet = true;
            else if (xml.Name == "style" && !isSpreadsheet) styles.Read(xml);
            else if (xml.Name == "table" && isSpreadsheet)
            {
                if (names.Count >= SpreadsheetLimits.Sheets)
                    throw SpreadsheetException.TooLarge($"it has more than {SpreadsheetLimits.Sheets} sheets");
                names.Add(xml["name"] ?? "");
                xml.Skip();
            }
            else if (xml.Name == "tracked-changes")
            {
                xml.Skip();
            }
        }

        return isSpreadsheet
            ? new Workbook([.. names.Select((name, at) => new OdsSheet(name, at, package, styles))], package)
            : throw new SpreadsheetException("this is an OpenDocument file, but no spreadsheet", "name a spreadsheet: .xlsx, .ods or .csv");
    }
}

/// <summary>A sheet of an ods file.</summary>
/// <param name="index">The how-manieth it is, from 0.</param>
internal sealed class OdsSheet(string name, int index, Package package, OdsStyles styles) : Sheet(name)
{
    // Filled cells without a value are repeated to the edge of the sheet: those of a drawn plan are fewer.
    private const int MostRepeatedLook = 1000;

    public override IEnumerable<SheetRow> Rows()
    {
        using var xml = Table();
        var columns = new ColumnLooks();
        var (row, cells, depth) = (1, 0L, xml.Depth);
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.Type != XmlNodeType.Element) continue;
            // Drawings may have tables in them.
            if (xml.Name is "shapes" or "forms" or "named-expressions" or "dde-source" or "scenario" or "title" or "desc")
            {
                xml.Skip();
                continue;
            }

            if (xml.Name == "table-column") columns.Add(Repeats(xml["number-columns-repeated"]), xml["default-cell-style-name"]);
            if (xml.Name != "table-row") continue;
            var repeated = Repeats(xml["number-rows-repeated"]);
            var read = Cells(xml, row, columns, null);
            var hasValue = read.Any(cell => cell.Type != CellType.Empty);
            if (hasValue && row + (long)repeated - 1 > SpreadsheetLimits.Rows)
                throw SpreadsheetException.TooLarge($"it has more than {SpreadsheetLimits.Rows} rows");
            if (!read.IsEmpty)
            {
                for (var copy = 0; copy < repeated && (hasValue || copy < MostRepeatedLook); copy++)
                {
                    cells += read.Length;
                    if (cells > SpreadsheetLimits.Cells)
                        throw SpreadsheetException.TooLarge($"a sheet has more than {SpreadsheetLimits.Cells} cells");
                    var number = row + copy;
                    yield return new SheetRow(number, copy == 0 ? read : [.. read.Select(cell => cell with { Row = number })]);
                }
            }

            row = (int)Math.Min(row + (long)repeated, SpreadsheetLimits.Rows + 1L);
        }
    }

    public override ImmutableArray<CellRange> Merged()
    {
        var merged = ImmutableArray.CreateBuilder<CellRange>();
        using var xml = Table();
        var (row, depth) = (1, xml.Depth);
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.Type != XmlNodeType.Element || xml.Name != "table-row") continue;
            var repeated = Repeats(xml["number-rows-repeated"]);
            Cells(xml, row, new ColumnLooks(), merged);
            row = (int)Math.Min(row + (long)repeated, SpreadsheetLimits.Rows + 1L);
        }

        return merged.DrainToImmutable();
    }

    // Stands at the element of the sheet.
    private PartReader Table()
    {
        var xml = package.Read(OdsWorkbook.Content);
        var (isSpreadsheet, at) = (false, 0);
        while (xml.Read())
        {
            if (xml.Type != XmlNodeType.Element) continue;
            if (xml.Name == "spreadsheet") isSpreadsheet = true;
            else if (isSpreadsheet && xml.Name == "tracked-changes") xml.Skip();
            else if (isSpreadsheet && xml.Name == "table" && at++ == index) return xml;
            else if (isSpreadsheet && xml.Name == "table") xml.Skip();
        }

        xml.Dispose();
        throw SpreadsheetException.Damaged($"sheet {Name} is not there");
    }

    private ImmutableArray<SheetCell> Cells(
        PartReader xml, int row, ColumnLooks looks, ImmutableArray<CellRange>.Builder? merged)
    {
        if (xml.IsEmpty) return [];
        var rowStyle = xml["default-cell-style-name"];
        var cells = ImmutableArray.CreateBuilder<SheetCell>();
        var (column, depth) = (1, xml.Depth);
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.Type != XmlNodeType.Element || xml.Name is not ("table-cell" or "covered-table-cell")) continue;
            var repeated = Repeats(xml["number-columns-repeated"]);
            var (columns, rows) = (Repeats(xml["number-columns-spanned"]), Repeats(xml["number-rows-spanned"]));
            if (merged is not null && (columns > 1 || rows > 1))
            {
                if (merged.Count >= SpreadsheetLimits.Merged) throw SpreadsheetException.TooLarge("it has too many merged cells");
                merged.Add(new CellRange(
                    row,
                    column,
                    (int)Math.Min(row + (long)rows - 1, SpreadsheetLimits.Rows),
                    (int)Math.Min(column + (long)columns - 1, SpreadsheetLimits.Columns)));
            }

            var own = xml["style-name"] ?? rowStyle;
            var isCovered = xml.Name == "covered-table-cell";
            var cell = Cell(xml, row, column, own ?? looks[column]);
            if (merged is null && !isCovered)
            {
                var hasValue = cell is { Type: not CellType.Empty };
                if (hasValue && column + (long)repeated - 1 > SpreadsheetLimits.Columns)
                    throw SpreadsheetException.TooLarge($"it has more than {SpreadsheetLimits.Columns} columns");
                if (cell is not null) cells.Add(cell);
                for (var copy = 1; copy < repeated && (hasValue || copy < MostRepeatedLook); copy++)
                {
                    // Without a style of its own, each copy looks like its column.
                    var style = own is null ? styles[looks[column + copy]] : cell?.Style ?? CellStyle.Plain;
                    if (hasValue || style.Fill is not null || style.Borders != CellBorders.None)
                    {
                        cells.Add((cell ?? new SheetCell(row, column, CellType.Empty, "", 0, style)) with
                        {
                            Column = column + copy,
                            Style = style,
                        });
                    }
                }
            }

            column = (int)Math.Min(column + (long)repeated, SpreadsheetLimits.Columns + 1L);
        }

        return cells.DrainToImmutable();
    }

    private SheetCell? Cell(PartReader xml, int row, int column, string? look)
    {
        var (type, style) = (xml["value-type"], styles[look]);
        var (number, date, flag, said) = (xml["value"], xml["date-value"], xml["boolean-value"], xml["string-value"]);
        var time = xml["time-value"];
        var isCovered = xml.Name == "covered-table-cell";
        var shown = Shown(xml);
        if (isCovered) return null;
        switch (type)
        {
            case "float" or "percentage" or "currency" when CellText.TryNumber(number, out var value):
                return new SheetCell(row, column, CellType.Number, CellText.Write(value), value, style);
            case "date" when date is not null:
                return new SheetCell(row, column, CellType.Date, SerialDates.WithoutMidnight(date), 0, style);
            case "time" when time is not null:
                return new SheetCell(row, column, CellType.Text, shown.Length > 0 ? shown : time, 0, style);
            case "boolean":
                return new SheetCell(row, column, CellType.Flag, flag is "true" ? "true" : "false", 0, style);
        }

        // A formula that failed says so in what is shown.
        var text = string.IsNullOrEmpty(said) ? shown : said;
        if (text.Length > 0)
            return new SheetCell(row, column, text[0] == '#' && IsError(text) ? CellType.Error : CellType.Text, text, 0, style);
        return style.Fill is null && style.Borders == CellBorders.None
            ? null
            : new SheetCell(row, column, CellType.Empty, "", 0, style);
    }

    private static bool IsError(string text) => text is "#N/A" or "#REF!" or "#NAME?" or "#VALUE!" or "#DIV/0!" or "#NUM!" or "#NULL!";

    // Paragraphs are lines; what is written beside the cell (a comment, a drawing) is left out.
    private static string Shown(PartReader xml)
    {
        if (xml.IsEmpty) return "";
        var text = new StringBuilder();
        var (depth, paragraphs, within) = (xml.Depth, 0, 0);
        while (xml.Read() && xml.Depth > depth)
        {
            if (xml.Type == XmlNodeType.Element)
            {
                switch (xml.Name)
                {
                    case "annotation" or "frame" or "g" or "custom-shape" or "line" or "rect" or "detective" or "table":
                        xml.Skip();
                        break;
                    case "p" or "h":
                        if (paragraphs++ > 0) CellText.Append(text, "\n");
                        within = xml.IsEmpty ? within : xml.Depth;
                        break;
                    case "s":
                        CellText.Append(text, new string(' ', Math.Min(Repeats(xml["c"]), SpreadsheetLimits.Letters)));
                        break;
                    case "tab":
                        CellText.Append(text, "\t");
                        break;
                    case "line-break":
                        CellText.Append(text, "\n");
                        break;
                }
            }
            else if (within > 0 && xml.IsText && xml.Depth > within)
            {
                CellText.Append(text, xml.Value);
            }
        }

        return text.ToString();
    }

    private static int Repeats(string? text) => XlsxStyles.Number(text) is > 0 and var number ? number : 1;

    // Cells without a style of their own look like their column.
    private sealed class ColumnLooks
    {
        private readonly List<(int Last, string? Style)> _columns = [];

        internal string? this[int column]
        {
            get
            {
                foreach (var (last, style) in _columns)
                {
                    if (column <= last) return style;
                }

                return null;
            }
        }

        internal void Add(int repeated, string? style)
        {
            if (_columns.Count >= MostRepeatedLook) return;
            var first = _columns.Count == 0 ? 0 : _columns[^1].Last;
            _columns.Add(((int)Math.Min(first + (long)repeated, SpreadsheetLimits.Columns), style));
        }
    }
}
