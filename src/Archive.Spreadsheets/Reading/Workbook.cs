using System.Collections.Immutable;
using Archive.Spreadsheets.Model;

namespace Archive.Spreadsheets.Reading;

/// <summary>A spreadsheet: xlsx, ods or CSV, by what its bytes are and not by its name.</summary>
public sealed class Workbook : IDisposable
{
    private readonly IDisposable? _source;

    internal Workbook(ImmutableArray<Sheet> sheets, IDisposable? source) => (Sheets, _source) = (sheets, source);

    public ImmutableArray<Sheet> Sheets { get; }

    /// <summary>Opens a spreadsheet.</summary>
    /// <param name="stream">Can seek; stays open until the workbook is disposed of, which closes it.</param>
    /// <param name="name">Its file name; without extension, a CSV file's sheet is called so.</param>
    /// <exception cref="SpreadsheetException">It is none, or it is damaged, protected or too large.</exception>
    public static Workbook Open(Stream stream, string name)
    {
        if (stream.Length > SpreadsheetLimits.File)
            throw SpreadsheetException.TooLarge($"it is larger than {SpreadsheetLimits.File >> 20} MB");
        Span<byte> head = stackalloc byte[8];
        var length = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        stream.Position = 0;
        if (length == 0) throw new SpreadsheetException("the file is empty", "name a spreadsheet: .xlsx, .ods or .csv");
        if (head[..length].StartsWith("PK"u8)) return Package.Open(stream);
        if (head[..length].StartsWith((ReadOnlySpan<byte>)[0xd0, 0xcf, 0x11, 0xe0]))
        {
            throw new SpreadsheetException(
                "this is a spreadsheet of an older form (.xls), or one with a password",
                "open it in a spreadsheet program and save it as .xlsx or .ods, without a password");
        }

        return CsvWorkbook.Open(stream, name);
    }

    /// <summary>The sheet of a name; null where there is none.</summary>
    public Sheet? Find(string sheet) => Sheets.FirstOrDefault(each => each.Name == sheet)
        ?? Sheets.FirstOrDefault(each => string.Equals(each.Name, sheet, StringComparison.OrdinalIgnoreCase));

    public void Dispose() => _source?.Dispose();
}
