namespace Archive.Search.Analysis;

/// <summary>Words that are one slip apart.</summary>
internal static class Misspelling
{
    /// <summary>
    /// Whether two words are at most one edit apart: a letter more, less or other, or two neighbours changed (optimal string alignment).
    /// </summary>
    /// <param name="a">A word.</param>
    /// <param name="b">Another.</param>
    public static bool IsNear(ReadOnlySpan<char> a, ReadOnlySpan<char> b)
    {
        if (Math.Abs(a.Length - b.Length) > 1) return false;
        var common = a.CommonPrefixLength(b);
        var (endA, endB) = (a.Length, b.Length);
        while (endA > common && endB > common && a[endA - 1] == b[endB - 1]) (endA, endB) = (endA - 1, endB - 1);
        return (endA - common <= 1 && endB - common <= 1)
            || (endA - common == 2 && endB - common == 2 && a[common] == b[common + 1] && a[common + 1] == b[common]);
    }

    /// <summary>Whether two words of prose are near: one edit apart, or doubled in other letters, such as <c>anntena</c>.</summary>
    /// <param name="a">A word.</param>
    /// <param name="b">Another.</param>
    public static bool AreWordsNear(string a, string b) => IsNear(a, b) || string.Equals(Single(a), Single(b), StringComparison.Ordinal);

    // Letters that follow each other once each.
    private static string Single(string word) => string.Concat(word.Where((letter, i) => i == 0 || letter != word[i - 1]));
}
