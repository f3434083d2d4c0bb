using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;
using Xunit;

namespace Archive.Spreadsheets.Tests.Reading;

/// <summary>Files that LibreOffice made; <c>files/README.md</c> says how.</summary>
public sealed class LibreOfficeTests
{
    private static readonly string[] Cables =
    [
        "A1 Text Cable list, east hall",
        "A4 Text Cable no.", "B4 Text Label", "C4 Text Length (m)", "D4 Text Seen on", "E4 Text Cut", "F4 Text Half",
        "A5 Text C-0417", "B5 Text 0205-07J14\n0103-02J03", "C5 Number 18.3", "D5 Date 2026-05-14", "E5 Flag false", "F5 Number 9.15",
        "A6 Text C-0418", "B6 Text 0301-03J02   & <spare>", "C6 Text 12.50", "D6 Date 1904-02-29", "F6 Error #DIV/0!",
        "A7 Text same", "B7 Text same", "A8 Text same", "B8 Text same", "A9 Text same", "B9 Text same",
    ];

    [Theory]
    [InlineData("station.xlsx")]
    [InlineData("station.ods")]
    [InlineData("station-1904.xlsx")]
    public void Values_types_and_addresses_are_those_of_the_sheet(string file)
    {
        using var book = Open(file);
        Assert.Equal(["Cables", "Floor plan"], book.Sheets.Select(sheet => sheet.Name));
        Assert.Equal(Cables, Written(book.Sheets[0]));
        // A sheet can be read as often as one likes.
        Assert.Equal(Cables, Written(book.Sheets[0]));
    }

    [Theory]
    [InlineData("station.xlsx")]
    [InlineData("station.ods")]
    public void Merged_cells_fills_and_borders_are_those_of_the_sheet(string file)
    {
        using var book = Open(file);
        Assert.Empty(book.Sheets[0].Merged());
        Assert.Equal("C1:D2", Assert.Single(book.Sheets[1].Merged()).ToString());
        var row = book.Sheets[1].Rows().First();
        const CellBorders All = CellBorders.Left | CellBorders.Top | CellBorders.Right | CellBorders.Bottom;
        Assert.Equal(("R2-05", new CellStyle("#ff6666", All)), (row[3]!.Text, row[3]!.Style));
        Assert.Equal((CellType.Empty, new CellStyle("#99ccff", CellBorders.Left)), (row[5]!.Type, row[5]!.Style));
        Assert.Equal("C1 Text R2-05", Assert.Single(Written(book.Sheets[1])));
    }

    private static string[] Written(Sheet sheet) =>
        [.. sheet.Rows().SelectMany(row => row.Cells).Where(cell => cell.Type != CellType.Empty)
            .Select(cell => $"{cell.Address} {cell.Type} {cell.Text}")];

    private static Workbook Open(string file) => Workbook.Open(
        File.OpenRead(Path.Combine(Repository.Root, "tests/Archive.Spreadsheets.Tests/files", file)), file);
}
