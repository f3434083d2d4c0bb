using Archive.Diagnostics;
using Archive.Records.Terms;
using Xunit;

namespace Archive.Records.Tests.Terms;

public sealed class PortRangeTests
{
    [Theory]
    [InlineData("J1..J24", 24, "J1", "J24")]
    [InlineData("J01..J24", 24, "J01", "J24")]
    [InlineData("T008..T112", 105, "T008", "T112")]
    [InlineData("J08..J112", 105, "J08", "J112")]
    [InlineData("00..07", 8, "00", "07")]
    [InlineData("TB01", 1, "TB01", "TB01")]
    [InlineData("J1 .. J24", 24, "J1", "J24")]
    [InlineData("TB1", 1, "TB1", "TB1")]
    [InlineData("1..12", 12, "1", "12")]
    [InlineData("GND", 1, "GND", "GND")]
    [InlineData("J7..J7", 1, "J7", "J7")]
    [InlineData("J1..J10000", 10_000, "J1", "J10000")]
    [InlineData("99999999999999999999", 1, "99999999999999999999", "99999999999999999999")]
    public void A_range_has_its_ports(string text, int count, string first, string last)
    {
        var range = Read(text);
        Assert.Equal((count, first, last), (range.Count, range.Names.First(), range.Names.Last()));
        Assert.Equal((first, last), (range.FirstName, range.LastName));
    }

    [Theory]
    [InlineData("J24..J1", "the range runs backwards, from 24 to 1")]
    [InlineData("J1..K24", "`J1` and `K24` differ in more than the number")]
    [InlineData("J1..J10001", "the range has more than 10,000 ports")]
    [InlineData("A..F", "a range must run from one number to another")]
    [InlineData("J1..", "`` is not a port name")]
    [InlineData("J/1", "`J/1` is not a port name")]
    [InlineData("J1...J4", "`.J4` is not a port name")]
    public void What_is_no_range_is_refused(string text, string why)
    {
        Assert.False(PortRange.TryParse(text, default, out _, out var said));
        Assert.Equal(why, said);
    }

    [Theory]
    [InlineData("J3", true)]
    [InlineData("J03", true)]
    [InlineData("J0", false)]
    [InlineData("J25", false)]
    [InlineData("K3", false)]
    [InlineData("J", false)]
    public void Leading_zeros_do_not_matter(string port, bool contained) => Assert.Equal(contained, Read("J01..J24").Contains(port));

    private static PortRange Read(string text)
    {
        Assert.True(PortRange.TryParse(text, new SourceText("x.yaml", text).Whole, out var range, out var why), why);
        return range;
    }
}
