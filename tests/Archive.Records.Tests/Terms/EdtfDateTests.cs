using Archive.Records.Terms;
using Xunit;

namespace Archive.Records.Tests.Terms;

public sealed class EdtfDateTests
{
    // github unt-libraries/edtf-validate, commit 01c13c55, 3-clause BSD: see edtf/SOURCE.txt.
    private static readonly (string Level, string Text)[] Published =
    [
        .. File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Terms", "edtf", "edtf-cases.tsv"))
            .Skip(1).Where(line => line.Length > 0).Select(line => (line[..line.IndexOf('\t')], line[(line.IndexOf('\t') + 1)..])),
    ];

    [Fact]
    public void Every_published_case_is_read_at_its_level_or_refused()
    {
        Assert.Equal((21, 64, 121, 56), (Count("0"), Count("1"), Count("2"), Count("invalid")));
        var wrong = Published.Where(known => Verdict(known.Text) != known.Level)
            .Select(known => $"{known.Level} {known.Text}: {Verdict(known.Text)}");
        // Refused for its level 2, before its order is looked at; the publisher calls it invalid for its order.
        Assert.Equal(["invalid 2004-06-11%/2004-%06: 2"], wrong);

        static int Count(string level) => Published.Count(known => known.Level == level);
    }

    // LoC EDTF 2019; the ends of February by the Gregorian rule.
    [Theory]
    [InlineData("2026-05-12", "2026-05-12", "2026-05-12")]
    [InlineData("1985", "1985-01-01", "1985-12-31")]
    [InlineData("201X", "2010-01-01", "2019-12-31")]
    [InlineData("19XX", "1900-01-01", "1999-12-31")]
    [InlineData("2004-XX", "2004-01-01", "2004-12-31")]
    [InlineData("1985-04-XX", "1985-04-01", "1985-04-30")]
    [InlineData("1985-XX-XX", "1985-01-01", "1985-12-31")]
    [InlineData("1900-02", "1900-02-01", "1900-02-28")]
    [InlineData("2000-02", "2000-02-01", "2000-02-29")]
    [InlineData("1984~", "1984-01-01", "1984-12-31")]
    [InlineData("198X?", "1980-01-01", "1989-12-31")]
    [InlineData("2001-21", "2001-01-01", "2001-12-31")]
    [InlineData("1979/1986", "1979-01-01", "1986-12-31")]
    [InlineData("2004-02-01/2005", "2004-02-01", "2005-12-31")]
    [InlineData("1985/..", "1985-01-01", null)]
    [InlineData("/1985-04", null, "1985-04-30")]
    [InlineData("-1985", null, null)]
    [InlineData("-19XX", null, null)]
    [InlineData("000X", null, "0009-12-31")]
    [InlineData("0000", null, null)]
    [InlineData("Y170000002", null, null)]
    [InlineData("2026-05-12T10:42", "2026-05-12", "2026-05-12")]
    [InlineData("2026-05-12T23:20:30+04:30", "2026-05-12", "2026-05-12")]
    public void Bounds_are_the_first_and_last_day_it_may_mean(string text, string? earliest, string? latest)
    {
        Assert.True(EdtfDate.TryParse(text, out var date, out var why), why);
        Assert.Equal(earliest, date!.Earliest?.ToString("yyyy-MM-dd"));
        Assert.Equal(latest, date.Latest?.ToString("yyyy-MM-dd"));
        Assert.Equal(text, date.ToString());
    }

    [Theory]
    [InlineData("1960-06-31", "1960-06 has no day 31")]
    [InlineData("2026-13", "there is no month 13")]
    [InlineData("2026-5-12", "this date is written `2026-05-12`")]
    [InlineData("2026/05/12", "this date is written `2026-05-12`")]
    [InlineData("12.5.2026", "a date is written year first, such as `2026-05-12`")]
    [InlineData("12 May 2026", "a date is written year first, such as `2026-05-12`")]
    [InlineData("1979-1986", "an interval is written with `/`: `1979/1986`")]
    [InlineData("1980s", "a decade is written `198X`")]
    [InlineData("c. 1984", "an approximate year is written `1984~`")]
    [InlineData("1986/1979", "the interval ends before it begins: `1979` comes before `1986`")]
    [InlineData("156X-12-25", "it is level 2 of the date format; only levels 0 and 1 are supported")]
    [InlineData("1979 / 1986", "a date has no spaces in it; write `1979/1986`")]
    [InlineData("2026-05-12T25:00", "there is no hour 25")]
    [InlineData("", "the date is empty")]
    [InlineData("/", "an interval needs at least one end")]
    [InlineData("yesterday", "a date is written as year, year-month or year-month-day, such as `2026-05-12`")]
    public void A_refusal_says_why(string text, string expected)
    {
        Assert.False(EdtfDate.TryParse(text, out _, out var why));
        Assert.Equal(expected, why);
    }

    private static string Verdict(string text) =>
        EdtfDate.TryParse(text, out var date, out var why) ? date!.Level.ToString()
        : why!.Contains("level 2", StringComparison.Ordinal) ? "2"
        : "invalid";
}
