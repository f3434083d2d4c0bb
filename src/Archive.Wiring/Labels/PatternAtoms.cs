namespace Archive.Wiring.Labels;

// The parts of a pattern that take one glyph each, wherever they stand: `^(?<row>\d\d)-[A-F]$` has `\d`, `-` and `[A-F]`.
internal static class PatternAtoms
{
    // Null for a pattern with options of its own, such as (?i): what its atoms take is not what they say. The library has compiled it before.
    internal static IReadOnlyCollection<string>? Parse(string pattern)
    {
        // `$` looks at a line's end, `\b` at letters.
        var atoms = new SortedSet<string>(StringComparer.Ordinal) { @"\n" };
        for (var at = 0; at < pattern.Length;)
        {
            var end = at + 1;
            switch (pattern[at])
            {
                case '\\':
                    end = EndOfEscape(pattern, at);
                    if (AtomOf(pattern[at..end]) is { } escape) atoms.Add(escape);
                    break;
                case '[':
                    end = EndOfClass(pattern, at);
                    atoms.Add(pattern[at..end]);
                    break;
                case '(':
                    end = EndOfOpening(pattern, at);
                    if (end < 0) return null;
                    break;
                case '{':
                    end = EndOfCount(pattern, at);
                    if (end == at + 1) atoms.Add(@"\{");
                    break;
                case ')' or '|' or '*' or '+' or '?' or '^' or '$':
                    break;
                default:
                    atoms.Add(pattern[at..end]);
                    break;
            }

            at = end;
        }

        return atoms;
    }

    private static string? AtomOf(string escape) => escape switch
    {
        @"\b" or @"\B" => @"\w",
        @"\A" or @"\z" or @"\Z" or @"\G" => null,
        _ => escape,
    };

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
        return count.Length > 0 && char.IsAsciiDigit(count[0]) && count.All(letter => char.IsAsciiDigit(letter) || letter == ',') ? close + 1 : open + 1;
    }
}
