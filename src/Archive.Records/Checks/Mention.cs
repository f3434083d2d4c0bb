using Archive.Diagnostics;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>A link in prose: <c>[[ID]]</c> or <c>[[ID|text]]</c>.</summary>
/// <param name="Name">What stands for the id, and where.</param>
internal readonly record struct Mention(Stated<string> Name)
{
    private static readonly char[] Brackets = ['[', ']'];

    /// <summary>
    /// Finds the links of a text exactly as typed. Code spans, fenced and indented code and brackets behind a backslash are no links.
    /// </summary>
    /// <param name="prose">Where the text stands.</param>
    /// <remarks>Works on the typed text, not the value, so that places are exact in whichever YAML style it is written. Linear.</remarks>
    public static IEnumerable<Mention> In(SourceSpan prose)
    {
        var text = prose.Source.Text;
        if (text.IndexOf("[[", prose.Start, prose.Length, StringComparison.Ordinal) < 0) yield break;
        foreach (var (start, end) in ProseScanner.Stretches(prose))
        {
            var ticks = LastRuns(text, start, end);
            for (var i = start; i < end; i++)
            {
                if (text[i] == '\\') i++;
                else if (text[i] == '`') i = EndOfCode(text, i, end, ticks) - 1;
                else if (text[i] == '[' && ReadAt(prose.Source, i, end) is { } mention)
                {
                    yield return mention;
                    i = mention.Name.Span.End;
                }
            }
        }
    }

    // Where the last run of so many backticks begins: what opens a code span behind it is never closed.
    private static Dictionary<int, int> LastRuns(string text, int start, int end)
    {
        var last = new Dictionary<int, int>();
        for (var at = text.IndexOf('`', start, end - start); at >= 0;)
        {
            var run = RunAt(text, at, end);
            last[run] = at;
            at = text.IndexOf('`', at + run, end - at - run);
        }

        return last;
    }

    private static int EndOfCode(string text, int start, int end, Dictionary<int, int> ticks)
    {
        var length = RunAt(text, start, end);
        if (ticks.GetValueOrDefault(length, -1) <= start) return start + length;
        for (var i = start + length; i < end; i++)
        {
            if (text[i] != '`') continue;
            var run = RunAt(text, i, end);
            if (run == length) return i + run;
            i += run - 1;
        }

        return start + length;
    }

    private static int RunAt(string text, int start, int end)
    {
        var i = start;
        while (i < end && text[i] == '`') i++;
        return i - start;
    }

    private static Mention? ReadAt(SourceText source, int open, int end)
    {
        var text = source.Text;
        if (open + 1 >= end || text[open + 1] != '[') return null;
        var stop = text.AsSpan(open + 2, end - open - 2).IndexOfAny("[]|\n");
        if (stop < 0) return null;
        stop += open + 2;
        var closes = text[stop] == '|' ? text.IndexOfAny(Brackets, stop, end - stop) : stop;
        if (closes < 0 || closes + 1 >= end || text[closes] != ']' || text[closes + 1] != ']') return null;
        var written = text.AsSpan(open + 2, stop - open - 2);
        var name = written.Trim();
        if (name.IsEmpty) return null;
        var span = new SourceSpan(source, open + 2 + (written.Length - written.TrimStart().Length), name.Length);
        return new Mention(new Stated<string>(name.ToString(), span));
    }
}
