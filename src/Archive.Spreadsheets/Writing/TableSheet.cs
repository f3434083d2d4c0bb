namespace Archive.Spreadsheets.Writing;

/// <summary>A column of a sheet to be written.</summary>
/// <param name="Head">In the frozen first row, with the unit.</param>
public readonly record struct TableColumn(string Head);

/// <summary>A value of a sheet to be written.</summary>
public readonly record struct TableValue
{
    private TableValue(string? text, double number, TableValueKind kind) => (Text, Number, Kind) = (text, number, kind);

    internal string? Text { get; }

    internal double Number { get; }

    internal TableValueKind Kind { get; }

    public static TableValue None => default;

    public static TableValue Of(string? text) => string.IsNullOrEmpty(text) ? default : new(text, 0, TableValueKind.Text);

    public static TableValue Of(double number) => double.IsFinite(number) ? new(null, number, TableValueKind.Number) : default;

    public static TableValue Of(bool flag) => new(null, flag ? 1 : 0, TableValueKind.Flag);

    /// <summary>A day as a real date; days before March 1900 stay text, which spreadsheets count wrongly.</summary>
    public static TableValue Of(DateOnly day) => day.DayNumber >= new DateOnly(1900, 3, 1).DayNumber
        ? new(null, day.DayNumber - new DateOnly(1899, 12, 30).DayNumber, TableValueKind.Date)
        : Of(day.ToString("O", System.Globalization.CultureInfo.InvariantCulture));
}

internal enum TableValueKind
{
    None,
    Text,
    Number,
    Flag,
    Date,
}

/// <summary>A sheet to be written: a head, and rows as they are made.</summary>
/// <param name="Name">At most 31 letters count.</param>
/// <param name="Rows">Each has a value for every column.</param>
public sealed record TableSheet(string Name, IReadOnlyList<TableColumn> Columns, Func<IEnumerable<IReadOnlyList<TableValue>>> Rows);
