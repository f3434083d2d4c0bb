namespace Archive.Diagnostics;

/// <summary>Finds the known name that an unknown one was probably meant to be.</summary>
public static class NearestName
{
    /// <summary>The known name with the least edit distance, if it is near enough to be worth saying.</summary>
    /// <param name="name">The unknown name.</param>
    /// <param name="known">The known names; ties go to the ordinally first.</param>
    /// <returns>The name, or null where none is within a third of the longer name's length (at least one edit).</returns>
    /// <remarks>Optimal string alignment distance, letter case ignored but counted as a tie-break. Cost: letters of name x letters of all known.</remarks>
    public static string? Of(string name, IEnumerable<string> known)
    {
        string? best = null;
        var bestDistance = int.MaxValue;
        if (name.Length > 64) return null;
        foreach (var candidate in known)
        {
            var limit = Math.Max(1, Math.Max(name.Length, candidate.Length) / 3);
            if (candidate.Length > 128 || Math.Abs(candidate.Length - name.Length) > Math.Min(limit, bestDistance / 2)) continue;
            var distance = 2 * Distance(name, candidate);
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
    public static int Distance(string a, string b)
    {
        Span<int> before = stackalloc int[b.Length + 1], above = stackalloc int[b.Length + 1], row = stackalloc int[b.Length + 1];
        for (var j = 0; j <= b.Length; j++) above[j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var same = Same(a[i - 1], b[j - 1]);
                row[j] = Math.Min(Math.Min(row[j - 1], above[j]) + 1, above[j - 1] + (same ? 0 : 1));
                if (i > 1 && j > 1 && Same(a[i - 1], b[j - 2]) && Same(a[i - 2], b[j - 1])) row[j] = Math.Min(row[j], before[j - 2] + 1);
            }

            var spare = before;
            before = above;
            above = row;
            row = spare;
        }

        return above[b.Length];

        static bool Same(char x, char y) => char.ToLowerInvariant(x) == char.ToLowerInvariant(y);
    }
}
