using System.Text.Json;
using Archive.Records.Model;
using Archive.Wiring.Decabling;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Decabling;

public sealed class LiesOverTests
{
    private static readonly JsonSerializerOptions SnakeCase = new() { PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower };

    /// <summary>Drawn by <c>Fixtures/piles.py</c>; tangles and orders are those of networkx 3.6.1.</summary>
    private static readonly Pile[] Piles = JsonSerializer.Deserialize<Pile[]>(
        File.ReadAllText(Path.Combine(Project.Folder, "Fixtures", "piles.json")), SnakeCase)!;

    public static TheoryData<int> Numbers => [.. Enumerable.Range(0, Piles.Length)];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Knots_and_orders_are_those_of_networkx(int number)
    {
        var pile = Piles[number];
        var over = Of(pile.LiesOver.Select(cable => Made.Cable(cable.Key, cable.Value)));
        Assert.Equal(pile.Knots, Names(over.Cycles));
        Assert.Equal(pile.TopFirst, Names(over.TopFirst));
        Assert.Equal(pile.LowestFirst, Names(over.LowestFirst));
    }

    /// <summary>
    /// Cormen, Leiserson, Rivest, Stein, <i>Introduction to Algorithms</i>, the figure of strongly connected components (22.9 in the third
    /// edition); from memory.
    /// </summary>
    [Fact]
    public void The_textbook_figure_has_four_components()
    {
        var over = Of([
            Made.Cable("a", "b"), Made.Cable("b", "c", "e", "f"), Made.Cable("c", "d", "g"), Made.Cable("d", "c", "h"),
            Made.Cable("e", "a", "f"), Made.Cable("f", "g"), Made.Cable("g", "f", "h"), Made.Cable("h", "h")]);
        Assert.Equal([["a", "b", "e"], ["c", "d"], ["f", "g"]], Names(over.Cycles));
        Assert.Equal([["a", "b", "e"], ["c", "d"], ["f", "g"], ["h"]], Names(over.TopFirst));
        Assert.False(over.With("h")!.IsCycle);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_hundred_thousand_cables_may_lie_one_over_the_other(bool inACircle)
    {
        const int Count = 100_000;
        var over = Of(Enumerable.Range(0, Count)
            .Select(n => Made.Cable($"C-{n:000000}", n + 1 < Count ? [$"C-{n + 1:000000}"] : inACircle ? ["C-000000"] : [])));
        Assert.Equal(inACircle ? 1 : Count, over.TopFirst.Length);
        Assert.Equal("C-000000", over.TopFirst[0].Id);
        Assert.Equal(inACircle ? "C-000000" : "C-099999", over.LowestFirst[0].Id);
    }

    [Fact]
    public void What_is_not_of_the_set_is_passed_over()
    {
        var record = Made.Record(Made.Cable("A", "B"), Made.Cable("B", "C"), Made.Cable("C", "A"));
        Assert.Single(LiesOverGraph.From(record).Cycles);
        var two = LiesOverGraph.From(record, record.Cables.Where(cable => cable.Id != "B"));
        Assert.Empty(two.Cycles);
        Assert.Equal(["C", "A"], two.TopFirst.Select(lift => lift.Id));
        Assert.Null(two.With("B"));
    }

    [Fact]
    public void A_former_id_leads_to_the_cable() =>
        Assert.Equal(
            ["Z", "A"], Of([Made.Cable("A") with { Was = [Made.Said("OLD")] }, Made.Cable("Z", "OLD")]).TopFirst.Select(lift => lift.Id));

    [Fact]
    public void Every_order_respects_every_precedence() => Gen.Int[0, 11].Array[2].Array[0, 40].Sample(arrows =>
    {
        var cables = Enumerable.Range(0, 12)
            .Select(n => Made.Cable($"C-{n:00}", arrows.Where(arrow => arrow[0] == n).Select(arrow => $"C-{arrow[1]:00}")))
            .ToArray();
        var over = Of(cables);
        Before(over.TopFirst, isTopFirst: true);
        Before(over.LowestFirst, isTopFirst: false);

        void Before(IEnumerable<PullGroup> order, bool isTopFirst)
        {
            var place = order.SelectMany((lift, at) => lift.Cables.Select(cable => (cable.Id, at))).ToDictionary();
            Assert.Equal(12, place.Count);
            foreach (var cable in cables)
            {
                foreach (var under in cable.LiesOver.Where(under => over.With(under.Value) != over.With(cable.Id)))
                    Assert.Equal(isTopFirst, place[cable.Id] < place[under.Value]);
            }
        }
    });

    private static LiesOverGraph Of(IEnumerable<Cable> cables) => LiesOverGraph.From(Made.Record(cables));

    private static string[][] Names(IEnumerable<PullGroup> lifts) =>
        [.. lifts.Select(lift => lift.Cables.Select(cable => cable.Id).ToArray())];

    private sealed record Pile(Dictionary<string, string[]> LiesOver, string[][] Knots, string[][] TopFirst, string[][] LowestFirst);
}
