using System.Globalization;

namespace Archive.Spreadsheets.Model;

/// <summary>A block of cells, such as merged ones. Rows and columns from 1, both ends included.</summary>
public readonly record struct CellRange(int FirstRow, int FirstColumn, int LastRow, int LastColumn)
{
    public override string ToString() =>
        $"{CellAddress.Write(FirstRow, FirstColumn)}:{CellAddress.Write(LastRow, LastColumn)}";
}

/// <summary>Names of cells: <c>C14</c> is column 3, row 14.</summary>
public static class CellAddress
{
    public static string Write(int row, int column) => ColumnName(column) + row.ToString(CultureInfo.InvariantCulture);

    /// <summary>A, B, …, Z, AA, …</summary>
    public static string ColumnName(int column)
    {
        var name = "";
        for (var rest = column; rest > 0; rest = (rest - 1) / 26) name = (char)('A' + ((rest - 1) % 26)) + name;
        return name;
    }

    /// <summary>The number of a column; 0 for what is no name of one.</summary>
    public static int ColumnNumber(ReadOnlySpan<char> name)
    {
        var number = 0;
        foreach (var letter in name)
        {
            if (!char.IsAsciiLetter(letter) || number > SpreadsheetLimits.Columns) return 0;
            number = (number * 26) + char.ToUpperInvariant(letter) - 'A' + 1;
        }

        return number;
    }

    /// <summary>Reads <c>C14</c> or <c>$C$14</c>.</summary>
    /// <returns>Zeros for anything else.</returns>
    public static (int Row, int Column) Parse(ReadOnlySpan<char> text)
    {
        Span<char> plain = stackalloc char[16];
        var length = 0;
        foreach (var letter in text)
        {
            if (letter == '$') continue;
            if (length == plain.Length) return default;
            plain[length++] = letter;
        }

        var figures = plain[..length].IndexOfAnyInRange('0', '9');
        if (figures < 1) return default;
        var column = ColumnNumber(plain[..figures]);
        return column > 0 && int.TryParse(plain[figures..length], NumberStyles.None, CultureInfo.InvariantCulture, out var row) && row > 0
            ? (row, column)
            : default;
    }
}
