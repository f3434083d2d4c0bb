using System.Buffers;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using CsvHelper;
using CsvHelper.Configuration;

namespace Archive.Records.Reading.Syntax;

/// <summary>Reads a CSV file row by row (RFC 4180; also with semicolons or tabs), with the place of every cell.</summary>
/// <remarks>
/// CsvHelper splits the text and undoes the quoting; it tells no columns, so the raw row is walked once more for the places.
/// </remarks>
internal sealed class CsvTableReader : IDisposable
{
    // Cells of one row: far above any table's, so that a line of commas does not become a million of them.
    private const int MostCells = 1000;

    private readonly SourceText _source;
    private readonly DiagnosticBag _diagnostics;
    private readonly CsvDialect _dialect;
    private readonly CsvParser _parser;
    private readonly List<(int Start, int Length)> _places = [];
    private bool _isAtEnd;

    /// <summary>Begins to read.</summary>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    /// <param name="isForeign">Whether cells may be separated by <c>|</c>, too.</param>
    public CsvTableReader(SourceText source, DiagnosticBag diagnostics, bool isForeign = false)
    {
        _source = source;
        _diagnostics = diagnostics;
        _dialect = CsvDialect.From(source.Text, isForeign);
        if (OverfullRow(source.Text, _dialect.Separator) is { } separator)
        {
            _isAtEnd = true;
            diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
                new SourceSpan(source, separator, 1),
                $"a row with more than {MostCells} cells; this table is not read",
                $"remove the superfluous {_dialect.Noun}s"));
        }

        // The library makes its buffer longer bit by bit, and copies it each time: a cell may go on to the end of the file.
        var rows = new SegmentReader(source.Text, _dialect.Start, source.Text.Length);
        _parser = new CsvParser(rows, new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            BadDataFound = null,
            DetectDelimiter = false,
            Delimiter = _dialect.Separator.ToString(),
            BufferSize = Math.Max(1 << 12, source.Text.Length + 1),
        });
    }

    /// <summary>How the table is written.</summary>
    public CsvDialect Dialect => _dialect;

    /// <summary>The next row that is written well; blank rows are passed over.</summary>
    /// <returns>Its cells, or null at the end.</returns>
    public List<ScalarNode>? Next()
    {
        while (!_isAtEnd && !_diagnostics.IsFull && _parser.Read())
        {
            var row = _parser.RawRecord.AsSpan();
            var start = _dialect.Start + (int)_parser.CharCount - row.Length;
            if (Walk(start, start + row.TrimEnd("\r\n").Length) && Cells() is { } cells) return cells;
        }

        return null;
    }

    public void Dispose() => _parser.Dispose();

    // The separator that begins a cell too many; null where no row has any.
    private static int? OverfullRow(string text, char separator)
    {
        var marks = SearchValues.Create([separator, '"', '\r', '\n']);
        var (isQuoted, cells) = (false, 1);
        for (var at = text.AsSpan().IndexOfAny(marks); at >= 0;)
        {
            if (text[at] == '"') isQuoted = !isQuoted;
            else if (!isQuoted && text[at] != separator) cells = 1;
            else if (!isQuoted && ++cells > MostCells) return at;
            var next = text.AsSpan(at + 1).IndexOfAny(marks);
            at = next < 0 ? -1 : at + 1 + next;
        }

        return null;
    }

    private List<ScalarNode>? Cells()
    {
        var cells = new List<ScalarNode>(_places.Count);
        var isBlank = true;
        for (var i = 0; i < _places.Count; i++)
        {
            var (start, length) = _places[i];
            var isQuoted = start > 0 && _source.Text[start - 1] == '"';
            var text = isQuoted ? _parser[i] : _parser[i].Trim();
            cells.Add(new ScalarNode(new SourceSpan(_source, start, length), text, ScalarNotation.Cell));
            isBlank &= text.Length == 0;
        }

        return isBlank ? null : cells;
    }

    // Finds the inner text of each cell of a row; false where the row is not written well.
    private bool Walk(int at, int end)
    {
        _places.Clear();
        if (_source.Text.AsSpan(at, end - at).IndexOfAny(YamlCharacters.Controls) is >= 0 and var control)
        {
            var code = (int)_source.Text[at + control];
            return Refuse(at + control, $"control character U+{code:X4} in the text", "remove it; it is invisible, so type the cell again");
        }

        while (true)
        {
            var isQuoted = at < end && _source.Text[at] == '"';
            if (!(isQuoted ? Quoted(ref at, end) : Unquoted(ref at, end))) return false;
            if (at >= end) break;
            at++;
        }

        return _places.Count == _parser.Count;
    }

    private bool Unquoted(ref int at, int end)
    {
        var cell = _source.Text.AsSpan(at, end - at);
        if (cell.IndexOf(_dialect.Separator) is >= 0 and var separator) cell = cell[..separator];
        if (cell.IndexOf('"') is >= 0 and var quote) return Refuse(
            at + quote,
            "there is a quote inside a cell that is not in quotes",
            "put quotes around the cell, and double each quote inside it");
        var blank = cell.Length - cell.TrimStart().Length;
        _places.Add((at + Math.Min(blank, cell.Length), cell.Trim().Length));
        at += cell.Length;
        return true;
    }

    private bool Quoted(ref int at, int end)
    {
        var text = _source.Text;
        var open = at++;
        while (at < end && (text[at] != '"' || (at + 1 < end && text[at + 1] == '"'))) at += text[at] == '"' ? 2 : 1;
        if (at >= end)
        {
            _isAtEnd = true;
            return Refuse(open, "a quote is never closed", "close it; double a quote inside a cell");
        }

        _places.Add((open + 1, at - open - 1));
        at++;
        if (at >= end || text[at] == _dialect.Separator) return true;
        if (!text.AsSpan(open, at - open).Contains('\n'))
            return Refuse(
                at, "there is text after the closing quote of a cell", $"put a {_dialect.Noun} there; double a quote inside a cell");

        // The quote that ends it some lines on was to begin another cell, and so it would go on to the end of the file.
        _isAtEnd = true;
        return Refuse(open, "a quote is not closed at the end of its cell", "close it; double a quote inside a cell");
    }

    private bool Refuse(int at, string message, string help)
    {
        _diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(new SourceSpan(_source, at, 1), message, help));
        return false;
    }
}
