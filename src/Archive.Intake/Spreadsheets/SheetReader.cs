using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;
using Archive.Wiring.Labels;

namespace Archive.Intake.Spreadsheets;

/// <summary>Turns the rows of mapped sheets into facts. An empty cell says nothing.</summary>
internal sealed class SheetReader(string file, string sum, KnownRecords known, int mostFacts)
{
    internal static readonly string[] Sides = ["size.width", "size.depth", "size.height"];

    internal List<ProposedFact> Facts { get; } = [];

    internal List<Diagnostic> Diagnostics { get; } = [];

    internal string File => file;

    internal string Sum => sum;

    internal KnownRecords Known => known;

    internal required CurrentRecords Current { get; init; }

    internal required KnownPhotos Photos { get; init; }

    internal required EventRows Events { get; init; }

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
        var rows = new SheetRows(this, sheet.Name, mapping, columns, new CellReports(file, sheet.Name, Diagnostics));
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

        rows.End();
    }

    private ImmutableArray<(ColumnMapping Mapping, int Number)> Columns(SheetMapping mapping)
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

        if (WhatIsMissing(mapping) is { } missing)
            Diagnostics.Add(DiagnosticDescriptors.WrongMappedKey.At(
                mapping.Span, $"no column has the key {missing}", "add `id: {column: A}`, with the letters of the column of ids"));
        foreach (var rule in mapping.Ids.Concat(mapping.Addresses).Concat(mapping.Subjects).Select(CompiledScheme.Compile))
            Diagnostics.AddRange(rule.Errors);
        return [.. columns];
    }

    private static string? WhatIsMissing(SheetMapping mapping)
    {
        var keys = mapping.Columns.Where(column => column.Column is not null || mapping.Kind == RecordKind.Event)
            .Select(column => column.Key).ToHashSet(StringComparer.Ordinal);
        if (keys.Contains("id")) return null;
        return mapping.Kind switch
        {
            RecordKind.Photo => keys.Contains("file") ? null : "`id` or `file`",
            RecordKind.Event => EventRows.Keys.All(keys.Contains) ? null : "`id`, or not all of `on`, `what` and `of`",
            _ => "`id`",
        };
    }

    private static bool IsKey(RecordKind kind, string key) =>
        key == "id"
        || (key == "ends" && kind == RecordKind.Cable)
        || (Sides.Contains(key) && kind is RecordKind.Frame or RecordKind.Tray)
        || FactFormats.EvidenceOf(kind, key) is not null
        || FactFormats.Find(kind, key)?.Node is FactFormat or SingleFormat or ListFormat { Item: SingleFormat };

    private bool CheckHeads(SheetRow row, ImmutableArray<(ColumnMapping Mapping, int Number)> columns)
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
}
