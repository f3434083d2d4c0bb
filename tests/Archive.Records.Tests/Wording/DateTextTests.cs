using Archive.Records.Terms;
using Archive.Records.Wording;
using Xunit;

namespace Archive.Records.Tests.Wording;

public sealed class DateTextTests
{
    // The forms are those of ISO 8601-2, levels 0 and 1.
    [Theory]
    [InlineData("2026-05-12", "12 May 2026")]
    [InlineData("2026-05", "May 2026")]
    [InlineData("1984", "1984")]
    [InlineData("1984~", "about 1984")]
    [InlineData("1984?", "1984, uncertain")]
    [InlineData("1984%", "about 1984, uncertain")]
    [InlineData("198X", "the 1980s")]
    [InlineData("19XX", "the 1900s")]
    [InlineData("2001-21", "spring 2001")]
    [InlineData("2026-05-12T10:42", "12 May 2026, 10:42")]
    [InlineData("1979/1986", "1979 to 1986")]
    [InlineData("1979/..", "since 1979")]
    [InlineData("../1986", "until 1986")]
    [InlineData("Y170000002", "Y170000002")]
    public void Dates_are_read_out(string written, string said) =>
        Assert.Equal(said, DateText.Format(new EdtfDate(written, null, null, 1)));
}
