using System.Runtime.InteropServices;

namespace Archive.Search.Shards;

/// <summary>
/// Cuts a sorted list into shards. A range that is too large for one is cut in its middle half, where its sides have least in common, so
/// that few beginnings reach over the cut; among such places the texts themselves decide, by a checksum. So where a cut is depends on what
/// is near it: one more entry seldom moves a cut, and never those far from it.
/// </summary>
internal sealed class ShardCuts
{
    private readonly IReadOnlyList<string> _looks;
    private readonly long[] _sums;
    private readonly int _limit;
    private readonly List<int> _firsts = [0];

    private ShardCuts(IReadOnlyList<string> looks, IReadOnlyList<int> sizes, int limit)
    {
        (_looks, _limit) = (looks, limit);
        _sums = new long[looks.Count + 1];
        for (var i = 0; i < looks.Count; i++) _sums[i + 1] = _sums[i] + sizes[i];
    }

    /// <summary>Cuts a list.</summary>
    /// <param name="looks">What the entries are sorted by, in ordinal order; entries of one look stay together.</param>
    /// <param name="sizes">How much room each takes.</param>
    /// <param name="limit">How much room a shard has; one look may need more.</param>
    /// <returns>Where each shard begins; the first at 0.</returns>
    internal static List<int> Find(IReadOnlyList<string> looks, IReadOnlyList<int> sizes, int limit)
    {
        var cuts = new ShardCuts(looks, sizes, limit);
        cuts.Cut(0, looks.Count);
        return cuts._firsts;
    }

    /// <summary>How many letters two texts have in common at their beginning.</summary>
    internal static int Common(string a, string b) => a.AsSpan().CommonPrefixLength(b);

    private void Cut(int from, int to)
    {
        var size = _sums[to] - _sums[from];
        if (size <= _limit) return;
        var (first, last) = (At(_sums[from] + (size / 4)), At(_sums[to] - (size / 4)));
        var cut = Best(Math.Max(first, from + 1), Math.Min(last, to - 1));

        // One look fills the middle: it is cut off where it begins or ends.
        if (cut < 0) cut = Nearest(from, to, At(_sums[from] + (size / 2)));
        if (cut < 0) return;
        Cut(from, cut);
        _firsts.Add(cut);
        Cut(cut, to);
    }

    // The first entry that begins there or later.
    private int At(long sum) => Array.BinarySearch(_sums, sum) is var found && found < 0 ? ~found : found;

    private int Best(int first, int last)
    {
        var (best, least, lowest) = (-1, int.MaxValue, uint.MaxValue);
        for (var i = first; i <= last; i++)
        {
            if (!IsPossible(i)) continue;
            var common = Common(_looks[i - 1], _looks[i]);
            if (common > least) continue;
            var checksum = Checksum(_looks[i].AsSpan(0, common + 1));
            if (common == least && checksum >= lowest) continue;
            (best, least, lowest) = (i, common, checksum);
        }

        return best;
    }

    private int Nearest(int from, int to, int middle)
    {
        for (var step = 0; middle - step > from || middle + step < to; step++)
        {
            if (middle - step > from && middle - step < to && IsPossible(middle - step)) return middle - step;
            if (middle + step < to && middle + step > from && IsPossible(middle + step)) return middle + step;
        }

        return -1;
    }

    private bool IsPossible(int i) => Common(_looks[i - 1], _looks[i]) < _looks[i].Length;

    // FNV-1a (RFC 9923), over UTF-16 units as bytes: it spreads evenly, which is all that is asked of it.
    private static uint Checksum(ReadOnlySpan<char> text)
    {
        var sum = 2166136261u;
        foreach (var unit in MemoryMarshal.AsBytes(text)) sum = (sum ^ unit) * 16777619u;
        return sum;
    }
}
