using System.Buffers;

namespace Archive.Markup.Prose;

/// <summary>
/// What prose may hold and still be read as Markdown. The parser's time grows with the square of marks that open and never close, of
/// emphasis in one paragraph, and of columns by rows in a table; a text that a person wrote is far from each of these limits.
/// </summary>
/// <remarks>
/// One pass over the text, which is not parsed: a mark counts as closed where what closes it stands on the same line, with nothing of its
/// kind between.
/// </remarks>
internal static class ProseLimits
{
    /// <summary>Letters of a text: a thick book.</summary>
    internal const int MostLetters = 1 << 20;

    // In one paragraph, list or table: up to a blank line.
    private const int MostOpen = 100;
    private const int MostEmphasis = 200;

    // In the whole text.
    private const int MostUnderlined = 1000;

    private const int LongestWord = 2000;
    private const int LongestTicks = 50;
    private const int MostColumns = 100;

    // Blanks before the words of a line, among the marks of quotes and lists.
    private const int DeepestIndent = 100;

    // Cells that rows leave out and the parser puts in, beyond as many as there are.
    private const int SpareCells = 100;

    private static readonly SearchValues<char> BeforeWords = SearchValues.Create(" \t>-+*0123456789.)");
    private static readonly SearchValues<char> Marks = SearchValues.Create("[<*_`|");

    /// <summary>The first thing that is beyond a limit.</summary>
    /// <returns>Where it stands and what it is, for a sentence; null for prose that can be read.</returns>
    internal static (int Start, string What)? Exceeded(string markdown)
    {
        if (markdown.Length > MostLetters) return (MostLetters, $"a text of more than {MostLetters} letters");
        int open = 0, emphasis = 0, underlined = 0, columns = 0, rows = 0, cells = 0;
        for (var at = 0; at < markdown.Length;)
        {
            var end = markdown.AsSpan(at).IndexOfAny('\r', '\n') is >= 0 and var length ? at + length : markdown.Length;
            var line = markdown.AsSpan(at, end - at);
            if (line.IsWhiteSpace())
            {
                open = emphasis = columns = rows = cells = 0;
            }
            else
            {
                if (LongWord(line) is >= 0 and var word) return (at + word, $"a word of more than {LongestWord} letters");
                if (Indent(line) > DeepestIndent) return (at, $"a line indented by more than {DeepestIndent} spaces");
                var seen = Count(line);
                (open, emphasis) = (open + seen.Open, emphasis + seen.Emphasis);
                if (open > MostOpen) return (at, $"more than {MostOpen} brackets or other marks in one paragraph that are never closed");
                if (emphasis > MostEmphasis) return (at, $"more than {MostEmphasis} marks of emphasis in one paragraph");
                if (seen.Ticks > LongestTicks) return (at, $"more than {LongestTicks} backticks in a row");
                if (line.TrimStart().StartsWith("=") || line.TrimStart().StartsWith("-"))
                    underlined += line.IndexOfAnyExcept("=- \t") < 0 ? 1 : 0;
                if (underlined > MostUnderlined) return (at, $"more than {MostUnderlined} underlined headings");
                (columns, rows, cells) = (Math.Max(columns, seen.Pipes + 1), rows + 1, cells + seen.Pipes + 1);
                if (columns > MostColumns) return (at, $"a table of more than {MostColumns} columns");
                if ((long)columns * rows > (2L * cells) + SpareCells) return (at, "a table with more cells missing than present");
            }

            at = end + 1;
        }

        return null;
    }

    private static (int Open, int Emphasis, int Ticks, int Pipes) Count(ReadOnlySpan<char> line)
    {
        int open = 0, emphasis = 0, ticks = 0, pipes = 0;
        for (var at = line.IndexOfAny(Marks); at >= 0;)
        {
            var rest = line[at..];
            var run = 1;
            while (run < rest.Length && rest[run] == rest[0]) run++;
            var taken = run;
            switch (rest[0])
            {
                case '|':
                    pipes += run;
                    break;
                case '*' or '_':
                    if (!StandsApart(line, at, run)) emphasis++;
                    break;
                case '`':
                    ticks = Math.Max(ticks, run);
                    var closing = run <= LongestTicks ? rest[run..].IndexOf(rest[..run]) : -1;
                    if (closing < 0) open++;
                    else taken = closing + (2 * run);
                    break;
                case '<':
                    taken = 1;
                    if (rest.Length > 1 && rest[1] is not ' ' && !IsClosed(rest, '<', '>')) open++;
                    break;
                default:
                    taken = Bracket(rest, ref open);
                    break;
            }

            var next = line[(at + taken)..].IndexOfAny(Marks);
            at = next < 0 ? -1 : at + taken + next;
        }

        return (open, emphasis, ticks, pipes);
    }

    // Between two letters, or between two blanks, no underscore and no star is a mark.
    private static bool StandsApart(ReadOnlySpan<char> line, int at, int run)
    {
        var before = at == 0 ? ' ' : line[at - 1];
        var behind = at + run >= line.Length ? ' ' : line[at + run];
        return (char.IsWhiteSpace(before) && char.IsWhiteSpace(behind))
            || (line[at] == '_' && char.IsLetterOrDigit(before) && char.IsLetterOrDigit(behind));
    }

    private static bool IsClosed(ReadOnlySpan<char> rest, char open, char close) =>
        rest[1..].IndexOfAny(open, close) is >= 0 and var at && rest[1 + at] == close;

    // `[[id]]`, `[words]` and `[words](address)` are closed; what a bracket leads to is no more than the next mark.
    private static int Bracket(ReadOnlySpan<char> rest, ref int open)
    {
        var from = rest.StartsWith("[[") ? 2 : 1;
        var close = rest[from..].IndexOfAny('[', ']');
        if (close < 0 || rest[from + close] == '[')
        {
            open++;
            return 1;
        }

        var behind = from + close + 1;
        if (from == 2 || behind >= rest.Length || rest[behind] is not ('(' or '[' or ':')) return behind;
        if (rest[behind] != '(' || !IsClosed(rest[behind..], '(', ')')) open++;
        return behind;
    }

    private static int Indent(ReadOnlySpan<char> line)
    {
        var words = line.IndexOfAnyExcept(BeforeWords);
        var blanks = 0;
        foreach (var letter in words < 0 ? line.TrimEnd() : line[..words]) blanks += letter is ' ' or '\t' ? 1 : 0;
        return blanks;
    }

    private static int LongWord(ReadOnlySpan<char> line)
    {
        for (var at = 0; line.Length - at > LongestWord;)
        {
            var blank = line.Slice(at, LongestWord + 1).LastIndexOfAny(' ', '\t');
            if (blank < 0) return at;
            at += blank + 1;
        }

        return -1;
    }
}
