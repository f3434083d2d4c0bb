using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;
using Archive.Spreadsheets.Writing;
using CsCheck;
using Xunit;

namespace Archive.Spreadsheets.Tests.Writing;

public sealed class XlsxWriterTests
{
    private static readonly Gen<TableValue> Values = Gen.OneOf(
        Gen.Const(TableValue.None),
        Gen.OneOf(Gen.Char, Gen.Char['\u0001', '\u0010'], Gen.Char['\ud7f0', '\udfff'], Gen.Char["_x0=<"])
            .Array[0, 12].Select(letters => TableValue.Of(new string(letters))),
        Gen.Const(TableValue.Of("_x000D__x000D_\r\n\t end ")),
        Gen.Double.Select(number => TableValue.Of(number)),
        Gen.Bool.Select(flag => TableValue.Of(flag)),
        Gen.Date.Select(date => TableValue.Of(DateOnly.FromDateTime(date))));

    [Fact]
    public void What_is_written_is_read_again()
    {
        Values.Array[0, 5].Array[0, 6].Sample(
            rows =>
            {
                var table = new TableSheet("Cables & more", [new("id"), new("length [m]")], () => rows);
                var bytes = Write([table, table]);
                Assert.Equal(bytes, Write([table, table]));
                using var book = Workbook.Open(new MemoryStream(bytes), "x.xlsx");
                Assert.Equal(["Cables & more", "Cables & more 2"], book.Sheets.Select(sheet => sheet.Name));
                foreach (var sheet in book.Sheets)
                {
                    var read = sheet.Rows().ToDictionary(row => row.Number);
                    Assert.Equal(["id", "length [m]"], read[1].Cells.Select(cell => cell.Text));
                    for (var row = 0; row < rows.Length; row++)
                    {
                        for (var column = 0; column < rows[row].Length; column++)
                            AssertSame(rows[row][column], read.GetValueOrDefault(row + 2)?[column + 1]);
                    }
                }
            },
            iter: 200);
    }

    private static void AssertSame(TableValue written, SheetCell? read)
    {
        switch (written.Kind)
        {
            case TableValueKind.None:
                Assert.Null(read);
                break;
            case TableValueKind.Number:
                Assert.Equal((CellType.Number, written.Number), (read!.Type, read.Number));
                break;
            case TableValueKind.Flag:
                Assert.Equal((CellType.Flag, written.Number != 0 ? "true" : "false"), (read!.Type, read.Text));
                break;
            case TableValueKind.Date:
                var day = new DateOnly(1899, 12, 30).AddDays((int)written.Number);
                Assert.Equal((CellType.Date, day.ToString("O", null)), (read!.Type, read.Text));
                break;
            default:
                // Half a pair of surrogates is no character, and is written as the sign for that.
                Assert.Equal((CellType.Text, WithoutHalves(written.Text!)), (read!.Type, read.Text));
                break;
        }
    }

    private static string WithoutHalves(string text) =>
        string.Concat(text.EnumerateRunes().Select(rune => rune.ToString()));

    [Fact]
    public void Names_of_sheets_are_such_as_programs_take()
    {
        string[] names = ["plans/hand-tags", "", new string('n', 40), new string('N', 40), "'a'"];
        using var book = Workbook.Open(
            new MemoryStream(Write([.. names.Select(name => new TableSheet(name, [new("id")], () => []))])), "x.xlsx");
        Assert.Equal(
            ["plans hand-tags", "Sheet", new string('n', 31), new string('N', 29) + " 2", "a"], book.Sheets.Select(sheet => sheet.Name));
    }

    private static byte[] Write(TableSheet[] sheets)
    {
        using var bytes = new MemoryStream();
        XlsxWriter.Write(bytes, sheets);
        return bytes.ToArray();
    }
}
