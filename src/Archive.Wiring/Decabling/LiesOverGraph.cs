using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Decabling;

/// <summary>
/// Which cable lies over which, among a set of cables. A cable comes out before every cable that it lies over; cables that lie over each
/// other in a circle make a tangle, which is lifted as one.
/// </summary>
/// <remarks>
/// Linear in cables and in what they lie over, but for the sorting of names. What lies over or under a cable that is not of the set is
/// passed over.
/// </remarks>
public sealed class LiesOverGraph
{
    private readonly FrozenDictionary<string, int> _liftOf;

    private LiesOverGraph(ImmutableArray<Cable> cables, Func<string, Cable?> find)
    {
        var numbers = new Dictionary<string, int>(cables.Length, StringComparer.Ordinal);
        for (var cable = 0; cable < cables.Length; cable++) numbers[cables[cable].Id] = cable;
        var arrows = new List<(int Over, int Under)>();
        for (var over = 0; over < cables.Length; over++)
        {
            foreach (var name in cables[over].LiesOver)
            {
                if (find(name.Value) is { } under && numbers.TryGetValue(under.Id, out var below) && below != over)
                    arrows.Add((over, below));
            }
        }

        var lifts = StronglyConnectedComponents.Find(DirectedGraph.Create(cables.Length, arrows));
        Lifts =
        [
            .. Enumerable.Range(0, cables.Length).GroupBy(cable => lifts[cable]).OrderBy(lift => lift.Key)
                .Select(lift => new PullGroup([.. lift.Select(cable => cables[cable])])),
        ];
        _liftOf = numbers.ToFrozenDictionary(number => number.Key, number => lifts[number.Value], StringComparer.Ordinal);
        Down = DirectedGraph.Create(
            Lifts.Length,
            [.. arrows.Select(arrow => (lifts[arrow.Over], lifts[arrow.Under])).Where(arrow => arrow.Item1 != arrow.Item2).Distinct()]);
    }

    /// <summary>What is lifted at one go, each a cable or a tangle, by the ordinally first id in it.</summary>
    public ImmutableArray<PullGroup> Lifts { get; }

    /// <summary>The tangles, by the ordinally first id in each.</summary>
    public IEnumerable<PullGroup> Cycles => Lifts.Where(lift => lift.IsCycle);

    /// <summary>The order in which they can come out: what lies over others before them; ties by id.</summary>
    public ImmutableArray<PullGroup> TopFirst => [.. Down.Sorted().Select(lift => Lifts[lift])];

    /// <summary>The order in which they can be laid back: what lies under others before them; ties by id.</summary>
    public ImmutableArray<PullGroup> LowestFirst => [.. Down.Reversed().Sorted().Select(lift => Lifts[lift])];

    /// <summary>From each lift to those that it lies over, by their numbers in <see cref="Lifts"/>; without circles.</summary>
    internal DirectedGraph Down { get; }

    /// <summary>Which cable lies over which, among all cables that stand.</summary>
    public static LiesOverGraph From(ArchiveModel record) => From(record, record.Cables.Where(cable => !cable.IsWithdrawn));

    /// <summary>Which cable lies over which, among some cables.</summary>
    /// <param name="record">The record, where former ids are looked up.</param>
    /// <param name="cables">The cables, each once, in any order.</param>
    public static LiesOverGraph From(ArchiveModel record, IEnumerable<Cable> cables) =>
        new([.. cables.OrderBy(cable => cable.Id, StringComparer.Ordinal)], record.Find<Cable>);

    /// <summary>The lift that a cable is part of.</summary>
    /// <returns>Null for a cable that is not of the set.</returns>
    public PullGroup? With(string cable) => _liftOf.TryGetValue(cable, out var lift) ? Lifts[lift] : null;
}

/// <summary>What is lifted at one go: a cable, or a tangle of several.</summary>
/// <param name="Cables">Its cables, by id; never empty.</param>
public sealed record PullGroup(ImmutableArray<Cable> Cables)
{
    /// <summary>Whether it is a tangle: cables that lie over each other in a circle.</summary>
    public bool IsCycle => Cables.Length > 1;

    /// <summary>The ordinally first id in it, which names it.</summary>
    public string Id => Cables[0].Id;
}
