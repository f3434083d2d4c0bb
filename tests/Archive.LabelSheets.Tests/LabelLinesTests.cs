using Archive.Drawings.Svg;
using Xunit;

namespace Archive.LabelSheets.Tests;

/// <summary>Words of a label in lines.</summary>
public class LabelLinesTests
{
    [Fact]
    public void A_word_that_is_too_long_is_broken_and_nothing_of_it_is_lost()
    {
        const string Word = "Donaudampfschifffahrtsgesellschaft";
        var lines = LabelLines.Wrap("die " + Word, 2, 12);
        Assert.True(lines.Count > 2);
        Assert.Equal("die" + Word, string.Concat(lines));
        Assert.All(lines, line => Assert.True(TextMetrics.Width(line, 2) <= 12));
    }

    [Fact] // what a reader takes for one letter: a base with its marks, a pair of surrogates
    public void Letters_are_not_taken_apart()
    {
        var lines = LabelLines.Broken("e\u0301e\u0301𝔘𝔘", 5, 1);
        Assert.Equal(["e\u0301", "e\u0301", "𝔘", "𝔘"], lines);
    }

    [Fact]
    public void What_has_no_room_ends_in_an_ellipsis()
    {
        List<string> lines = ["one two", "three", "four"];
        Assert.Equal(["one two", "three", "four"], LabelLines.First(lines, 3, 2, 40));
        Assert.Equal(["one two", "three…"], LabelLines.First(lines, 2, 2, 40));
        Assert.Equal(["o…"], LabelLines.First(lines, 1, 2, 3));
        Assert.Empty(LabelLines.First(lines, 0, 2, 40));
        Assert.Empty(LabelLines.First([], 3, 2, 40));
    }
}
