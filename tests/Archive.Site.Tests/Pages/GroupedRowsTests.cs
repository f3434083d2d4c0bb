using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Site.Parts;
using Xunit;

namespace Archive.Site.Tests.Pages;

public sealed class GroupedRowsTests
{
    private static readonly PageLocation Place = new("cables/index.html");

    private static GroupedRows<int> Of(int rows, Func<int, RowHeading>? under = null) => new(
        [.. Enumerable.Range(0, rows).Select(row => (under?.Invoke(row) ?? RowHeading.None, row))],
        "cables/index.html",
        "indexes/cables-by-id",
        row => $"C-{row.Row}",
        size: 500);

    [Fact]
    public void A_short_sheet_has_no_jumps() => Assert.Empty(Of(39).Sheet(1, Place).Jumps);

    [Fact]
    public void Jumps_lead_down_a_sheet_without_headings_every_fifty_rows()
    {
        var rows = Of(560);
        Assert.Equal(
            ["C-0", "C-50", "C-100", "C-150", "C-200", "C-250", "C-300", "C-350", "C-400", "C-450"],
            rows.Sheet(1, Place).Jumps.Select(jump => jump.Text));
        Assert.Equal(["#from-1", "#from-51"], Of(600).Sheet(2, Place).Jumps.Select(jump => jump.Href.ToString()));
        Assert.Equal(["C-500"], rows.On(2, row => $"C-{row}").SelectMany(group => group.Parts).Select(part => part.Rows[0]));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(7)]
    [InlineData(60)]
    [InlineData(1000)]
    public void Every_jump_leads_to_something_once_and_no_row_is_lost(int under)
    {
        var rows = Of(1234, row => new RowHeading($"Heading {row / under}", $"h-{row / under}"));
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var groups = rows.On(number, row => row);
            Assert.Equal(rows.Sheets.RowsOf(number).Select(row => row.Row), groups.SelectMany(group => group.Rows));
            Assert.All(groups, group => Assert.Equal(group.Rows, group.Parts.SelectMany(part => part.Rows)));
            ImmutableArray<string> anchors =
            [
                .. groups.Select(group => group.Anchor),
                .. groups.SelectMany(group => group.Parts).Select(part => part.Anchor).Where(anchor => anchor.Length > 0)
            ];
            Assert.Equal(anchors.Length, anchors.Distinct().Count());
            var jumps = rows.Sheet(number, Place).Jumps;
            Assert.InRange(jumps.Length, 2, 30);
            Assert.All(jumps, jump => Assert.Contains(jump.Href!.Value.ToString()[1..], anchors));
        }
    }

    [Fact]
    public void Headings_called_alike_are_one_jump() =>
        Assert.Equal(["A", "B"], Of(60, row => new RowHeading($"{(row < 30 ? "A" : "B")} and {row}", $"h-{row}")
        {
            Short = row < 30 ? "A" : "B"
        }).Sheet(1, Place).Jumps.Select(jump => jump.Text));
}
