using System.Globalization;
using System.IO.Compression;
using System.Text;
using Archive.Spreadsheets.Model;

namespace Archive.Spreadsheets.Writing;

/// <summary>
/// Writes tables as an xlsx file (ECMA-376): frozen heads, filters, widths by what is in the columns, real numbers and dates. The same
/// tables give the same bytes: no clock, no name of a person or program is in them.
/// </summary>
public static class XlsxWriter
{
    private const int Narrowest = 8, Widest = 60; // letters
    private const int MeasuredRows = 200;
    private const string Refused = "[]:*?/\\";
    private const string Declaration = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/package/2006/relationships";
    private const string Related = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    // The oldest that a zip file can state.
    private static readonly DateTimeOffset Always = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>Writes a workbook.</summary>
    /// <param name="sheets">At least one.</param>
    public static void Write(Stream stream, IReadOnlyList<TableSheet> sheets)
    {
        using var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
        var names = Names(sheets);
        Part(zip, "[Content_Types].xml", to => WriteTypes(to, sheets.Count));
        Part(zip, "_rels/.rels", to => to.Write(
            $"<Relationships xmlns=\"{Relations}\">"
            + $"<Relationship Id=\"rId1\" Type=\"{Related}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"));
        Part(zip, "xl/workbook.xml", to => WriteBook(to, sheets, names));
        Part(zip, "xl/_rels/workbook.xml.rels", to => WriteRelations(to, sheets.Count));
        Part(zip, "xl/styles.xml", WriteStyles);
        for (var at = 0; at < sheets.Count; at++)
        {
            var sheet = sheets[at];
            var isFirst = at == 0;
            Part(zip, $"xl/worksheets/sheet{Figures(at + 1)}.xml", to => WriteSheet(to, sheet, isFirst));
        }
    }

    private static void Part(ZipArchive zip, string name, Action<StreamWriter> write)
    {
        var entry = zip.CreateEntry(name, CompressionLevel.Optimal);
        entry.LastWriteTime = Always;
        using var writer = new StreamWriter(entry.Open(), new UTF8Encoding(false), 1 << 16);
        writer.Write(Declaration);
        write(writer);
    }

    private static void WriteTypes(StreamWriter to, int sheets)
    {
        const string Spreadsheet = "application/vnd.openxmlformats-officedocument.spreadsheetml";
        to.Write("<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">");
        to.Write("<Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>");
        to.Write($"<Override PartName=\"/xl/workbook.xml\" ContentType=\"{Spreadsheet}.sheet.main+xml\"/>");
        to.Write($"<Override PartName=\"/xl/styles.xml\" ContentType=\"{Spreadsheet}.styles+xml\"/>");
        for (var at = 1; at <= sheets; at++)
            to.Write($"<Override PartName=\"/xl/worksheets/sheet{Figures(at)}.xml\" ContentType=\"{Spreadsheet}.worksheet+xml\"/>");
        to.Write("</Types>");
    }

    private static void WriteBook(StreamWriter to, IReadOnlyList<TableSheet> sheets, List<string> names)
    {
        to.Write($"<workbook xmlns=\"{Main}\" xmlns:r=\"{Related}\"><workbookPr/><bookViews><workbookView/></bookViews><sheets>");
        for (var at = 0; at < names.Count; at++)
            to.Write($"<sheet name=\"{Escape(names[at])}\" sheetId=\"{Figures(at + 1)}\" r:id=\"rId{Figures(at + 1)}\"/>");
        to.Write("</sheets><definedNames>");
        // The filter's range has a name that some programs require.
        for (var at = 0; at < names.Count; at++)
        {
            var quoted = $"'{names[at].Replace("'", "''", StringComparison.Ordinal)}'";
            var last = CellAddress.ColumnName(Math.Max(sheets[at].Columns.Count, 1));
            to.Write($"<definedName name=\"_xlnm._FilterDatabase\" localSheetId=\"{Figures(at)}\" hidden=\"1\">");
            to.Write($"{Escape(quoted)}!$A$1:${last}$1</definedName>");
        }

        to.Write("</definedNames></workbook>");
    }

    private static void WriteRelations(StreamWriter to, int sheets)
    {
        to.Write($"<Relationships xmlns=\"{Relations}\">");
        for (var at = 1; at <= sheets; at++)
        {
            to.Write($"<Relationship Id=\"rId{Figures(at)}\" Type=\"{Related}/worksheet\" ");
            to.Write($"Target=\"worksheets/sheet{Figures(at)}.xml\"/>");
        }

        to.Write($"<Relationship Id=\"rId{Figures(sheets + 1)}\" Type=\"{Related}/styles\" Target=\"styles.xml\"/></Relationships>");
    }

    // 0 plain, 1 head, 2 date, 3 text that stays text when it is edited.
    private static void WriteStyles(StreamWriter to) => to.Write(
        $"""
        <styleSheet xmlns="{Main}">
        <numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd"/></numFmts>
        <fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts>
        <fills count="3"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>
        <fill><patternFill patternType="solid"><fgColor rgb="FFE8E4DA"/></patternFill></fill></fills>
        <borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>
        <cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>
        <cellXfs count="4"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>
        <xf numFmtId="49" fontId="1" fillId="2" borderId="0" xfId="0" applyFont="1" applyFill="1"/>
        <xf numFmtId="164" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>
        <xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs></styleSheet>
        """.ReplaceLineEndings("\n"));

    private static void WriteSheet(StreamWriter to, TableSheet sheet, bool isFirst)
    {
        to.Write($"<worksheet xmlns=\"{Main}\"><sheetViews><sheetView {(isFirst ? "tabSelected=\"1\" " : "")}workbookViewId=\"0\">");
        to.Write("<pane ySplit=\"1\" topLeftCell=\"A2\" activePane=\"bottomLeft\" state=\"frozen\"/></sheetView></sheetViews>");
        var widths = Widths(sheet);
        if (widths.Length > 0)
        {
            to.Write("<cols>");
            for (var at = 0; at < widths.Length; at++)
            {
                var column = Figures(at + 1);
                to.Write($"<col min=\"{column}\" max=\"{column}\" width=\"{Figures(widths[at] + 2)}\" customWidth=\"1\"/>");
            }

            to.Write("</cols>");
        }

        to.Write("<sheetData><row r=\"1\">");
        for (var at = 0; at < sheet.Columns.Count; at++) WriteCell(to, 1, at + 1, TableValue.Of(sheet.Columns[at].Head), isHead: true);
        to.Write("</row>");
        var row = 1;
        foreach (var values in sheet.Rows())
        {
            row++;
            if (row > SpreadsheetLimits.Rows) throw new InvalidOperationException($"{sheet.Name} has more rows than a sheet can have");
            to.Write($"<row r=\"{Figures(row)}\">");
            for (var at = 0; at < values.Count; at++) WriteCell(to, row, at + 1, values[at], isHead: false);
            to.Write("</row>");
        }

        var corner = CellAddress.Write(row, Math.Max(sheet.Columns.Count, 1));
        to.Write($"</sheetData><autoFilter ref=\"A1:{corner}\"/></worksheet>");
    }

    private static void WriteCell(StreamWriter to, int row, int column, TableValue value, bool isHead)
    {
        if (value.Kind == TableValueKind.None) return;
        to.Write("<c r=\"");
        to.Write(CellAddress.Write(row, column));
        switch (value.Kind)
        {
            case TableValueKind.Number:
                to.Write("\"><v>");
                to.Write(value.Number.ToString("R", CultureInfo.InvariantCulture));
                to.Write("</v></c>");
                break;
            case TableValueKind.Flag:
                to.Write("\" t=\"b\"><v>");
                to.Write(value.Number != 0 ? '1' : '0');
                to.Write("</v></c>");
                break;
            case TableValueKind.Date:
                to.Write("\" s=\"2\"><v>");
                to.Write(value.Number.ToString("R", CultureInfo.InvariantCulture));
                to.Write("</v></c>");
                break;
            default:
                // Text is never a formula in xlsx, whatever it begins with.
                to.Write(isHead ? "\" s=\"1" : "\" s=\"3");
                to.Write("\" t=\"inlineStr\"><is><t xml:space=\"preserve\">");
                to.Write(Escape(value.Text!.Length > SpreadsheetLimits.Letters ? value.Text[..SpreadsheetLimits.Letters] : value.Text));
                to.Write("</t></is></c>");
                break;
        }
    }

    private static int[] Widths(TableSheet sheet)
    {
        var widths = sheet.Columns.Select(column => Math.Max(Narrowest, column.Head.Length + 2)).ToArray();
        foreach (var row in sheet.Rows().Take(MeasuredRows))
        {
            for (var at = 0; at < Math.Min(row.Count, widths.Length); at++)
            {
                var length = row[at].Kind switch
                {
                    TableValueKind.Text => row[at].Text!.Length,
                    TableValueKind.Number => row[at].Number.ToString("R", CultureInfo.InvariantCulture).Length,
                    TableValueKind.Date => 10,
                    _ => 5,
                };
                widths[at] = Math.Min(Widest, Math.Max(widths[at], length));
            }
        }

        return widths;
    }

    // Names of sheets have at most 31 letters, none of []:*?/\, and differ without regard to case.
    private static List<string> Names(IReadOnlyList<TableSheet> sheets)
    {
        var names = new List<string>();
        foreach (var sheet in sheets)
        {
            var plain = string.Concat(sheet.Name.Select(letter => Refused.Contains(letter, StringComparison.Ordinal) ? ' ' : letter))
                .Trim('\'', ' ');
            if (plain.Length == 0) plain = "Sheet";
            var name = plain.Length > 31 ? plain[..31] : plain;
            for (var copy = 2; names.Contains(name, StringComparer.OrdinalIgnoreCase); copy++)
            {
                var ending = string.Create(CultureInfo.InvariantCulture, $" {copy}");
                name = plain[..Math.Min(plain.Length, 31 - ending.Length)] + ending;
            }

            names.Add(name);
        }

        return names;
    }

    private static string Figures(int number) => number.ToString(CultureInfo.InvariantCulture);

    // What XML cannot have is written as _x0007_, and so is what looks like that.
    private static string Escape(string text)
    {
        var escaped = new StringBuilder(text.Length);
        for (var at = 0; at < text.Length; at++)
        {
            var letter = text[at];
            if (letter == '&') escaped.Append("&amp;");
            else if (letter == '<') escaped.Append("&lt;");
            else if (letter == '>') escaped.Append("&gt;");
            else if (letter == '"') escaped.Append("&quot;");
            else if (letter == '_' && at + 6 < text.Length && text[at + 1] == 'x' && text[at + 6] == '_') escaped.Append("_x005F_");
            else if (at + 1 < text.Length && char.IsSurrogatePair(letter, text[at + 1])) escaped.Append(letter).Append(text[++at]);
            else if (char.IsSurrogate(letter)) escaped.Append('\ufffd');
            else if ((letter < ' ' && letter is not ('\n' or '\t')) || letter >= '\ufffe')
                escaped.Append("_x").Append(((int)letter).ToString("X4", CultureInfo.InvariantCulture)).Append('_');
            else escaped.Append(letter);
        }

        return escaped.ToString();
    }
}
