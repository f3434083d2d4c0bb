using Xunit;

namespace Archive.Site.Tests;

public sealed class SearchTermsTests
{
    [Fact]
    public void A_code_is_found_whole_and_from_each_part_on_with_and_without_leading_zeros() =>
        Assert.Equal(
            ["r205s7j14", "r25s7j14", "05s7j14", "5s7j14", "s7j14", "j14"],
            SearchTerms.Of("R2-05/S7/J14"));

    [Fact]
    public void A_letter_behind_a_digit_begins_a_new_part() =>
        Assert.Equal(["020507j14", "2057j14", "07j14", "7j14", "j14"], SearchTerms.Of("0205-07J14"));

    [Theory]
    [InlineData("Größe", "grosse")]
    [InlineData("Kämpfer", "kampfer")]
    [InlineData("ĐURO", "duro")]
    [InlineData("ﬁeld", "field")]
    public void Accents_are_folded_as_the_script_folds_them(string word, string term) => Assert.Equal([term], SearchTerms.Of(word));

    [Fact]
    public void Punctuation_alone_is_no_term() => Assert.Empty(SearchTerms.Of(" -- / … “” "));

    [Fact]
    public void Long_words_are_cut() => Assert.All(SearchTerms.Of(new string('x', 5000)), term => Assert.Equal(40, term.Length));
}
