using System.Collections.Immutable;

namespace Archive.Spreadsheets.Model;

/// <summary>What kind of value a cell has.</summary>
public enum CellType
{
    /// <summary>Nothing, though it may have a fill or borders.</summary>
    Empty,

    Text,

    Number,

    /// <summary>A day, or a day and a time.</summary>
    Date,

    /// <summary>True or false.</summary>
    Flag,

    /// <summary>What a program shows instead of a value that it could not compute, such as <c>#N/A</c>.</summary>
    Error,
}

/// <summary>Edges of a cell that are drawn.</summary>
[Flags]
public enum CellBorders
{
    None = 0,
    Left = 1,
    Top = 2,
    Right = 4,
    Bottom = 8,
}

/// <summary>How a cell looks.</summary>
/// <param name="Fill">
/// Its colour: <c>#ffcc00</c>, or as the file names it (<c>theme 4 tint 0.4</c>, <c>indexed 13</c>); null for none.
/// </param>
public sealed record CellStyle(string? Fill, CellBorders Borders)
{
    public static CellStyle Plain { get; } = new(null, CellBorders.None);
}

/// <summary>A cell that has a value, a fill or borders.</summary>
/// <param name="Row">From 1.</param>
/// <param name="Column">From 1.</param>
/// <param name="Text">
/// The value as text: numbers in the shortest form that gives them back, with a point; dates as <c>2026-05-14</c> or
/// <c>2026-05-14T10:30:00</c>; flags as <c>true</c> and <c>false</c>.
/// </param>
/// <param name="Number">The number; 0 where it is none.</param>
public sealed record SheetCell(int Row, int Column, CellType Type, string Text, double Number, CellStyle Style)
{
    /// <summary>Such as <c>C14</c>.</summary>
    public string Address => CellAddress.Write(Row, Column);
}

/// <summary>A row with its cells, from left to right.</summary>
/// <param name="Number">From 1. In CSV, the line that it begins on.</param>
public sealed record SheetRow(int Number, ImmutableArray<SheetCell> Cells)
{
    /// <summary>The cell of a column; null where there is none.</summary>
    public SheetCell? this[int column] => Cells.FirstOrDefault(cell => cell.Column == column);
}
