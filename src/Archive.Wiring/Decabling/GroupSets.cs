using System.Numerics;

namespace Archive.Wiring.Decabling;

/// <summary>Orders few groups exactly, by dynamic programming over their sets.</summary>
internal static class GroupSets
{
    /// <summary>The order of groups with the least sum of times of release.</summary>
    /// <param name="alone">For each set of groups, as bits, the time of what every group of it needs and no other does;
    /// overwritten.</param>
    /// <param name="groups">How many groups.</param>
    /// <returns>Groups in order; of equal orders, one that releases the groups of lower numbers first.</returns>
    /// <remarks>O(groups x 2^groups).</remarks>
    public static int[] LeastSum(long[] alone, int groups)
    {
        var all = alone.Length - 1;
        for (var group = 0; group < groups; group++)
        {
            for (var set = 0; set <= all; set++)
            {
                if ((set >> group & 1) != 0) alone[set] += alone[set ^ (1 << group)];
            }
        }

        var (least, last) = (new long[alone.Length], new byte[alone.Length]);
        for (var set = 1; set <= all; set++)
        {
            var best = long.MaxValue;
            for (var rest = set; rest != 0; rest &= rest - 1)
            {
                var group = BitOperations.TrailingZeroCount(rest);
                if (least[set ^ (1 << group)] > best) continue;
                (best, last[set]) = (least[set ^ (1 << group)], (byte)group);
            }

            least[set] = best + alone[all] - alone[all ^ set];
        }

        return Traced(last, groups);
    }

    private static int[] Traced(byte[] last, int groups)
    {
        var order = new int[groups];
        for (var (set, at) = (last.Length - 1, groups - 1); at >= 0; at--)
        {
            order[at] = last[set];
            set ^= 1 << last[set];
        }

        return order;
    }
}
