using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;
using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;
using Archive.Wiring.Labels;

namespace Archive.Intake.Spreadsheets;

/// <summary>Turns the rows of mapped sheets into facts. An empty cell says nothing.</summary>
internal sealed class SheetReader(string file, string sum, KnownPlaces known, CurrentRecords current, int mostFacts)
{
    private const int MostDiagnostics = 200;
    private static readonly string[] Sides = ["size.width", "size.depth", "size.height"];

    internal List<ProposedFact> Facts { get; } = [];

    internal List<Diagnostic> Diagnostics { get; } = [];

    internal void Read(Workbook workbook, SheetMapping mapping, CancellationToken cancellation)
    {
        var sheet = mapping.Sheet is { } name ? workbook.Find(name) : workbook.Sheets.Length == 1 ? workbook.Sheets[0] : null;
        if (sheet is null)
        {
            Diagnostics.Add(DiagnosticDescriptors.WrongSheet.At(
                mapping.Span,
                mapping.Sheet is { } missing ? $"{file} has no sheet `{missing}`" : $"{file} has {workbook.Sheets.Length} sheets",
                $"use `sheet` with one of {string.Join(", ", workbook.Sheets.Take(20).Select(each => each.Name))}"));
            return;
        }

        var columns = Columns(mapping);
        var rows = new Rows(this, sheet.Name, mapping, columns);
        if (Diagnostics.Any(each => each.Severity == Severity.Error)) return;
        foreach (var row in sheet.Rows())
        {
            cancellation.ThrowIfCancellationRequested();
            if (row.Number == mapping.Head && !CheckHeads(row, columns)) return;
            if (row.Number > mapping.Head) rows.Read(row);
            if (Facts.Count <= mostFacts) continue;
            Diagnostics.Add(DiagnosticDescriptors.TooManyFacts.At(
                new SourceText($"{file}, {sheet.Name}", "").Whole,
                $"this spreadsheet says more than {mostFacts:N0} facts, too many to decide about at once",
                $"split it; row {row.Number} was the last that was read"));
            return;
        }
    }

    private List<(ColumnMapping Mapping, int Number)> Columns(SheetMapping mapping)
    {
        var columns = new List<(ColumnMapping, int)>();
        foreach (var column in mapping.Columns)
        {
            var number = column.Column is { } letters ? CellAddress.ColumnNumber(letters) : 0;
            if (column.Column is null == column.Value is null || (column.Column is not null && number == 0))
            {
                Diagnostics.Add(DiagnosticDescriptors.WrongColumn.At(
                    column.Span, $"`{column.Key}` names no column", "write `column: C`, or `value: …` for what all new records have"));
            }
            else if (!IsKey(mapping.Kind, column.Key))
            {
                var near = NearestName.Find(column.Key, FactFormats.Of(mapping.Kind).Keys.Select(key => key.Name));
                Diagnostics.Add(DiagnosticDescriptors.WrongMappedKey.At(
                    column.Span,
                    $"a {mapping.Kind.Noun()} has no key `{column.Key}`",
                    near is null ? $"see asfound format {mapping.Kind.Folder()}" : $"did you mean `{near}`?"));
            }
            else
            {
                columns.Add((column, number));
            }
        }

        if (!mapping.Columns.Any(column => column is { Key: "id", Column: not null }))
            Diagnostics.Add(DiagnosticDescriptors.WrongMappedKey.At(
                mapping.Span, "no column has the key `id`", "add `id: {column: A}`, with the letters of the column of ids"));
        foreach (var rule in mapping.Ids.Concat(mapping.Addresses).Select(CompiledScheme.Compile)) Diagnostics.AddRange(rule.Errors);
        return columns;
    }

    private static bool IsKey(RecordKind kind, string key) =>
        key == "id"
        || (key == "ends" && kind == RecordKind.Cable)
        || (Sides.Contains(key) && kind is RecordKind.Frame or RecordKind.Tray)
        || FactFormats.Find(kind, key)?.Node is FactFormat or SingleFormat or ListFormat { Item: SingleFormat };

    private bool CheckHeads(SheetRow row, List<(ColumnMapping Mapping, int Number)> columns)
    {
        var isRight = true;
        foreach (var (column, number) in columns)
        {
            if (column.Head is not { } head || number == 0) continue;
            var found = row[number]?.Text.Trim() ?? "";
            if (found == head.Trim()) continue;
            isRight = false;
            Diagnostics.Add(DiagnosticDescriptors.WrongColumn.At(
                column.Span,
                $"column {column.Column} is headed `{found}`, not `{head}`",
                row.Cells.FirstOrDefault(cell => cell.Text.Trim() == head.Trim()) is { } moved
                    ? $"`{head}` is now column {CellAddress.ColumnName(moved.Column)}"
                    : "correct the column or the head in the mapping"));
        }

        return isRight;
    }

    private void Report(DiagnosticDescriptor descriptor, string sheet, SheetCell cell, string message, string help)
    {
        if (Diagnostics.Count > MostDiagnostics) return;
        var source = new SourceText($"{file}, {sheet}!{cell.Address}", cell.Text);
        Diagnostics.Add(Diagnostics.Count < MostDiagnostics
            ? descriptor.At(source.Whole, message, help)
            : descriptor.At(source.Whole, "this cell and perhaps others cannot be read", "correct those above first, then import again"));
    }

    private sealed class Rows(SheetReader reader, string sheet, SheetMapping mapping, List<(ColumnMapping Mapping, int Number)> columns)
    {
        private readonly ImmutableArray<CompiledScheme> _ids = [.. mapping.Ids.Select(CompiledScheme.Compile)];
        private readonly ImmutableArray<CompiledScheme> _places = [.. mapping.Addresses.Select(CompiledScheme.Compile)];

        internal void Read(SheetRow row)
        {
            var cells = columns.Where(column => column.Number > 0)
                .Select(column => (column.Mapping, Cell: row[column.Number]))
                .Where(pair => pair.Cell is { Type: not CellType.Empty } cell && !string.IsNullOrWhiteSpace(cell.Text))
                .Select(pair => (pair.Mapping, Cell: pair.Cell!))
                .ToList();
            if (cells.Count == 0 || IdOf(cells) is not { } id) return;
            if (mapping.Kind == RecordKind.Frame) reader.Known.AddFrame(id);
            var facts = new List<(ProposedFact Fact, SheetCell Cell, ColumnMapping Column)>();
            foreach (var (column, cell) in cells.Where(pair => pair.Mapping.Key != "id" && !Sides.Contains(pair.Mapping.Key)))
            {
                if (cell.Type == CellType.Error) Unreadable(cell, "a program could not compute this cell", "correct its formula");
                else if (column.Key == "ends") facts.AddRange(Ends(id, column, cell));
                else if (ValueOf(column, cell) is { } value) facts.Add((Fact(id, column.Key, value, cell), cell, column));
            }

            if (Size(cells) is { } size) facts.Add((Fact(id, "size", FactValue.Of(size.Text), size.Cell), size.Cell, size.Column));
            var record = reader.Current.Find(id);
            foreach (var key in facts.GroupBy(fact => fact.Fact.Key, StringComparer.Ordinal))
            {
                // Of two columns that say the same thing, one was edited: the other still says what the record says.
                var news = key.Where(fact => !IsRecorded(record, fact.Fact)).ToList();
                if (news.Count == 0 && record?.Fact("withdrawn") is null) reader.Facts.Add(key.First().Fact);
                foreach (var (fact, cell, column) in news)
                {
                    if (IsReadable(fact, cell, column)) reader.Facts.Add(fact);
                }
            }

            if (record is not null) return;
            var idCell = cells.First(pair => pair.Mapping.Key == "id").Cell;
            foreach (var usual in columns.Where(column => column.Number == 0).Select(column => column.Mapping)
                .Where(usual => facts.All(fact => fact.Fact.Key != usual.Key)))
                reader.Facts.Add(Fact(id, usual.Key, ListOrSingle(usual.Key, usual.Value!), idCell));
        }

        private string? IdOf(List<(ColumnMapping Mapping, SheetCell Cell)> cells)
        {
            var (_, cell) = cells.FirstOrDefault(pair => pair.Mapping.Key == "id");
            var text = cell?.Text.Trim() ?? "";
            var id = KnownPlaces.Meaning(text, _ids)?.ToString() ?? text;
            if (cell is not null && cell.Type != CellType.Error && RecordId.IsValid(id)) return id;
            reader.Report(
                DiagnosticDescriptors.RowWithoutId,
                sheet,
                cell ?? cells[0].Cell,
                cell is null ? $"row {cells[0].Cell.Row} has no id" : "this is not an id, so its row is left out",
                "give the row an id, or add a rule `ids` to the mapping");
            return null;
        }

        private FactValue? ValueOf(ColumnMapping column, SheetCell cell)
        {
            var text = cell.Text.Trim();
            if (IsAddress(column.Key))
            {
                if (reader.Known.Place(text, _places) is { } place) return FactValue.Of(place);
                reader.Report(
                    DiagnosticDescriptors.UnreadablePlace,
                    sheet,
                    cell,
                    "this is no place on a frame of the record",
                    "record the frame first, or add a rule `addresses` to the mapping");
                return null;
            }

            return column.Unit is { } unit ? FactValue.Of(WithUnit(text, unit)) : ListOrSingle(column.Key, text);
        }

        private FactValue ListOrSingle(string key, string text) => FactFormats.Find(mapping.Kind, key)?.Node is ListFormat
            ? FactValue.ListOf(text.Split([' ', ',', ';', '\n'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            : FactValue.Of(text);

        // As asfound export joins them; what follows from a label was not seen there.
        private IEnumerable<(ProposedFact, SheetCell, ColumnMapping)> Ends(string id, ColumnMapping column, SheetCell cell)
        {
            var number = 0;
            foreach (var text in cell.Text.Split(';', StringSplitOptions.TrimEntries))
            {
                number++;
                if (text is "" or "not seen" || text.EndsWith("(from label)", StringComparison.Ordinal)) continue;
                var end = column with { Key = string.Create(CultureInfo.InvariantCulture, $"ends.{number}.at") };
                var one = cell with { Text = text };
                if (ValueOf(end, one) is { } value) yield return (Fact(id, end.Key, value, cell), one, end);
            }
        }

        private (string Text, SheetCell Cell, ColumnMapping Column)? Size(List<(ColumnMapping Mapping, SheetCell Cell)> cells)
        {
            var sides = Sides.Take(mapping.Kind == RecordKind.Tray ? 2 : 3)
                .Select(side => cells.FirstOrDefault(pair => pair.Mapping.Key == side)).ToList();
            if (sides.All(side => side.Cell is null)) return null;
            if (sides.FirstOrDefault(side => side.Cell is null || side.Cell.Type == CellType.Error) is var lacking
                && sides.Any(side => side.Cell is null || side.Cell.Type == CellType.Error))
            {
                Unreadable(
                    lacking.Cell ?? sides.First(side => side.Cell is not null).Cell,
                    "a size needs all its sides",
                    "fill in width, depth and height; of a tray, width and depth");
                return null;
            }

            var text = string.Join(" x ", sides.Select(side =>
                side.Mapping.Unit is { } unit ? WithUnit(side.Cell.Text.Trim(), unit) : side.Cell.Text.Trim()));
            return (text, sides[0].Cell, sides[0].Mapping);
        }

        private ProposedFact Fact(string id, string key, FactValue value, SheetCell cell) => new()
        {
            RecordKind = mapping.Kind,
            RecordId = id,
            Key = key,
            Value = value,
            Evidence = mapping.Evidence,
            File = mapping.File,
            Origin = new ProposalOrigin(reader.File) { Sha256 = reader.Sum, Cell = $"{sheet}!{cell.Address}", Text = cell.Text },
        };

        private static bool IsRecorded(RawRecord? record, ProposedFact fact)
        {
            if (record is null) return false;
            if (!IsAddress(fact.Key)) return record.Fact(fact.Key) is { } said
                && FactComparison.AreEqual(fact.RecordKind, fact.Key, fact.Value.Text, said.Text);
            return Address.TryParse(fact.Value.Text, out var place) && record.Facts.Any(end =>
                IsAddress(end.Name) && Address.TryParse(end.Text, out var recorded) && recorded == place);
        }

        private bool IsReadable(ProposedFact fact, SheetCell cell, ColumnMapping column)
        {
            var errors = FactTrial.Errors(fact.RecordKind, fact.RecordId, [new FactToWrite(fact.Key, fact.Value)], isWhole: false);
            if (errors.SelectMany(group => group).FirstOrDefault() is not { } why) return true;
            Unreadable(
                cell,
                $"`{fact.Key}` cannot be read: {why}",
                column.Unit is null && IsNumber(cell.Text)
                    ? $"give the unit of bare numbers in the mapping: `{column.Key}: {{column: {column.Column}, unit: …}}`"
                    : "correct the cell, or leave the column out of the mapping");
            return false;
        }

        private void Unreadable(SheetCell cell, string message, string help) =>
            reader.Report(DiagnosticDescriptors.UnreadableCell, sheet, cell, message, help);

        private static bool IsAddress(string key) =>
            key.StartsWith("ends.", StringComparison.Ordinal) && key.EndsWith(".at", StringComparison.Ordinal);
    }

    private KnownPlaces Known => known;

    private CurrentRecords Current => current;

    private string File => file;

    private string Sum => sum;

    /// <summary>A bare number with its unit. A decimal comma is one unless it could part thousands.</summary>
    internal static string WithUnit(string text, string unit)
    {
        var comma = text.IndexOf(',', StringComparison.Ordinal);
        var plain = comma > 0 && text.Length - comma is 2 or 3 ? text.Replace(',', '.') : text;
        return IsNumber(plain) ? $"{plain} {unit}" : text;
    }

    private static bool IsNumber(string text) =>
        double.TryParse(text.Trim(), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out _);
}
