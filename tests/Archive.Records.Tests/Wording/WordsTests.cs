using Archive.Records.Wording;
using Xunit;

namespace Archive.Records.Tests.Wording;

public class WordsTests
{
    [Theory]
    [InlineData("row-2", "row 2")]
    [InlineData("row-2b", "row 2b")]
    [InlineData("row-power", "power row")]
    [InlineData("row-of-desks", "row of desks")]
    [InlineData("gallery-2", "gallery 2")]
    [InlineData("north_wall", "north wall")]
    [InlineData("Row.3", "Row.3")]
    [InlineData("north", "row north")]
    [InlineData("B", "row B")]
    [InlineData("R-2", "row R-2")]
    [InlineData("a-2", "row a-2")]
    public void A_row_is_called_by_the_words_of_its_id(string id, string said) => Assert.Equal(said, Phrase.Row(id));

    [Theory]
    [InlineData("", new string[0])]
    [InlineData("one", new[] { "one" })]
    [InlineData("one and two", new[] { "one", "two" })]
    [InlineData("one, two and three", new[] { "one", "two", "three" })]
    public void Things_are_listed_as_one_says_them(string said, string[] things) => Assert.Equal(said, Phrase.Listed(things));
}
