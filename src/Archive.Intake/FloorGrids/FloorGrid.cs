using Archive.Spreadsheets.Model;

namespace Archive.Intake.FloorGrids;

/// <summary>A rectangle of floor squares. Rows grow to the south and columns to the east, both from 1; both ends are included.</summary>
public readonly record struct SquareBlock(int Top, int Left, int Bottom, int Right)
{
    public int Across => Right - Left + 1;

    public int Down => Bottom - Top + 1;

    /// <summary>Its cells as a spreadsheet names them: <c>C4</c>, or <c>C4:D5</c>.</summary>
    public override string ToString() => this is { Across: 1, Down: 1 }
        ? CellAddress.Write(Top, Left)
        : $"{CellAddress.Write(Top, Left)}:{CellAddress.Write(Bottom, Right)}";
}

/// <summary>A sheet in which each cell is a square of floor.</summary>
public sealed class FloorGrid
{
    /// <summary>Squares on a side, and in all: far above any hall; a file made to do harm reaches them.</summary>
    public const int MostAcross = 2000, MostSquares = 1_000_000;

    private readonly Dictionary<(int Row, int Column), SheetCell> _cells = [];
    private readonly Dictionary<(int Row, int Column), SquareBlock> _merged = [];

    /// <summary>Reads a sheet.</summary>
    /// <exception cref="SpreadsheetException">It cannot be read, or is too large for a floor.</exception>
    public FloorGrid(Sheet sheet, CancellationToken cancellation = default)
    {
        foreach (var row in sheet.Rows())
        {
            cancellation.ThrowIfCancellationRequested();
            foreach (var cell in row.Cells)
            {
                // Looks without values reach to the edge of the sheet in some files.
                if (cell.Row > MostAcross || cell.Column > MostAcross)
                {
                    if (cell.Type == CellType.Empty) continue;
                    throw SpreadsheetException.TooLarge($"a floor has more than {MostAcross} squares on a side");
                }

                _cells[(cell.Row, cell.Column)] = cell;
            }
        }

        long covered = 0;
        foreach (var range in sheet.Merged())
        {
            var block = new SquareBlock(
                range.FirstRow, range.FirstColumn, Math.Min(range.LastRow, MostAcross), Math.Min(range.LastColumn, MostAcross));
            covered += (long)block.Across * block.Down;
            if (covered > MostSquares) throw SpreadsheetException.TooLarge("it has too many merged cells");
            for (var row = block.Top; row <= block.Bottom; row++)
            {
                for (var column = block.Left; column <= block.Right; column++) _merged[(row, column)] = block;
            }
        }

        var used = _cells.Values.Where(cell => cell.Type != CellType.Empty || cell.Style.Fill is not null
            || cell.Style.Borders != CellBorders.None).Select(cell => (cell.Row, cell.Column)).Concat(_merged.Keys).ToList();
        if (used.Count == 0) return;
        Used = new SquareBlock(
            used.Min(each => each.Row), used.Min(each => each.Column), used.Max(each => each.Row), used.Max(each => each.Column));
        if ((long)Used.Across * Used.Down > MostSquares)
            throw SpreadsheetException.TooLarge($"a floor has more than {MostSquares:N0} squares");
    }

    /// <summary>What is used of the sheet; no rows and columns for an empty one.</summary>
    public SquareBlock Used { get; } = new(1, 1, 0, 0);

    /// <summary>Cells with text, from the top, each with the squares that it covers.</summary>
    public IEnumerable<(SheetCell Cell, SquareBlock Block)> Texts => _cells.Values
        .Where(cell => cell.Type != CellType.Empty && cell.Text.Trim().Length > 0)
        .OrderBy(cell => (cell.Row, cell.Column))
        .Select(cell => (cell, _merged.GetValueOrDefault((cell.Row, cell.Column), new(cell.Row, cell.Column, cell.Row, cell.Column))))
        .Where(pair => pair.Item2.Top == pair.cell.Row && pair.Item2.Left == pair.cell.Column);

    /// <summary>Whether the square is one of several that are merged.</summary>
    public bool IsMerged((int Row, int Column) square) => _merged.ContainsKey(square);

    public SheetCell? At((int Row, int Column) square) => _cells.GetValueOrDefault(square);

    /// <summary>The colour of a square; merged ones have that of their first.</summary>
    public string? Fill((int Row, int Column) square) => (_cells.GetValueOrDefault(square)?.Style.Fill
        ?? (_merged.TryGetValue(square, out var block) ? _cells.GetValueOrDefault((block.Top, block.Left))?.Style.Fill : null)) is { } fill
        && !IsWhite(fill) ? fill : null;

    /// <summary>Whether a line is drawn between two squares side by side.</summary>
    public bool HasLine((int Row, int Column) from, (int Row, int Column) to)
    {
        if (_merged.TryGetValue(from, out var one) && _merged.TryGetValue(to, out var other) && one == other) return false;
        var (side, opposite) = (to.Row - from.Row, to.Column - from.Column) switch
        {
            (1, 0) => (CellBorders.Bottom, CellBorders.Top),
            (-1, 0) => (CellBorders.Top, CellBorders.Bottom),
            (0, 1) => (CellBorders.Right, CellBorders.Left),
            _ => (CellBorders.Left, CellBorders.Right),
        };
        return Has(from, side) || Has(to, opposite);
    }

    // The lines around merged cells may be stored with the first of them alone.
    private bool Has((int Row, int Column) square, CellBorders side) =>
        _cells.GetValueOrDefault(square)?.Style.Borders.HasFlag(side) == true
        || (_merged.TryGetValue(square, out var block)
            && _cells.GetValueOrDefault((block.Top, block.Left))?.Style.Borders.HasFlag(side) == true
            && side switch
            {
                CellBorders.Top => square.Row == block.Top,
                CellBorders.Bottom => square.Row == block.Bottom,
                CellBorders.Left => square.Column == block.Left,
                _ => square.Column == block.Right,
            });

    private static bool IsWhite(string fill) => fill is "#ffffff" or "#fff" or "white";

    internal static readonly (int Row, int Column)[] Steps = [(-1, 0), (0, 1), (1, 0), (0, -1)];
}
