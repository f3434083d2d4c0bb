namespace Archive.Wiring.Labels;

/// <summary>What a part of a pattern is.</summary>
internal enum PatternPartKind
{
    /// <summary>Takes one character.</summary>
    Atom,

    /// <summary><c>\b</c> or <c>\B</c>: takes none, but looks at letters.</summary>
    Boundary,

    /// <summary>Opens a group.</summary>
    Opening,

    /// <summary>Closes a group.</summary>
    Closing,

    /// <summary>How often what stands before it comes: <c>{3}</c>, <c>*</c>, <c>+</c>, <c>?</c>.</summary>
    Count,

    /// <summary>Parts alternatives.</summary>
    Or,

    /// <summary>Options of its own, such as <c>(?i)</c>; with a colon at its end it opens a group.</summary>
    Options,
}

// Takes a regular expression apart that the library has compiled before. Anchors and comments are left out.
internal static class PatternParts
{
    internal static IEnumerable<(PatternPartKind Kind, int Start, int End)> Of(string pattern)
    {
        for (var at = 0; at < pattern.Length;)
        {
            var start = at;
            at++;
            switch (pattern[start])
            {
                case '\\':
                    at = EndOfEscape(pattern, start);
                    if (pattern[start..at] is @"\b" or @"\B") yield return (PatternPartKind.Boundary, start, at);
                    else if (pattern[start..at] is not (@"\A" or @"\z" or @"\Z" or @"\G")) yield return (PatternPartKind.Atom, start, at);
                    break;
                case '[':
                    at = EndOfClass(pattern, start);
                    yield return (PatternPartKind.Atom, start, at);
                    break;
                case '(' when EndOfOpening(pattern, start) is var opening:
                    at = opening >= 0 ? opening : EndOfOptions(pattern, start);
                    if (opening < 0 || pattern[at - 1] != ')')
                        yield return (opening < 0 ? PatternPartKind.Options : PatternPartKind.Opening, start, at);
                    break;
                case ')':
                    yield return (PatternPartKind.Closing, start, at);
                    break;
                case '{':
                    at = EndOfCount(pattern, start);
                    yield return (at == start + 1 ? PatternPartKind.Atom : PatternPartKind.Count, start, at);
                    break;
                case '|':
                    yield return (PatternPartKind.Or, start, at);
                    break;
                case '*' or '+' or '?':
                    yield return (PatternPartKind.Count, start, at);
                    break;
                case '^' or '$':
                    break;
                default:
                    yield return (PatternPartKind.Atom, start, at);
                    break;
            }
        }
    }

    // `(?i)` ends with its parenthesis, `(?i:` opens a group.
    private static int EndOfOptions(string pattern, int open)
    {
        var end = pattern.AsSpan(open).IndexOfAny(')', ':');
        return end < 0 ? pattern.Length : open + end + 1;
    }

    private static int EndOfEscape(string pattern, int at)
    {
        if (at + 1 >= pattern.Length) return pattern.Length;
        var digits = at + 1;
        while (digits < pattern.Length && digits < at + 4 && pattern[digits] is >= '0' and <= '7') digits++;
        return Math.Min(pattern.Length, pattern[at + 1] switch
        {
            'p' or 'P' => pattern.IndexOf('}', at) + 1,
            'x' => at + 4,
            'u' => at + 6,
            'c' => at + 3,
            >= '0' and <= '7' => digits,
            _ => at + 2,
        });
    }

    // A bracket at the first place stands for itself; one after a dash opens a class to be subtracted.
    private static int EndOfClass(string pattern, int open)
    {
        var at = open + 1;
        if (at < pattern.Length && pattern[at] == '^') at++;
        if (at < pattern.Length && pattern[at] == ']') at++;
        while (at < pattern.Length && pattern[at] != ']')
        {
            at = pattern[at] == '\\' ? at + 2
                : pattern[at] == '[' && pattern[at - 1] == '-' ? EndOfClass(pattern, at)
                : at + 1;
        }

        return Math.Min(pattern.Length, at + 1);
    }

    private static int EndOfOpening(string pattern, int open)
    {
        if (open + 2 >= pattern.Length || pattern[open + 1] != '?') return open + 1;
        return pattern[open + 2] switch
        {
            ':' => open + 3,
            '<' => pattern.IndexOf('>', open) + 1,
            '\'' => pattern.IndexOf('\'', open + 3) + 1,
            '#' => pattern.IndexOf(')', open) + 1,
            _ => -1,
        };
    }

    // A brace that opens no count stands for itself.
    private static int EndOfCount(string pattern, int open)
    {
        var close = pattern.IndexOf('}', open);
        var count = close < 0 ? "" : pattern[(open + 1)..close];
        return count.Length > 0 && char.IsAsciiDigit(count[0]) && count.All(letter => char.IsAsciiDigit(letter) || letter == ',')
            ? close + 1
            : open + 1;
    }
}
