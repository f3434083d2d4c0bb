using System.Globalization;
using Archive.SchemeSearch.Labels;
using Archive.SchemeSearch.Proposals;
using CsCheck;
using Xunit;

namespace Archive.SchemeSearch.Tests.Proposals;

public sealed class SchemeFinderTests
{
    public static TheoryData<string, int> FamiliesAndSeen =>
        [.. Families.All.Keys.SelectMany(family => new[] { (family, 0), (family, 10) })];

    public static TheoryData<string> EachFamily => [.. Families.All.Keys];

    [Theory]
    [MemberData(nameof(FamiliesAndSeen))]
    public void Fifty_labels_are_enough(string family, int seen)
    {
        var machine = new Machine(7);
        var cables = machine.Cables(80);
        var labels = machine.Labels(cables[..50], Families.All[family], seen);
        var answer = Find(machine, labels);
        Assert.True(answer.Proposals.Length > 0, Describe(answer));
        Assert.True(answer.Undecided == 1, Describe(answer));
        Assert.True(answer.IsWhole);
        AssertRight(cables[..50], answer.Proposals[0]);
        var scheme = WiringCheck.Compile(answer.Proposals[0]);
        foreach (var (a, b) in cables[50..])
            Assert.Equal(WiringCheck.Means([a.Address, b.Address]), WiringCheck.Means(scheme, Families.All[family](a, b)));
    }

    [Theory]
    [MemberData(nameof(EachFamily))]
    public void The_order_of_ends_may_be_reversed_on_half_of_the_cables(string family)
    {
        var machine = new Machine(11);
        var cables = machine.Cables(50);
        var answer = Find(machine, machine.Labels(cables, Families.All[family], 20, isReversed: true));
        AssertRight(cables, answer.Proposals[0]);
        var (first, second) = answer.Proposals[0].Order;
        Assert.InRange(first, 8, 10);
        Assert.InRange(second, 8, 10);
    }

    [Theory]
    [MemberData(nameof(FamiliesAndSeen))]
    public void Shuffled_labels_give_nothing(string family, int seen)
    {
        for (var seed = 1; seed <= 3; seed++)
        {
            var machine = new Machine(seed);
            var labels = machine.Labels(machine.Cables(50), Families.All[family], seen);
            AssertNothing(Find(machine, machine.ShuffledLetters(labels)));
            AssertNothing(Find(machine, machine.ShuffledColumns(labels)));
        }
    }

    /// <summary>Each label is in order, but hangs on another cable: what was seen speaks against every scheme.</summary>
    [Theory]
    [MemberData(nameof(EachFamily))]
    public void Labels_of_other_cables_give_nothing(string family)
    {
        var machine = new Machine(3);
        AssertNothing(Find(machine, machine.ShuffledCables(machine.Labels(machine.Cables(50), Families.All[family], 50))));
    }

    private static void AssertNothing(SchemeAnswer answer)
    {
        Assert.True(answer.Proposals.IsEmpty, Describe(answer));
        Assert.Empty(answer.LookAt);
        Assert.Equal("no scheme explains these labels better than chance", answer.Summary);
    }

    internal static void AssertRight((Place A, Place B)[] cables, SchemeProposal proposal)
    {
        for (var at = 0; at < cables.Length; at++)
        {
            if (Machine.IsMisread(at)) continue;
            Assert.Equal(
                new[] { cables[at].A.Address, cables[at].B.Address }.Order(StringComparer.Ordinal),
                proposal.Labels[at].Means.Order(StringComparer.Ordinal));
        }
    }

    internal static SchemeAnswer Find(Machine machine, TypedLabel[] labels) =>
        SchemeFinder.Find(new SchemeQuestion([.. labels], [.. machine.Addresses], 2000, TimeSpan.FromMinutes(3)));

    internal static string Describe(SchemeAnswer answer) =>
        $"{answer.Summary}\n{answer.Schemes} schemes, {answer.Work} look-ups, {answer.LetterBits:0} bits\n"
        + string.Join("\n", answer.Proposals.Select(one => string.Create(
            CultureInfo.InvariantCulture, $"{one.SavedBits:0} bits, {one.Share:0.00}, order {one.Order}\n{one.ToYaml("x")}")
            + string.Concat(one.CounterExamples.Take(8).Select(counter => $"  {counter.Label}: {counter.Why}\n"))));
}
