using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Editing;

/// <summary>Writes facts into a CSV table of cables or units: cells, columns that the table does not have yet, rows.</summary>
internal sealed class CsvEditor
{
    private readonly SourceText _source;
    private readonly RecordKind _kind;
    private readonly TableLayout _layout;
    private readonly TextEdits _edits;
    private readonly char _separator;
    private readonly string _newLine;
    private readonly List<List<ScalarNode>> _rows = [];
    private readonly List<string> _columns;
    private readonly int _columnsBefore;

    // What each cell must say after the edits; by row and column.
    private readonly List<List<string>> _expected;

    private CsvEditor(SourceText source, DiagnosticBag diagnostics)
    {
        _source = source;
        _kind = KindOf(source);
        _layout = _kind == RecordKind.Unit ? UnitTableFormat.Layout : CableTableFormat.Layout;
        _edits = new TextEdits(source.Text);
        _newLine = new YamlPlaces(source.Text).NewLine;
        using var table = new CsvTableReader(source, diagnostics);
        _separator = table.Dialect.Separator;
        while (table.Next() is { } row) _rows.Add(row);
        _columns = _rows is [var header, ..] ? [.. header.Select(cell => cell.Text)] : [];
        while (_columns.Count > 1 && _columns[^1].Length == 0) _columns.RemoveAt(_columns.Count - 1);
        _columnsBefore = _columns.Count;
        _expected = [.. _rows.Select(row => row.Take(_columns.Count).Select(cell => cell.Text).ToList())];
    }

    /// <summary>Edits a table.</summary>
    /// <param name="diagnostics">Collects errors of the table; with one the result is not to be used.</param>
    /// <param name="refusals">Collects what cannot be written.</param>
    /// <returns>Its text; null if it would say something else than is meant.</returns>
    public static string? Edit(
        SourceText source, IReadOnlyList<RecordEdit> edits, DiagnosticBag diagnostics, List<EditRefusal> refusals)
    {
        _ = RecordTableReader.Rows(KindOf(source), source, diagnostics).Count();
        if (diagnostics.All.Any(diagnostic => diagnostic.Severity == Severity.Error)) return null;
        var editor = new CsvEditor(source, diagnostics);
        if (editor._rows.Count == 0) editor.Begin();
        editor.Change(edits, refusals);
        if (editor._edits.Count == 0) return source.Text;
        var made = editor._edits.Apply();
        return made is not null && editor.IsExpected(new SourceText(source.Path, made)) ? made : null;
    }

    private void Begin()
    {
        _columns.AddRange(_kind == RecordKind.Unit ? ["id", "name", "at", "marking"] : ["id", "kind", "a", "b"]);
        _expected.Add([.. _columns]);
        _edits.Insert(_source.Text.Length, string.Join(_separator, _columns) + _newLine);
    }

    private void Change(IReadOnlyList<RecordEdit> edits, List<EditRefusal> refusals)
    {
        var id = _columns.IndexOf("id");
        var rows = Enumerable.Range(1, Math.Max(0, _expected.Count - 1)).ToLookup(row => _expected[row][id], StringComparer.Ordinal);
        var cells = new Dictionary<(int Row, string Column), string>();
        var added = new List<(RecordEdit Edit, Dictionary<string, string> Cells)>();
        foreach (var edit in edits)
        {
            var found = rows[edit.Id].ToList();
            if (found.Count != (edit.IsNew ? 0 : 1))
            {
                refusals.Add(new EditRefusal(edit.Id, null, edit.IsNew ? "the record is already there"
                    : found.Count == 0 ? "the record is no longer in this file" : "the file has this id twice"));
                continue;
            }

            var wanted = new Dictionary<string, string>(StringComparer.Ordinal);
            foreach (var fact in edit.Facts)
            {
                if (ColumnsOf(fact, edit.IsNew ? null : found[0], wanted) is { } why) refusals.Add(new EditRefusal(edit.Id, fact.Key, why));
            }

            if (edit.IsNew) added.Add((edit, wanted));
            else foreach (var (column, text) in wanted) cells[(found[0], column)] = text;
        }

        // A table has all its columns before a cell of a new one is written.
        var columns = cells.Keys.Select(cell => cell.Column).Concat(added.SelectMany(row => row.Cells.Keys)).Except(_columns).Distinct()
            .OrderBy(column => _layout.All.Keys.Select(key => key.Name).ToList().IndexOf(column)).ToList();
        if (_rows.Count == 0)
        {
            foreach (var column in columns) AddToNewHeader(column);
        }
        else
        {
            foreach (var ((row, column), text) in cells)
            {
                if (_columns.IndexOf(column) is not (>= 0 and var at)) continue;
                _expected[row][at] = text;
                Put(_rows[row][at], text);
            }

            AddColumns(columns, cells);
        }

        AddRows(added);
    }

    private void AddToNewHeader(string column)
    {
        _columns.Add(column);
        _expected[0].Add(column);
        _edits.BackTo(0);
        _edits.Insert(_source.Text.Length, string.Join(_separator, _columns) + _newLine);
    }

    private static RecordKind KindOf(SourceText table) =>
        table.Path.StartsWith("units/", StringComparison.Ordinal) ? RecordKind.Unit : RecordKind.Cable;

    // Which cells a fact is in.
    private string? ColumnsOf(FactToWrite fact, int? row, Dictionary<string, string> cells)
    {
        var column = ColumnOf(fact.Key, row, cells);
        if (column is null || _layout.All.Find(column) is null || column is "accept" || TextOf(column, fact.Value) is not { } text)
            return $"a CSV table has no column for `{fact.Key}`; move the {_kind.Noun()} to a YAML file";
        var evidence = (fact.Evidence ?? new FactEvidence()).Entries.ToDictionary(entry => $"{column}_{entry.Key}", entry => entry.Value);
        if (evidence.Keys.Any(name => !_layout.Evidence.ContainsKey(name)))
            return $"a CSV table has no column for how `{fact.Key}` is known; move the {_kind.Noun()} to a YAML file";
        var isSame = row is { } at && _columns.IndexOf(column) is >= 0 and var there && IsSame(column, _expected[at][there], text);
        if (!isSame)
        {
            cells[column] = text;

            // What was known of the old value is not known of the new one.
            foreach (var (name, of) in _layout.Evidence)
            {
                if (of.Fact == column && _columns.Contains(name)) cells[name] = string.Empty;
            }
        }

        foreach (var (name, said) in evidence) cells[name] = said;
        return null;
    }

    // What a cell says for a value; null where no cell can say it.
    private string? TextOf(string column, FactValue value) => value switch
    {
        FactMapping pairs => column == _layout.Pairs && pairs.Entries.All(IsPair)
            ? string.Join(' ', pairs.Entries.Select(pair => $"{pair.Key}={pair.Value.Text}"))
            : null,
        FactList list => _layout.Lists.Contains(column) && list.Items.All(item => item is SingleFact)
            ? string.Join(' ', list.Items.Select(item => item.Text))
            : null,
        _ => column == _layout.Pairs ? null : value.Text,
    };

    private static bool IsPair(FactEntry entry) => entry is { Key.Length: > 0, Value: SingleFact { Text.Length: > 0 } }
        && !entry.Key.Contains('=', StringComparison.Ordinal)
        && !(entry.Key + entry.Value.Text).Any(char.IsWhiteSpace);

    // Where commas do not separate cells, one in a length is its decimal point.
    private bool IsSame(string column, string cell, string text) =>
        cell == text || (column == _layout.Quantity && _separator != ',' && cell.Replace(',', '.') == text);

    // The ends of a row are its cells a and b that are not empty, in this order.
    private string? ColumnOf(string key, int? row, Dictionary<string, string> cells)
    {
        if (!key.StartsWith("ends.", StringComparison.Ordinal)) return key;
        var a = row is { } there && _columns.IndexOf("a") is >= 0 and var left && _expected[there][left].Length > 0;
        var b = row is { } here && _columns.IndexOf("b") is >= 0 and var right && _expected[here][right].Length > 0;
        return key switch
        {
            "ends.1.at" => a || !b ? "a" : "b",
            "ends.2.at" => a || !b ? "b" : "a",
            _ => null,
        };
    }

    // Columns without a name at the right of a sheet are taken first.
    private void AddColumns(List<string> columns, Dictionary<(int Row, string Column), string> cells)
    {
        if (columns.Count == 0) return;
        for (var row = 0; row < _rows.Count; row++)
        {
            var line = _rows[row];
            for (var i = 0; i < columns.Count; i++)
            {
                var text = row == 0 ? columns[i] : cells.GetValueOrDefault((row, columns[i]), string.Empty);
                _expected[row].Add(text);
                var at = _columnsBefore + i;
                if (at < line.Count) Put(line[at], text);
                else _edits.Insert(EndOf(line[^1]), _separator + Cell(text));
            }
        }

        _columns.AddRange(columns);
    }

    private void AddRows(List<(RecordEdit Edit, Dictionary<string, string> Cells)> added)
    {
        var hasBreak = _source.Text.Length == 0 || _source.Text[^1] is '\n' or '\r';
        foreach (var (edit, cells) in added)
        {
            cells["id"] = edit.Id;
            List<string> row = [.. _columns.Select(column => cells.GetValueOrDefault(column, string.Empty))];
            _expected.Add([.. row]);

            // Where the header has more columns, without names, the rows have them too.
            var width = Math.Max(_columns.Count, _rows is [var header, ..] ? header.Count : 0);
            var line = string.Join(_separator, row.Select(Cell)) + new string(_separator, width - _columns.Count);
            _edits.Insert(_source.Text.Length, hasBreak ? line + _newLine : _newLine + line);
        }
    }

    private void Put(ScalarNode cell, string text)
    {
        if (cell.Text == text) return;
        var isQuoted = cell.Span.Start > 0 && _source.Text[cell.Span.Start - 1] == '"';
        _edits.Replace(
            cell.Span.Start, cell.Span.Length, isQuoted ? text.Replace("\"", "\"\"", StringComparison.Ordinal) : Cell(text));
    }

    private string Cell(string text) =>
        text.AsSpan().IndexOfAny([_separator, '"', '\r', '\n']) >= 0 || text.Trim().Length != text.Length
            ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\""
            : text;

    private int EndOf(ScalarNode cell)
    {
        var end = cell.Span.End;
        return cell.Span.Start > 0 && _source.Text[cell.Span.Start - 1] == '"' && end < _source.Text.Length && _source.Text[end] == '"'
            ? end + 1
            : end;
    }

    private bool IsExpected(SourceText made)
    {
        var diagnostics = new DiagnosticBag();
        _ = RecordTableReader.Rows(KindOf(made), made, diagnostics).Count();
        using var table = new CsvTableReader(made, diagnostics);
        foreach (var row in _expected)
        {
            if (table.Next() is not { } cells || cells.Count < row.Count) return false;
            if (!row.SequenceEqual(cells.Take(row.Count).Select(cell => cell.Text))) return false;
            if (cells.Skip(row.Count).Any(cell => cell.Text.Length > 0)) return false;
        }

        return table.Next() is null && diagnostics.All.All(diagnostic => diagnostic.Severity != Severity.Error);
    }
}
