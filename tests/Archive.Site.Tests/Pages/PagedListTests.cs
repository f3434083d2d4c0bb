using Archive.Markup.Links;
using Archive.Records.Wording;
using Archive.Site.Parts;
using Xunit;

namespace Archive.Site.Tests.Pages;

public sealed class PagedListTests
{
    private static PagedList<int> Of(int rows) =>
        new([.. Enumerable.Range(0, rows)], "cables/index.html", "indexes/cables-by-id", row => $"C-{row}");

    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 1)]
    [InlineData(500, 1)]
    [InlineData(501, 2)]
    [InlineData(100_000, 200)]
    public void A_sheet_has_at_most_500_rows(int rows, int sheets) => Assert.Equal(sheets, Of(rows).Count);

    [Fact]
    public void Every_row_stands_on_one_sheet() =>
        Assert.Equal(Enumerable.Range(0, 1234), Enumerable.Range(1, 3).SelectMany(number => Of(1234).RowsOf(number)));

    [Fact]
    public void Links_lead_to_the_sheets_before_and_behind()
    {
        var sheet = Of(1234).On(2, new PageLocation("indexes/cables-by-id/2/index.html"));

        Assert.Equal("../../../cables/index.html", sheet.Previous!.Href.ToString());
        Assert.Equal("../../../indexes/cables-by-id/3/index.html", sheet.Next!.Href.ToString());
        Assert.Equal([("C-0", false), ("C-500", true), ("C-1000", false)], sheet.Others.Select(other => (other.Text, other.IsThis)));
    }

    [Fact]
    public void Links_do_not_grow_with_the_sheets()
    {
        var others = Of(100_000).On(77, new PageLocation("a/b/77/index.html")).Others;

        Assert.InRange(others.Length, 20, 27);
        Assert.Single(others, other => other.IsThis);
        Assert.Equal("C-99500", others[^1].Text);
    }

    [Fact]
    public void Digits_sort_by_number() =>
        Assert.Equal(
            ["J1", "J2", "J10", "TB1", "TB01x"], new[] { "TB1", "J10", "TB01x", "J2", "J1" }.OrderBy(text => new NaturalSortKey(text)));
}
