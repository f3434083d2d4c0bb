using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;
using Xunit;

namespace Archive.Spreadsheets.Tests.Reading;

public sealed class SerialDatesTests
{
    /// <summary>ECMA-376 part 1, 18.17.4.1 and its examples, from memory; 46156 as LibreOffice 7.4 writes 2026-05-14.</summary>
    [Theory]
    [InlineData(1, false, "1900-01-01")]
    [InlineData(59, false, "1900-02-28")]
    [InlineData(60, false, null)]
    [InlineData(61, false, "1900-03-01")]
    [InlineData(46156, false, "2026-05-14")]
    [InlineData(46156.75, false, "2026-05-14T18:00:00")]
    [InlineData(0, true, "1904-01-01")]
    [InlineData(44694, true, "2026-05-14")]
    [InlineData(2958465, false, "9999-12-31")]
    [InlineData(2958466, false, null)]
    [InlineData(-1, false, null)]
    public void Days_are_counted_from_either_beginning(double serial, bool isFrom1904, string? date) =>
        Assert.Equal(date, SerialDates.Write(serial, isFrom1904));

    [Theory]
    [InlineData("yyyy\\-mm\\-dd", true)]
    [InlineData("[$-409]d/m/yy", true)]
    [InlineData("[h]:mm", true)]
    [InlineData("0.00", false)]
    [InlineData("[Red]0.0\" days\"", false)]
    [InlineData("0\\d", false)]
    [InlineData("General", false)]
    [InlineData("# ##0_d", false)]
    public void A_format_shows_a_date_or_not(string code, bool isDate) => Assert.Equal(isDate, XlsxStyles.IsDateCode(code));

    [Fact]
    public void Columns_are_numbered_as_spreadsheets_do()
    {
        for (var column = 1; column <= SpreadsheetLimits.Columns; column++)
            Assert.Equal(column, CellAddress.ColumnNumber(CellAddress.ColumnName(column)));
        Assert.Equal("XFD", CellAddress.ColumnName(SpreadsheetLimits.Columns));
        Assert.Equal((14, 3), CellAddress.Parse("$C$14"));
        Assert.Equal((0, 0), CellAddress.Parse("14C"));
    }
}
