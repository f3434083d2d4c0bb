using System.Collections.Immutable;

namespace Archive.Spreadsheets.Model;

/// <summary>A sheet of a workbook.</summary>
public abstract class Sheet(string name)
{
    public string Name { get; } = name;

    /// <summary>Rows that have cells, from the top; read from the file each time, and only one is in memory.</summary>
    /// <exception cref="SpreadsheetException">The rest cannot be read.</exception>
    public abstract IEnumerable<SheetRow> Rows();

    /// <summary>Cells that are merged into one.</summary>
    /// <exception cref="SpreadsheetException">They cannot be read.</exception>
    public abstract ImmutableArray<CellRange> Merged();
}
