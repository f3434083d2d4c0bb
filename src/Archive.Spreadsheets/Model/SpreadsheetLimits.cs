namespace Archive.Spreadsheets.Model;

/// <summary>What is read of a spreadsheet at most. Far above any list of a machine; a file made to do harm reaches them.</summary>
public static class SpreadsheetLimits
{
    /// <summary>Largest file, in bytes.</summary>
    public const long File = 64 << 20;

    /// <summary>Largest part of a packed file, unpacked, in bytes.</summary>
    public const long Part = 512L << 20;

    public const int Parts = 10_000;

    /// <summary>As xlsx and ods have them.</summary>
    public const int Rows = 1_048_576;

    /// <summary>As xlsx has them.</summary>
    public const int Columns = 16_384;

    /// <summary>Cells of one sheet that have a value.</summary>
    public const int Cells = 5_000_000;

    public const int Sheets = 1000;

    /// <summary>Letters of one cell, as xlsx has them.</summary>
    public const int Letters = 32_767;

    /// <summary>Letters that cells of an xlsx file share.</summary>
    public const int SharedLetters = 64 << 20;

    public const int Styles = 65_536;

    public const int Merged = 100_000;
}

/// <summary>A spreadsheet, or the rest of it, cannot be read.</summary>
public sealed class SpreadsheetException(string message, string help) : Exception(message)
{
    /// <summary>What to do.</summary>
    public string Help { get; } = help;

    /// <summary>More than a limit allows.</summary>
    public static SpreadsheetException TooLarge(string what) =>
        new(what, "split it into smaller spreadsheets, or save only the sheets with data");

    internal static SpreadsheetException Damaged(string what) =>
        new($"this file is damaged: {what}", "open it in a spreadsheet program and save it again as .xlsx or .ods");
}
