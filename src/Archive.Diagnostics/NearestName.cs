namespace Archive.Diagnostics;

/// <summary>Finds the known name that an unknown one was probably meant to be.</summary>
public static class NearestName
{
    // Longer names than ids may be are not worth a guess.
    private const int Longest = 64;

    /// <summary>The known name with the least edit distance, if it is near enough to be worth saying.</summary>
    /// <param name="name">The unknown name.</param>
    /// <param name="known">The known names; ties go to the ordinally first.</param>
    /// <returns>The name, or null where none is within a third of the longer name's length (at least one edit).</returns>
    /// <remarks>
    /// Optimal string alignment distance, letter case ignored but counted as a tie-break. Cost: letters of name x letters of all known.
    /// </remarks>
    public static string? Find(string name, IEnumerable<string> known)
    {
        string? best = null;
        var bestDistance = 2 * Longest; // Twice the distance, so that a difference of case alone can count half.
        if (name.Length > Longest) return null;
        foreach (var candidate in known)
        {
            var limit = Math.Max(1, Math.Max(name.Length, candidate.Length) / 3);
            if (candidate.Length > Longest || Math.Abs(candidate.Length - name.Length) > Math.Min(limit, bestDistance / 2)) continue;
            limit = Math.Min(limit, (bestDistance + 1) / 2);
            var distance = 2 * Distance(name, candidate, limit);
            if (distance > 2 * limit) continue;
            if (!string.Equals(name, candidate, StringComparison.Ordinal) && distance == 0) distance = 1;
            if (distance < bestDistance || (distance == bestDistance && string.CompareOrdinal(candidate, best) < 0))
            {
                best = candidate;
                bestDistance = distance;
            }
        }

        return best;
    }

    /// <summary>Optimal string alignment distance, letter case ignored.</summary>
    /// <param name="a">One name.</param>
    /// <param name="b">The other.</param>
    /// <returns>Number of insertions, deletions, substitutions and swaps of neighbours.</returns>
    public static int Distance(string a, string b) => Distance(a, b, int.MaxValue);

    // Gives up, with a number above the limit, as soon as no way is within it.
    private static int Distance(string a, string b, int limit)
    {
        Span<char> x = stackalloc char[a.Length], y = stackalloc char[b.Length];
        a.AsSpan().ToLowerInvariant(x);
        b.AsSpan().ToLowerInvariant(y);
        Span<int> before = stackalloc int[b.Length + 1], above = stackalloc int[b.Length + 1], row = stackalloc int[b.Length + 1];
        for (var j = 0; j <= y.Length; j++) above[j] = j;
        for (var i = 1; i <= x.Length; i++)
        {
            row[0] = i;
            var least = i;
            for (var j = 1; j <= y.Length; j++)
            {
                row[j] = Math.Min(Math.Min(row[j - 1], above[j]) + 1, above[j - 1] + (x[i - 1] == y[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && x[i - 1] == y[j - 2] && x[i - 2] == y[j - 1]) row[j] = Math.Min(row[j], before[j - 2] + 1);
                least = Math.Min(least, row[j]);
            }

            // A swap reaches back two rows at the cost of one, so one more than the limit is not yet too many.
            if (least > limit + 1L) return least;
            var spare = before;
            before = above;
            above = row;
            row = spare;
        }

        return above[y.Length];
    }
}
