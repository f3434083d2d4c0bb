using System.Text;

namespace Archive.Search.Analysis;

/// <summary>
/// Where the archive's codes have punctuation between digits, learned from them: <c>R2-05</c> teaches <c>r9</c>, <c>0205-07J14</c> teaches
/// <c>9999</c>: after that a boundary may be. So <c>020507J14</c> is read as <c>0205-07J14</c> where other codes are written so.
/// </summary>
internal sealed class CodePatterns
{
    /// <summary>Most patterns that are kept: those seen most often.</summary>
    public const int Most = 40;

    private readonly Dictionary<string, int> _seen = new(StringComparer.Ordinal);
    private readonly StringBuilder _pattern = new();

    /// <summary>Learns from a folded chunk that is a code.</summary>
    /// <param name="folded">The chunk.</param>
    public void Learn(string folded)
    {
        if (!HasBoundary(folded)) return;
        var parts = CodeKeys.Parts(folded);
        _pattern.Clear();
        for (var i = 0; i < parts.Count; i++)
        {
            var text = parts[i].Text;
            if (parts[i].IsApart && char.IsAsciiDigit(text[0]) && char.IsAsciiDigit(parts[i - 1].Text[^1]))
            {
                var pattern = _pattern.ToString();
                _seen[pattern] = _seen.GetValueOrDefault(pattern) + 1;
                _pattern.Append('-');
            }

            foreach (var letter in text) _pattern.Append(char.IsAsciiDigit(letter) ? '9' : letter);
        }
    }

    /// <summary>The patterns, longest first.</summary>
    public IEnumerable<string> Kept() =>
        _seen.OrderByDescending(pair => pair.Value).ThenBy(pair => pair.Key, StringComparer.Ordinal).Take(Most)
            .Select(pair => pair.Key).OrderByDescending(pattern => pattern.Length).ThenBy(pattern => pattern, StringComparer.Ordinal);

    /// <summary>
    /// The ways to read a typed chunk: with a boundary where a pattern has one, the longest first, and last as it stands.
    /// </summary>
    /// <param name="folded">A chunk that is a code.</param>
    /// <param name="patterns">Patterns, longest first.</param>
    public static IEnumerable<string> Readings(string folded, IReadOnlyList<string> patterns)
    {
        if (!HasBoundary(folded))
        {
            var joined = string.Concat(CodeKeys.Parts(folded).Select(part => part.Text));
            foreach (var pattern in patterns)
            {
                if (Apart(joined, pattern) is { } apart) yield return apart;
            }
        }

        yield return folded;
    }

    private static string? Apart(string joined, string pattern)
    {
        var apart = new StringBuilder();
        var at = 0;
        foreach (var wanted in pattern)
        {
            if (wanted == '-')
            {
                apart.Append('-');
                continue;
            }

            if (at >= joined.Length || (char.IsAsciiDigit(joined[at]) ? '9' : joined[at]) != wanted) return null;
            apart.Append(joined[at++]);
        }

        return at < joined.Length && char.IsAsciiDigit(joined[at])
            ? apart.Append('-').Append(joined, at, joined.Length - at).ToString()
            : null;
    }

    private static bool HasBoundary(string folded)
    {
        for (var i = 1; i + 1 < folded.Length; i++)
        {
            if (TextFolding.IsInside(folded[i]) || !char.IsAsciiDigit(folded[i - 1])) continue;
            var next = i;
            while (next < folded.Length && !TextFolding.IsInside(folded[next])) next++;
            if (next < folded.Length && char.IsAsciiDigit(folded[next])) return true;
        }

        return false;
    }
}
