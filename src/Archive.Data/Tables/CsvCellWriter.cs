using System.Buffers;
using Archive.Diagnostics.Rendering;

namespace Archive.Data.Tables;

/// <summary>Takes the cells of a row, one after the other.</summary>
public interface ICellWriter
{
    /// <summary>The next cell.</summary>
    void Write(DataValue value);
}

/// <summary>Keeps the cells of one row.</summary>
internal sealed class RowCellWriter : ICellWriter
{
    private readonly List<DataValue> _row = [];

    public void Write(DataValue value) => _row.Add(value);

    public DataValue[] EndRow()
    {
        DataValue[] row = [.. _row];
        _row.Clear();
        return row;
    }
}

/// <summary>Writes rows of a CSV file (RFC 4180) that a spreadsheet can open without running anything.</summary>
/// <remarks>
/// A text that a spreadsheet would take for a formula gets an apostrophe before it. Numbers are ours, and stay numbers. CSV cannot escape a
/// control character, and some readers take NUL for the end of the file: in texts they are made visible. The JSON beside it has them
/// exactly as written.
/// </remarks>
internal sealed class CsvCellWriter(Stream stream) : ICellWriter, IDisposable
{
    // As the OWASP page on CSV injection lists them, the full-width signs included.
    private const string FormulaSigns = "=+-@\t\r\n＝＋－＠";

    private static readonly SearchValues<char> AskForQuotes = SearchValues.Create(",\"\r\n");

    private readonly StreamWriter _writer = new(stream, bufferSize: 1 << 16, leaveOpen: true) { NewLine = "\r\n" };
    private bool _isWithinRow;

    public void Write(DataValue value)
    {
        if (_isWithinRow) _writer.Write(',');
        _isWithinRow = true;
        var text = value.IsText ? Harmless(VisibleText.Text(value.ToString())) : value.ToString();
        if (text.AsSpan().ContainsAny(AskForQuotes) || text.StartsWith(' ') || text.EndsWith(' '))
        {
            _writer.Write('"');
            _writer.Write(text.Replace("\"", "\"\"", StringComparison.Ordinal));
            _writer.Write('"');
        }
        else
        {
            _writer.Write(text);
        }
    }

    public void EndRow()
    {
        _writer.WriteLine();
        _isWithinRow = false;
    }

    public void Dispose() => _writer.Dispose();

    // What only looks like a sign behind spaces is read as one too.
    private static string Harmless(string text)
    {
        var first = text.AsSpan().TrimStart(' ');
        return first.Length > 0 && FormulaSigns.Contains(first[0], StringComparison.Ordinal) ? "'" + text : text;
    }
}
