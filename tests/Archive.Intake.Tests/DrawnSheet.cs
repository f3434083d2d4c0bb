using System.Collections.Immutable;
using Archive.Spreadsheets.Model;

namespace Archive.Intake.Tests;

/// <summary>A sheet that a test draws.</summary>
internal sealed class DrawnSheet() : Sheet("Floor")
{
    private readonly SortedDictionary<(int Row, int Column), SheetCell> _cells = [];
    private readonly List<CellRange> _merged = [];

    internal void Write(int row, int column, string text)
    {
        var cell = At(row, column);
        _cells[(row, column)] = cell with { Type = CellType.Text, Text = text };
    }

    internal void Fill(CellRange range, string colour)
    {
        foreach (var (row, column) in Squares(range))
        {
            var cell = At(row, column);
            _cells[(row, column)] = cell with { Style = cell.Style with { Fill = colour } };
        }
    }

    internal void Merge(CellRange range) => _merged.Add(range);

    /// <summary>Draws a line around squares.</summary>
    internal void Box(CellRange range)
    {
        foreach (var (row, column) in Squares(range))
        {
            var cell = At(row, column);
            var borders = cell.Style.Borders
                | (row == range.FirstRow ? CellBorders.Top : 0) | (row == range.LastRow ? CellBorders.Bottom : 0)
                | (column == range.FirstColumn ? CellBorders.Left : 0) | (column == range.LastColumn ? CellBorders.Right : 0);
            _cells[(row, column)] = cell with { Style = cell.Style with { Borders = borders } };
        }
    }

    public override IEnumerable<SheetRow> Rows() =>
        _cells.Values.GroupBy(cell => cell.Row).Select(row => new SheetRow(row.Key, [.. row]));

    public override ImmutableArray<CellRange> Merged() => [.. _merged];

    private SheetCell At(int row, int column) =>
        _cells.GetValueOrDefault((row, column)) ?? new SheetCell(row, column, CellType.Empty, "", 0, CellStyle.Plain);

    private static IEnumerable<(int Row, int Column)> Squares(CellRange range)
    {
        for (var row = range.FirstRow; row <= range.LastRow; row++)
        {
            for (var column = range.FirstColumn; column <= range.LastColumn; column++) yield return (row, column);
        }
    }
}
