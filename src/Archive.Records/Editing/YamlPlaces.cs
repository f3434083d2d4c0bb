using Archive.Records.Reading.Syntax;

namespace Archive.Records.Editing;

/// <summary>Where things are in a YAML file, letter by letter.</summary>
internal sealed class YamlPlaces(string text)
{
    /// <summary>The file's own line end.</summary>
    public string NewLine { get; } = text.AsSpan().IndexOfAny('\r', '\n') switch
    {
        -1 => "\n",
        var at when text[at] == '\n' => "\n",
        var at => at + 1 < text.Length && text[at + 1] == '\n' ? "\r\n" : "\r",
    };

    public int Length => text.Length;

    /// <summary>Whether the text is empty or ends with a line end.</summary>
    public bool EndsWithBreak => text.Length == 0 || text[^1] is '\n' or '\r';

    /// <summary>Whether a list or mapping is in brackets or braces.</summary>
    public bool IsFlow(SyntaxNode node) => node.Span.Start < text.Length && text[node.Span.Start] is '{' or '[';

    public int LineStart(int at)
    {
        while (at > 0 && text[at - 1] is not ('\n' or '\r')) at--;
        return at;
    }

    /// <summary>Where the next line begins, if nothing but blanks and a comment is behind a place.</summary>
    public (int Next, bool HasBreak)? LineEnd(int at)
    {
        var isComment = false;
        for (; at < text.Length; at++)
        {
            if (text[at] is '\n') return (at + 1, true);
            if (text[at] is '\r') return (at + (at + 1 < text.Length && text[at + 1] == '\n' ? 2 : 1), true);
            if (text[at] == '#' && text[at - 1] is ' ' or '\t') isComment = true;
            if (!isComment && text[at] is not (' ' or '\t')) return null;
        }

        return (at, false);
    }

    /// <summary>Whether there are only blanks, and a mark once, between two places.</summary>
    public bool IsBlank(int start, int end, char mark = ' ')
    {
        var seen = false;
        for (var at = start; at < end; at++)
        {
            if (text[at] == mark && mark != ' ' && !seen) seen = true;
            else if (text[at] is not (' ' or '\t' or '\r' or '\n')) return false;
        }

        return true;
    }

    /// <summary>What is before an item in its line: blanks and a dash; null if it is no item at the beginning of a line.</summary>
    public string? DashBefore(SyntaxNode item)
    {
        var start = LineStart(item.Span.Start);
        var lead = text[start..item.Span.Start];
        return lead.TrimEnd(' ').EndsWith('-') && lead.All(letter => letter is ' ' or '-') && lead.Count(letter => letter == '-') == 1
            ? lead
            : null;
    }

    /// <summary>Blanks before the keys of a mapping that is in lines; null if that is unknown.</summary>
    public string? IndentOfMapping(MappingNode node)
    {
        if (IsFlow(node) || node.Entries.IsEmpty) return null;
        var key = node.Entries[0].Key.Span.Start;
        var start = LineStart(key);
        return text[start..key].All(letter => letter is ' ' or '-') ? new string(' ', key - start) : null;
    }

    /// <summary>Blanks before the line that a value is in.</summary>
    public string IndentOf(SyntaxNode node)
    {
        var start = LineStart(node.Span.Start);
        var at = start;
        while (at < text.Length && text[at] is ' ' or '-' && at < node.Span.Start) at++;
        return new string(' ', at - start);
    }

    /// <summary>
    /// Whether a line can follow a value and change nothing of it: not behind a block of lines that keeps its blank lines, or that has no
    /// line end.
    /// </summary>
    public bool EndsPlainly(SyntaxNode node)
    {
        if (node is ScalarNode { Form: ScalarNotation.Block }) return false;
        return node is ListNode { Items: [.., var last] } && !IsFlow(node) ? EndsPlainly(last)
            : node is not MappingNode { Entries: [.., var entry] } || IsFlow(node) || EndsPlainly(entry.Value);
    }

    /// <summary>Whether there is a comment in a value, or there may be one.</summary>
    public static bool HasComment(SyntaxNode node) => node.Span.Text.Contains('#', StringComparison.Ordinal);

    /// <summary>The place behind the colon of a key that has no value.</summary>
    public int? ColonAfter(ScalarNode key)
    {
        var at = key.Span.End;
        while (at < text.Length && text[at] is ' ' or '\t') at++;
        return at < text.Length && text[at] == ':' ? at + 1 : null;
    }

    /// <summary>Whether a blank line is before a record.</summary>
    public bool HasGapBefore(SyntaxNode node)
    {
        var line = LineStart(node.Span.Start);
        if (line == 0) return false;
        var before = LineStart(line - (line > 1 && text[line - 1] == '\n' && text[line - 2] == '\r' ? 2 : 1));
        return IsBlank(before, line);
    }
}
