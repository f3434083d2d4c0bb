using System.Collections.Immutable;
using System.Text;
using System.Text.Unicode;
using Archive.Diagnostics;
using Archive.Records.Reading;
using Archive.Spreadsheets.Model;

namespace Archive.Spreadsheets.Reading;

/// <summary>Reads CSV of any dialect: commas, semicolons, tabs or bars; UTF-8, UTF-16 with a mark, or else Windows-1252.</summary>
internal static class CsvWorkbook
{
    internal static Workbook Open(Stream stream, string name)
    {
        using (stream)
        {
            using var bytes = new MemoryStream();
            stream.CopyTo(bytes);
            var text = Decode(bytes.GetBuffer().AsSpan(0, (int)bytes.Length));
            if (text.Contains('\0', StringComparison.Ordinal))
                throw new SpreadsheetException("this is no spreadsheet", "name a spreadsheet: .xlsx, .ods or .csv");
            var stem = Path.GetFileNameWithoutExtension(name);
            var table = CsvTable.Read(new SourceText(name, text), isForeign: true);
            return new Workbook([new CsvSheet(stem.Length > 0 ? stem : "table", table)], null);
        }
    }

    private static string Decode(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith(Encoding.UTF8.Preamble)) return Encoding.UTF8.GetString(bytes[3..]);
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xff, 0xfe])) return Encoding.Unicode.GetString(bytes[2..]);
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xfe, 0xff])) return Encoding.BigEndianUnicode.GetString(bytes[2..]);
        return Utf8.IsValid(bytes)
            ? Encoding.UTF8.GetString(bytes)
            : CodePagesEncodingProvider.Instance.GetEncoding(1252)!.GetString(bytes);
    }
}

/// <summary>The one sheet of a CSV file; all its cells are texts.</summary>
internal sealed class CsvSheet(string name, CsvTable table) : Sheet(name)
{
    public override IEnumerable<SheetRow> Rows()
    {
        foreach (var row in table.Rows)
        {
            var line = row[0].Span.From.Line + 1;
            var cells = ImmutableArray.CreateBuilder<SheetCell>(row.Length);
            for (var at = 0; at < row.Length; at++)
            {
                if (row[at].Text.Length > SpreadsheetLimits.Letters)
                    throw SpreadsheetException.TooLarge($"a cell has more than {SpreadsheetLimits.Letters} letters");
                if (row[at].Text.Length > 0) cells.Add(new SheetCell(line, at + 1, CellType.Text, row[at].Text, 0, CellStyle.Plain));
            }

            if (cells.Count > 0) yield return new SheetRow(line, cells.DrainToImmutable());
        }

        if (table.Diagnostics.FirstOrDefault(diagnostic => diagnostic.Severity == Severity.Error) is { } error)
            throw new SpreadsheetException($"line {error.Span.From.Line + 1}: {error.Message}", error.Help);
    }

    public override ImmutableArray<CellRange> Merged() => [];
}
