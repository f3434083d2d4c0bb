using System.Collections.Immutable;
using Archive.Drawings.Charts;
using Archive.Drawings.Svg;
using Archive.Markup.Text;
using Xunit;

namespace Archive.Drawings.Tests;

public sealed class ConnectionMatrixTests
{
    [Fact]
    public void Each_crossing_is_a_link_that_says_how_many_and_the_mirrored_half_says_it_again()
    {
        var drawn = Draw(3, new MatrixCell(0, 2, 7, "pair-0-2"), new MatrixCell(1, 1, 1, "pair-1-1"));
        Assert.Equal(["frame-0", "frame-1", "frame-2", "pair-0-2", "pair-1-1"], drawn.Links);
        Assert.Equal(["F0 and F2: 7 cables", "within F1: 1 cable"], drawn.All("a").Skip(3).Select(link => link.Elements().First().Value));
        Assert.Equal(3, drawn.All("rect").Count());

        // The number is in both halves, at places that mirror each other.
        var sevens = drawn.Texts().Where(text => text.Text == "7").Select(text => text.Box.Centre).ToList();
        var (lower, upper) = (sevens[0], sevens[^1]);
        Assert.Equal(lower.X, upper.Y, 0.5);
        Assert.Equal(lower.Y, upper.X, 0.5);
        Assert.Contains("Most: F0 and F2: 7; within F1: 1.", drawn.Description, StringComparison.Ordinal);
        Assert.Equal(["7", "7", "1"], drawn.Texts().Where(text => int.TryParse(text.Text, out _)).Select(text => text.Text));
    }

    [Fact]
    public void Lines_and_columns_do_not_overlap_and_the_crossing_lies_where_they_meet()
    {
        var drawn = Draw(40, [.. Enumerable.Range(0, 40).Select(n => new MatrixCell(n / 2, n, n + 1, $"pair-{n}"))]);
        var boxes = drawn.All("a").SelectMany(link => link.Elements()).Where(one => one.Name.LocalName == "rect")
            .Select(Drawn.Box)
            .ToList();
        Assert.All(boxes, box => Assert.DoesNotContain(boxes, other => other != box && other.Meets(box)));
        var lines = drawn.Texts().Where(text => text.Anchor == TextAnchor.End).ToDictionary(text => text.Text, text => text.Box);
        var columns = drawn.Texts().Where(text => !text.IsUpright).ToDictionary(text => text.Text, text => text.Box);
        Assert.All(Enumerable.Range(0, 40), n =>
        {
            Assert.InRange(boxes[n].Centre.Y, lines[$"F{n / 2}"].Y, lines[$"F{n / 2}"].Bottom);
            Assert.InRange(boxes[n].Centre.X, columns[$"F{n}"].X, columns[$"F{n}"].Right);
        });
    }

    [Fact]
    public void Three_hundred_are_drawn_with_their_groups_named_and_more_than_that_are_not()
    {
        var drawn = Draw(300, new MatrixCell(0, 299, 2, "pair"));
        Assert.Equal(
            Enumerable.Range(0, 30).Select(n => $"row-{n}").Order(),
            drawn.Texts().Where(text => text.Anchor == TextAnchor.End).Select(text => text.Text).Order());
        Assert.Equal(["pair"], drawn.Links);
        Assert.Equal("", Markup(ConnectionMatrix.Most + 1).Html);
        Assert.Equal("", Markup(0).Html);
    }

    [Fact]
    public void Names_are_no_markup() => Assert.Equal(
        "A chart of 1 row and as many columns, from <b> to <b>; 1 square has cables. Most: within <b>: 3. The table has the same figures.",
        new Drawn(
            ConnectionMatrix.Draw([new MatrixItem("<b>", "<i>", "x", "\"")], [new MatrixCell(0, 0, 3, null)], "<script>")).Description);

    private static Drawn Draw(int items, params ImmutableArray<MatrixCell> cells) => new(Markup(items, cells));

    private static HtmlFragment Markup(int items, params ImmutableArray<MatrixCell> cells) => ConnectionMatrix.Draw(
        [.. Enumerable.Range(0, items).Select(n => new MatrixItem($"F{n}", $"F{n}", $"frame-{n}", $"row-{n / 10}"))], cells, "Cables");
}
