using System.Globalization;
using Archive.Data.Tables;
using Archive.Plans;
using Archive.Plans.Catalog;
using Archive.Spreadsheets.Writing;

namespace Archive.Site.Data;

/// <summary>The data files as one workbook, a sheet for each: cables and frames first, then the other records, then the plans.</summary>
public static class WorkbookFile
{
    private static readonly string[] First = ["cables", "frames"];

    /// <summary>Writes the workbook as xlsx.</summary>
    /// <returns>How many sheets it has.</returns>
    public static int Write(Stream stream, PlanContext context)
    {
        var tables = DataFiles.Tables(context, new PlanSet(context).All)
            .Select(table => table.WithEvidence())
            .OrderBy(table => Array.IndexOf(First, table.Path) is >= 0 and var at ? at : First.Length)
            .ToList();
        XlsxWriter.Write(stream, [.. tables.Select(Sheet)]);
        return tables.Count;
    }

    private static TableSheet Sheet(DataTable table)
    {
        DataColumn[] columns = [.. table.Columns];
        return new TableSheet(
            table.Path[(table.Path.LastIndexOf('/') + 1)..],
            [.. columns.Select(column => new TableColumn(Head(column)))],
            () => table.Values().Select(row => (IReadOnlyList<TableValue>)[.. row.Select((value, at) => Value(value, columns[at]))]));
    }

    /// <summary>The name of a column, with the unit behind it and not in it: <c>length [m]</c>.</summary>
    internal static string Head(DataColumn column)
    {
        if (column.Unit is not { } unit) return column.Name;
        var ending = "_" + unit.Replace("/", "_per_", StringComparison.Ordinal);
        var name = column.Name.EndsWith(ending, StringComparison.Ordinal) ? column.Name[..^ending.Length] : column.Name;
        return $"{name} [{unit}]";
    }

    // A date of another precision, such as 2026-05, stays as it is written.
    private static TableValue Value(DataValue value, DataColumn column) =>
        value.Number is { } number ? TableValue.Of(number)
        : value.Flag is { } flag ? TableValue.Of(flag)
        : column.Type == "date" && DateOnly.TryParseExact(
            value.ToString(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? TableValue.Of(day)
        : TableValue.Of(value.ToString());
}
