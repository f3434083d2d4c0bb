using System.Text;
using Archive.Intake.Spreadsheets;
using Xunit;

namespace Archive.Intake.Tests;

public class SpreadsheetImportTests
{
    private const string List = "Frame no.,Name\nR1,one\nR2,two\nR3,three\n";

    [Theory]
    [InlineData(3, 3, null)]
    [InlineData(2, 0, "AF1603")]
    public void No_more_is_read_than_can_be_decided_about(int most, int facts, string? code)
    {
        var stream = new MemoryStream(Encoding.UTF8.GetBytes(List));
        var import = SpreadsheetImport.Read(stream, "list.csv", [], [], null, null, most, TestContext.Current.CancellationToken);
        Assert.Equal(facts, import.Facts.Length);
        Assert.Equal(code, import.Diagnostics.SingleOrDefault()?.Code);
    }
}
