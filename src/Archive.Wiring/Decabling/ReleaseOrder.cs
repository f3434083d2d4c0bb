namespace Archive.Wiring.Decabling;

/// <summary>
/// Orders work so that groups are released early: the least sum, over the groups, of the time until the last of their work is done.
/// </summary>
/// <remarks>
/// <para>
/// Scheduling on one machine with precedence to the least weighted sum of completions, 1|prec|Σ w C, where only the groups have weight: an
/// order is then settled by the order in which groups are released, for each draws in what is left of its work and of what must come before
/// that. For few groups that order is found exactly, by dynamic programming over sets of groups (after Held and Karp, <i>A dynamic
/// programming approach to sequencing problems</i>, 1962): what a set of groups takes does not depend on their order. The problem is hard
/// for many (Lawler, 1978): then the group that takes least comes next, and windows of neighbours are set exactly until nothing is gained.
/// </para>
/// <para>Few is <see cref="MostExact"/>. Memory is linear in nodes, arrows and groups; a window costs 2^<see cref="Window"/> steps.</para>
/// </remarks>
internal sealed class ReleaseOrder
{
    /// <summary>Up to so many groups the order is exact.</summary>
    public const int MostExact = 18;

    /// <summary>How many neighbours are set exactly at a time where there are more.</summary>
    public const int Window = 10;

    private const int MostPasses = 8;
    private const int MostCandidates = 24;

    private readonly WorkState _work;
    private readonly int[][] _groups;
    private readonly int[] _masks;
    private readonly List<int> _touched = [];
    private readonly List<int> _found = [];

    private ReleaseOrder(WorkState work, int[][] groups)
    {
        (_work, _groups) = (work, groups);
        _masks = new int[work.Nodes];
    }

    /// <summary>Orders what the groups need.</summary>
    /// <param name="work">What is to be done; what the groups need is done afterwards.</param>
    /// <param name="groups">For each group, its nodes.</param>
    /// <param name="mostExact">Up to how many groups the order is exact.</param>
    /// <returns>Nodes in order, each behind those that must come before it.</returns>
    public static List<int> Compute(WorkState work, int[][] groups, int mostExact = MostExact)
    {
        var order = new ReleaseOrder(work, groups);
        var groupsInOrder = groups.Length <= mostExact
            ? order.Exact([.. Enumerable.Range(0, groups.Length)])
            : order.Improved(order.Greedy());
        return [.. groupsInOrder.SelectMany(group => work.Do(groups[group]))];
    }

    private int[] Exact(int[] groups)
    {
        if (groups.Length < 2) return groups;
        for (var at = 0; at < groups.Length; at++)
        {
            _found.Clear();
            _work.Left(_groups[groups[at]], long.MaxValue, _found);
            foreach (var node in _found)
            {
                if (_masks[node] == 0) _touched.Add(node);
                _masks[node] |= 1 << at;
            }
        }

        // What is needed by no group but those of a set, summed over sets: then what a set takes is all but what its complement alone
        // needs.
        var alone = new long[1 << groups.Length];
        foreach (var node in _touched) alone[_masks[node]] += _work.Time(node);
        foreach (var node in _touched) _masks[node] = 0;
        _touched.Clear();
        return [.. GroupSets.LeastSum(alone, groups.Length).Select(at => groups[at])];
    }

    private int[] Improved(int[] order)
    {
        for (var pass = 0; pass < MostPasses; pass++)
        {
            var mark = _work.Mark;
            var before = order.ToArray();
            for (var from = 0; from < order.Length; from += Window / 2)
            {
                var window = order.AsSpan(from, Math.Min(Window, order.Length - from));
                Exact(window.ToArray()).CopyTo(window);
                foreach (var group in window[..Math.Min(Window / 2, window.Length)]) _work.Do(_groups[group]);
            }

            _work.GoBack(mark);
            if (order.AsSpan().SequenceEqual(before)) break;
        }

        return order;
    }

    // The group that takes least with all that must come before it, over and over. What its own nodes take is a bound from below, kept up
    // to date.
    private int[] Greedy()
    {
        var mark = _work.Mark;
        var queue = new GroupQueue(_work, _groups);
        var order = new int[_groups.Length];
        var candidates = new List<int>();
        for (var at = 0; at < order.Length; at++)
        {
            queue.Take(MostCandidates, candidates);
            var least = Least(candidates);
            foreach (var other in candidates.Where(other => other != least)) queue.Return(other);
            queue.Done(_work.Do(_groups[least]));
            order[at] = least;
        }

        _work.GoBack(mark);
        return order;
    }

    // Looks no deeper into what candidates need than twice what the least of them takes.
    private int Least(List<int> candidates)
    {
        if (candidates.Count == 1) return candidates[0];
        for (var limit = Math.Max(1, _work.TimeOf(_groups[candidates[0]])); ; limit = limit > long.MaxValue / 2 ? long.MaxValue : limit * 2)
        {
            var (least, best) = (limit, -1);
            foreach (var group in candidates)
            {
                _found.Clear();
                if (_work.Left(_groups[group], least, _found) is not { } time || (best >= 0 && time >= least)) continue;
                (least, best) = (time, group);
            }

            if (best >= 0) return best;
        }
    }
}
