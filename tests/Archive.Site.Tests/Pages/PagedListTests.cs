using Archive.Markup.Links;
using Archive.Records.Wording;
using Archive.Site.Parts;
using Xunit;

namespace Archive.Site.Tests.Pages;

public sealed class PagedListTests
{
    private static PagedList<int> Of(int rows) =>
        new([.. Enumerable.Range(0, rows)], "cables/index.html", "indexes/cables-by-id", row => $"C-{row}") { Size = 500 };

    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 1)]
    [InlineData(500, 1)]
    [InlineData(501, 2)]
    [InlineData(100_000, 200)]
    public void A_sheet_has_at_most_its_size(int rows, int sheets) => Assert.Equal(sheets, Of(rows).Count);

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

    [Theory]
    [InlineData(1)]
    [InlineData(500)]
    [InlineData(501)]
    [InlineData(12_345)]
    public void Sheets_that_are_cut_by_keys_have_every_row_once_and_are_at_least_half_full_but_for_the_last(int rows)
    {
        var list = Of(rows) with { Key = row => $"C-{row}" };
        var sheets = Enumerable.Range(1, list.Count).Select(number => list.RowsOf(number).ToList()).ToList();

        Assert.Equal(Enumerable.Range(0, rows), sheets.SelectMany(sheet => sheet));
        Assert.All(sheets.SkipLast(1), sheet => Assert.InRange(sheet.Count, 251, 500));
        Assert.InRange(sheets[^1].Count, 1, 500);
        for (var i = 0; i < sheets.Count; i++)
        {
            Assert.All(sheets[i], row => Assert.Equal(i + 1, list.SheetOf(row)));
            Assert.Equal((sheets[i][0], sheets[i][^1] + 1), (list.FirstOf(i + 1), list.EndOf(i + 1)));
        }
    }

    // All sheets link to it, so its name must not change with a row before all others.
    [Fact]
    public void The_first_of_the_sheets_that_are_cut_by_keys_is_called_start()
    {
        var list = Of(600) with { Key = row => $"C-{row}" };
        Assert.Equal(
            ["Start", $"C-{list.FirstOf(2)}"], list.On(2, new PageLocation("a/b/2/index.html")).Others.Select(other => other.Text));
    }

    // Cut by the number of rows, one more at the beginning changes all of them.
    [Fact]
    public void One_more_row_changes_the_sheet_that_it_is_on_and_seldom_others()
    {
        var random = new Random(3);
        int[] rows = [.. Enumerable.Range(0, 20_000).Select(row => 2 * row)];
        var before = Sheets(rows);
        Assert.InRange(before.Count, 45, 60);
        var changed = Enumerable.Range(0, 200)
            .Select(_ => (2 * random.Next(2_000)) + 1)
            .Select(more => Sheets([.. rows.Append(more).Order()]).Count(sheet => !before.Contains(sheet)))
            .ToList();

        Assert.All(changed, count => Assert.InRange(count, 1, 20));
        Assert.True(changed.Count(count => count == 1) >= 190, $"{changed.Count(count => count > 1)} of 200 changed more than one");

        static HashSet<string> Sheets(int[] rows)
        {
            var list = new PagedList<int>(rows, "cables/index.html", "indexes/cables-by-id", row => $"C-{row}")
            {
                Size = 500,
                Key = row => $"C-{row}",
            };
            return [.. Enumerable.Range(1, list.Count).Select(number => $"{number}: {string.Join(' ', list.RowsOf(number))}")];
        }
    }

    [Fact]
    public void Digits_sort_by_number() =>
        Assert.Equal(
            ["J1", "J2", "J10", "TB1", "TB01x"], new[] { "TB1", "J10", "TB01x", "J2", "J1" }.OrderBy(text => new NaturalSortKey(text)));
}
