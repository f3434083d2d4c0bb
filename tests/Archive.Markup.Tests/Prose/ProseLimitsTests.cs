using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Markup.Prose;
using Xunit;

namespace Archive.Markup.Tests.Prose;

/// <summary>Prose that the Markdown library would take minutes over is never given to it, and what people write is.</summary>
public sealed class ProseLimitsTests
{
    // Each takes the library time that grows with the square of its length, or with columns by rows (measured on Markdig 1.6.0).
    public static TheoryData<string, string> Costly => new()
    {
        { "[a](", "" },
            { "![a](", "" },
            { "[a][", "" },
            { "[a](b (", "" },
            { "[a](b(", "" },
            { "[a](<b ", "" },
            { "[", "" },
            { "[[", "" },
            { "[[a|", "" },
            { "[\n", "" },
            { "[a]: b\n", "" },
            { "[", "](http://b)" },
            { "![", "](b)" },
            { "a <? ", "" },
            { "a <!A ", "" },
            { "a <![CDATA[ ", "" },
            { "a <!-- ", "" },
            { "x <a b=\" ", "" },
            { "*a ", "" },
            { "**a *b ", "" },
            { "*a_b ", "" },
            { "_a ", "" },
            { "a* ", "" },
            { "**a** b ", "" },
            { "*a|b\n", "" },
            { "[|b\n", "" },
            { "`|b\n", "" },
            { "- ", "" },
            { "1. ", "" },
            { "> ", "" },
            { "a\n=\n", "" },
            { "a\n-\n", "" },
            { "http://a.b((", "" },
            { "www.", "" },
            { "e`e``e```", "" },
        };

    [Theory]
    [MemberData(nameof(Costly))]
    public void What_grows_with_the_square_of_its_length_is_not_parsed(string open, string close)
    {
        var text = string.Concat(Enumerable.Repeat(open, 10_000)) + string.Concat(Enumerable.Repeat(close, close.Length > 0 ? 10_000 : 0));
        Assert.NotNull(ProseLimits.Exceeded(text));
        Assert.Null(MarkdownText.Parse(text));
    }

    [Theory]
    [InlineData(50, 20_000)]
    [InlineData(1_000, 1_000)]
    [InlineData(20, 1_000)]
    public void A_table_of_cells_that_are_not_there_is_not_parsed(int columns, int rows) => Assert.NotNull(ProseLimits.Exceeded(
        Repeat("|a", columns) + "\n" + Repeat("|-", columns) + "\n" + Repeat("|b\n", rows)));

    [Fact]
    public void A_thick_book_is_read_and_a_thicker_one_is_not()
    {
        var paragraph = "It was dry in the hall, and **warm**; [[R2-05]] hummed [all night](https://archive.example/).\n\n";
        var book = Repeat(paragraph, ProseLimits.MostLetters / paragraph.Length);
        Assert.Null(ProseLimits.Exceeded(book));
        Assert.NotNull(ProseLimits.Exceeded(book + paragraph));
    }

    [Theory]
    [InlineData("| [[C-0417]] | [x](https://archive.example/a_b_c) | `code [` |\n")]
    [InlineData("- [x] see [[R2-05|frame 5]], <https://archive.example/>, IMG_2031_a.jpg, 3 < 4, 2 * 3\n")]
    [InlineData("[sic], [1], [2] and a_long_name\n")]
    [InlineData("> quoted [words]\n")]
    [InlineData("1. An item\n   that goes on\n")]
    public void Closed_marks_may_be_as_many_as_one_likes(string line) => Assert.Null(ProseLimits.Exceeded(Repeat(line, 2_000)));

    [Fact]
    public void It_is_told_where_it_goes_beyond()
    {
        var sketch = WrittenArchive.Model(("stories/s.md", "---\ntitle: S\n---\nA word.\n\n" + Repeat("[a](  \n", 300)));
        var told = Assert.Single(ProseChecks.Check(sketch));
        Assert.Equal("AF0115", told.Code);
        Assert.Equal(new LinePosition(105, 0), told.Span.From);
    }

    // Hours, where each is looked for from the beginning of its text.
    [Theory]
    [InlineData("<b> x\n\n", "AF0214")]
    [InlineData("x </b>\n\n", "AF0214")]
    [InlineData("[a](#b) \n\n", "AF0215")]
    public void A_text_made_of_what_is_not_shown_is_told_up_to_the_limit(string part, string code)
    {
        var sketch = WrittenArchive.Model(("stories/s.md", "---\ntitle: S\n---\n" + Repeat(part, ProseLimits.MostLetters / part.Length)));
        var told = ProseChecks.Check(sketch);
        Assert.Equal(DiagnosticList.MostPerFile + 1, told.Length);
        Assert.Equal(DiagnosticList.MostPerFile, told.Count(each => each.Code == code));
        Assert.Equal(DiagnosticList.MostPerFile, told.Where(each => each.Code == code).DistinctBy(each => each.Span.Start).Count());
    }

    [Fact]
    public void Very_many_headings_of_one_name_each_have_an_anchor()
    {
        var document = MarkdownText.Parse(Repeat("# a\n\n", 100_000))!;
        var headings = new ProseHeadings(document, 1, "x");
        Assert.Equal("#x-a-100000", headings.Anchor("#a-100000"));
    }

    private static string Repeat(string part, int times) => string.Concat(Enumerable.Repeat(part, times));
}
