using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace Archive.Site;

/// <summary>Writes rows of a CSV file (RFC 4180) that a spreadsheet can open without running anything.</summary>
/// <remarks>
/// A text that a spreadsheet would take for a formula gets an apostrophe before it. Numbers are ours, and stay numbers.
/// </remarks>
internal sealed class CsvCells : IDisposable
{
    // As the OWASP page on CSV injection lists them, the full-width signs included.
    private const string FormulaSigns = "=+-@\t\r\n＝＋－＠";

    private readonly CsvWriter _csv;

    public CsvCells(Stream stream)
    {
        var writer = new StreamWriter(stream, bufferSize: 1 << 16, leaveOpen: true);
        // Lines end in \r\n by default; where NewLine is set, even to that, a lone \n within a cell goes unquoted.
        _csv = new CsvWriter(writer, new CsvConfiguration(CultureInfo.InvariantCulture));
    }

    public void Write(DataValue value)
    {
        var text = value.ToString();
        _csv.WriteField(value.IsText ? Harmless(text) : text);
    }

    public void EndRow() => _csv.NextRecord();

    public void Dispose() => _csv.Dispose();

    // What only looks like a sign behind spaces is read as one too.
    private static string Harmless(string text)
    {
        var first = text.AsSpan().TrimStart(' ');
        return first.Length > 0 && FormulaSigns.Contains(first[0], StringComparison.Ordinal) ? "'" + text : text;
    }
}
