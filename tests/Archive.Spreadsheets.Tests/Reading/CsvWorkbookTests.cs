using System.Text;
using Archive.Spreadsheets.Reading;
using Xunit;

namespace Archive.Spreadsheets.Tests.Reading;

public sealed class CsvWorkbookTests
{
    [Theory]
    [InlineData("Cable;Length\nC-1;18,3\n")]
    [InlineData("Cable,Length\r\nC-1,\"18,3\"\r\n")]
    [InlineData("Cable\tLength\nC-1\t18,3")]
    [InlineData("Cable|Length\nC-1|18,3")]
    [InlineData("sep=;\nCable;Length\nC-1;18,3")]
    public void Any_dialect_is_read(string text)
    {
        Encoding[] encodings = [new UTF8Encoding(true), new UTF8Encoding(false), Encoding.Unicode, Encoding.BigEndianUnicode];
        foreach (var encoding in encodings)
            Assert.Equal("Cable, Length, C-1, 18,3", Read([.. encoding.GetPreamble(), .. encoding.GetBytes(text)]));
    }

    [Fact]
    public void What_is_not_UTF8_is_Windows_1252() => Assert.Equal("Käbel, €", Read([0x4b, 0xe4, 0x62, 0x65, 0x6c, 0x2c, 0x80]));

    private static string Read(byte[] bytes)
    {
        using var book = Workbook.Open(new MemoryStream(bytes), "list.csv");
        var sheet = Assert.Single(book.Sheets);
        Assert.Equal("list", sheet.Name);
        return string.Join(", ", sheet.Rows().SelectMany(row => row.Cells).Select(cell => cell.Text));
    }
}
