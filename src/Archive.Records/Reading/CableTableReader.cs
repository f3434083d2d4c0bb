using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Reading;

/// <summary>
/// Turns each row of a CSV cable list into the mapping that the same cable would be in YAML, so that one reader reads both.
/// </summary>
internal sealed class CableTableReader
{
    // Far above those that are known; a header of a million commas must not be compared each with each.
    private const int MostColumns = 200;

    // Names in the lists of one table, and links and tags in its prose, far above any machine's: what one costs to check does not depend
    // on how few bytes it has.
    private const int MostParts = 500_000;

    private static readonly ImmutableArray<string> Known = [.. CableTableFormat.All.Keys.Select(key => key.Name)];

    private readonly SourceText _source;
    private readonly DiagnosticBag _diagnostics;
    private readonly List<ScalarNode> _header;
    private readonly bool[] _isKnown;
    private readonly bool[] _isRepeated;
    private readonly ImmutableArray<MappingEntry> _missing;
    private int _parts;

    private CableTableReader(SourceText source, List<ScalarNode> header, DiagnosticBag diagnostics)
    {
        _source = source;
        _diagnostics = diagnostics;
        _header = header;
        _isKnown = [.. header.Select(column => Known.Contains(column.Text))];
        _isRepeated = [.. header.Select((column, i) => header.FindIndex(other => other.Text == column.Text) < i)];
        _missing = Missing();
        CheckHeader();
    }

    /// <summary>Reads the rows of a file.</summary>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    public static IEnumerable<SyntaxNode> Rows(SourceText source, DiagnosticBag diagnostics)
    {
        using var cells = new CsvTableReader(source, diagnostics);
        if (cells.Next() is not { } header) yield break;
        if (header is [{ Text: var only } first] && only.AsSpan().IndexOfAny(';', '\t') is >= 0 and var mark)
        {
            diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
                first.Span.Slice(mark, 1), "the columns are not separated by commas", "save the table with commas between the cells"));
            yield break;
        }

        if (header.Count > MostColumns)
        {
            diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
                header[MostColumns].Span, $"this table has {header.Count} columns", $"known columns: {string.Join(", ", Known)}"));
            yield break;
        }

        if (!header.Exists(column => Known.Contains(column.Text)
            || NearestName.Find(column.Text, Known) is not null && column.Text.Length > 1))
        {
            diagnostics.Add(DiagnosticDescriptors.UnknownColumn.At(
                header[0].Span,
                "the first line of this table names no column",
                $"write the column names there: {string.Join(", ", Known)}"));
            yield break;
        }

        var table = new CableTableReader(source, header, diagnostics);
        // Of a table that is full of errors no one reads the rest.
        while (!diagnostics.IsFull && cells.Next() is { } row)
        {
            if (table.CellBeyond(row) is { } cell)
            {
                diagnostics.Add(DiagnosticDescriptors.TooManyValues.At(
                    cell.Span.Slice(0, 1),
                    $"this table holds more than {MostParts} names in lists and `[` and `<` in prose; nothing from this row on is read",
                    "split the file into several"));
                yield break;
            }

            yield return table.Row(row);
        }
    }

    // The cell that holds one name, link or tag too many.
    private ScalarNode? CellBeyond(List<ScalarNode> row)
    {
        for (var i = 0; i < Math.Min(row.Count, _header.Count); i++)
        {
            var text = row[i].Text.AsSpan();
            if (text.Length > 0) _parts += IsList(i) ? text.Count(' ') + 1 : text.Count('[') + text.Count('<');
            if (_parts > MostParts) return row[i];
        }

        return null;
    }

    private void CheckHeader()
    {
        for (var i = 0; i < _header.Count; i++)
        {
            var column = _header[i];
            if (!_isKnown[i])
            {
                var nearest = NearestName.Find(column.Text, Known);
                _diagnostics.Add(DiagnosticDescriptors.UnknownColumn.At(
                    column.Span,
                    $"unknown column `{column.Short}`",
                    nearest is null ? $"known columns: {string.Join(", ", Known)}" : $"did you mean `{nearest}`?"));
            }
            else if (_isRepeated[i])
            {
                var first = _header.FindIndex(other => other.Text == column.Text);
                _diagnostics.Add(DiagnosticDescriptors.DuplicateKey.At(
                    column.Span,
                    $"column `{column.Text}` is given twice",
                    "remove one of the two",
                    new Related(_header[first].Span, "first written here")));
            }
        }
    }

    // A required column that is missing is reported once; the rows then carry it as refused, so that none tells it again.
    private ImmutableArray<MappingEntry> Missing()
    {
        var missing = ImmutableArray.CreateBuilder<MappingEntry>();
        foreach (var name in new[] { "id", "kind" })
        {
            if (_header.Exists(column => column.Text == name)) continue;
            var isMisspelt = _header.Exists(column => !Known.Contains(column.Text) && NearestName.Find(column.Text, Known) == name);
            if (!isMisspelt) _diagnostics.Add(
                DiagnosticDescriptors.MissingKey.At(_header[0].Span, $"this table has no column `{name}`", $"add a column `{name}`"));
            missing.Add(new MappingEntry(new ScalarNode(_header[0].Span, name, ScalarNotation.Cell), new RejectedNode(_header[0].Span)));
        }

        // A reason that stands in a misspelt column is there: that it is missing is not reported for every row.
        if (_header.Find(column => !Known.Contains(column.Text) && NearestName.Find(column.Text, Known) == "reason") is { } reason
            && !_header.Exists(column => column.Text == "reason"))
        {
            missing.Add(new MappingEntry(reason with { Text = "reason" }, new RejectedNode(reason.Span)));
        }

        return missing.DrainToImmutable();
    }

    private SyntaxNode Row(List<ScalarNode> cells)
    {
        var span = new SourceSpan(_source, cells[0].Span.Start, cells[^1].Span.End - cells[0].Span.Start);

        if (!IsOfReadableSize(cells)) return new RejectedNode(span);

        // Which cell belongs to which column is a guess then: a comma without quotes would be reported a second time for every cell behind
        // it.
        if (!IsOfItsLength(cells, span) || HasCommaInNumber(cells)) return new RejectedNode(span);
        var entries = ImmutableArray.CreateBuilder<MappingEntry>(_header.Count + 1);
        entries.AddRange(_missing);
        var ends = ImmutableArray.CreateBuilder<SyntaxNode>(2);
        MappingEntry? length = null, lengthFrom = null;
        for (var i = 0; i < _header.Count; i++)
        {
            var (column, cell) = (_header[i], cells[i]);
            if (cell.Text.Length == 0 || !_isKnown[i] || _isRepeated[i]) continue;
            switch (column.Text)
            {
                case "a" or "b":
                    ends.Add(new MappingNode(cell.Span, [new MappingEntry(column with { Text = "at" }, cell)]));
                    break;
                case "length":
                    length = new MappingEntry(column, cell);
                    break;
                case "length_from":
                    lengthFrom = new MappingEntry(column with { Text = "from" }, cell);
                    break;
                case "lies_in" or "lies_over":
                    entries.Add(new MappingEntry(column, Words(cell)));
                    break;
                default:
                    entries.Add(new MappingEntry(column, cell));
                    break;
            }
        }

        if (ends.Count > 0) entries.Add(new MappingEntry(
            new ScalarNode(ends[0].Span, "ends", ScalarNotation.Cell), new ListNode(ends[0].Span, ends.DrainToImmutable())));
        AddLength(entries, length, lengthFrom);
        return new MappingNode(span, entries.DrainToImmutable());
    }

    private void AddLength(ImmutableArray<MappingEntry>.Builder entries, MappingEntry? length, MappingEntry? from)
    {
        switch (length, from)
        {
            case ({ } said, null):
                entries.Add(said);
                break;
            case ({ } said, { } source):
                entries.Add(said with
                {
                    Value = new MappingNode(said.Value.Span, [new MappingEntry(said.Key with { Text = "is" }, said.Value), source])
                });
                break;
            case (null, { } source):
                _diagnostics.Add(DiagnosticDescriptors.MissingKey.At(
                    source.Value.Span, "this row has a `length_from` but no `length`", "add the length, or remove this"));
                break;
        }
    }

    private bool IsOfItsLength(List<ScalarNode> cells, SourceSpan span)
    {
        var surplus = cells.FindIndex(Math.Min(_header.Count, cells.Count), cell => cell.Text.Length > 0);
        if (cells.Count < _header.Count)
        {
            _diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
                span,
                $"this row has {cells.Count} cells, and the header {_header.Count}",
                "add the missing commas; an empty cell means no value"));
        }
        else if (surplus >= 0)
        {
            _diagnostics.Add(DiagnosticDescriptors.CsvSyntax.At(
                cells[surplus].Span,
                $"this row has {cells.Count} cells, and the header {_header.Count}",
                "put a cell that contains a comma in quotes, or remove the cell"));
        }

        return cells.Count >= _header.Count && surplus < 0;
    }

    // The limits of a record are the same as in YAML.
    private bool IsOfReadableSize(List<ScalarNode> cells)
    {
        foreach (var cell in cells)
        {
            if (cell.Text.Length > YamlSyntax.LongestScalar)
            {
                _diagnostics.Add(DiagnosticDescriptors.ScalarTooLong.At(
                    cell.Span.Slice(0, 1),
                    $"this cell has {cell.Text.Length} characters, more than {YamlSyntax.LongestScalar}",
                    "split it, or move it to a story"));
                return false;
            }

            if (cell.Text.Length > YamlSyntax.LargestRecord
                && cell.Text.AsSpan().Count(' ') >= YamlSyntax.LargestRecord
                && IsList(cells.IndexOf(cell)))
            {
                _diagnostics.Add(DiagnosticDescriptors.ScalarTooLong.At(
                    cell.Span.Slice(0, 1), $"this cell names more than {YamlSyntax.LargestRecord} records", "write each once"));
                return false;
            }
        }

        return true;
    }

    private bool IsList(int column) => column < _header.Count && _header[column].Text is "lies_in" or "lies_over";

    // All cells behind it stand one column too far.
    private bool HasCommaInNumber(List<ScalarNode> cells)
    {
        var at = _header.FindIndex(column => column.Text == "length");
        if (at < 0
            || at + 1 >= cells.Count
            || DecimalComma.Joined(cells[at], cells[at + 1]) is not { } whole
            || !whole.Text.Any(char.IsLetter)) return false;
        _diagnostics.Add(DecimalComma.Report(whole));
        return true;
    }

    private static ListNode Words(ScalarNode cell)
    {
        var words = ImmutableArray.CreateBuilder<SyntaxNode>();
        foreach (var range in cell.Text.AsSpan().Split(' '))
        {
            var (start, length) = range.GetOffsetAndLength(cell.Text.Length);
            if (length == 0) continue;
            var span = cell.Span.Length == cell.Text.Length ? cell.Span.Slice(start, length) : cell.Span;
            words.Add(new ScalarNode(span, cell.Text.Substring(start, length), ScalarNotation.Cell));
        }

        return new ListNode(cell.Span, words.DrainToImmutable());
    }
}
