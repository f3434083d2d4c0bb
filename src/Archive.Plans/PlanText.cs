using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Diagnostics.Rendering;
using Archive.Records.Terms;

namespace Archive.Plans;

/// <summary>Writes a plan for a terminal, a spreadsheet or a program.</summary>
public static class PlanText
{
    private const string Between = "  ";
    private const string Indent = "      ";

    /// <summary>
    /// For people: the result of it in sentences, what can hurt, then its table with aligned columns, the warnings of a row under it;
    /// columns without any value are left out.
    /// </summary>
    /// <param name="writer">Where.</param>
    /// <param name="units">Writes quantities in the archive's units.</param>
    public static void WriteText(TextWriter writer, Plan plan, UnitFormatter units)
    {
        writer.Write($"{plan.Kind.Title}\n");
        foreach (var sentence in plan.Summary) writer.Write($"{VisibleText.From(sentence)}\n");
        foreach (var caution in plan.Cautions) writer.Write($"{caution.Title}. {caution.Text}\n");
        var shown = Columns(plan.Tables[0], plan.Shown);
        var rows = Rows(plan.Tables[0], shown, units);
        if (rows.Count == 0) return;
        int[] columns = [.. Enumerable.Range(0, shown.Length).Where(column => rows.Any(row => row[column].Length > 0))];
        string[] heads = [.. shown.Select(column => PlanCell.Head(column.Column))];
        int[] widths = [.. columns.Select(column => Math.Max(heads[column].Length, rows.Max(row => row[column].Length)))];
        writer.Write('\n');
        WriteRow(heads);
        for (var row = 0; row < rows.Count; row++)
        {
            WriteRow(rows[row]);
            foreach (var line in plan.LinesBeneath(row)) writer.Write($"{Indent}{VisibleText.From(line)}\n");
        }

        void WriteRow(string[] cells)
        {
            for (var at = 0; at < columns.Length; at++)
            {
                var isLast = at == columns.Length - 1;
                writer.Write(isLast ? cells[columns[at]] : cells[columns[at]].PadRight(widths[at]) + Between);
            }

            writer.Write('\n');
        }
    }

    /// <summary>For programs: the same bytes as <c>data/plans/NAME.json</c>.</summary>
    /// <param name="stream">Where.</param>
    public static void WriteJson(Stream stream, Plan plan) => plan.Tables[0].WriteJson(stream);

    /// <summary>For spreadsheets: the same bytes as <c>data/plans/NAME.csv</c>.</summary>
    /// <param name="stream">Where.</param>
    public static void WriteCsv(Stream stream, Plan plan) => plan.Tables[0].WriteCsv(stream);

    private static (int At, DataColumn Column)[] Columns(DataTable table, ImmutableArray<string> shown)
    {
        var all = table.Columns.ToList();
        return [.. shown.Select(name => all.FindIndex(column => column.Name == name) is var at and >= 0
            ? (at, all[at])
            : throw new InvalidOperationException($"{table.Path} has no column {name}"))];
    }

    private static List<string[]> Rows(DataTable table, (int At, DataColumn Column)[] shown, UnitFormatter units) =>
        [.. table.Rows().Select(row => shown.Select(each => PlanCell.Text(each.Column, row[each.At], units)).ToArray())];
}
