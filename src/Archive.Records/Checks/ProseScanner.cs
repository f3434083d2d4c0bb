using System.Buffers;
using Archive.Diagnostics;

namespace Archive.Records.Checks;

/// <summary>
/// Goes through prose exactly as typed, line by line, and tells code from words: code in fences, and code that is indented.
/// </summary>
/// <remarks>
/// As CommonMark 0.31.2 has it: indented code is four columns deeper than what it stands in (sections 4.4, 5.2) and never goes on
/// a paragraph. Not a parser: a line is judged by the lists that are open and by whether a paragraph is. Linear.
/// Markdig, which renders prose in Markup, is not used here, for two reasons. A diagnostic needs its place in the file, and Markdig sees
/// the text only after YAML has taken away indents, folds and escapes. And its time can grow with the square of a hostile text (ProseLimits
/// in Markup), so text beyond those limits, in which mentions are checked today, would go unchecked.
/// </remarks>
internal sealed class ProseScanner
{
    private const int CodeIndent = 4;

    // Quotes and lists within each other that are gone into: prose that is nested deeper is not read as Markdown.
    private const int DeepestNesting = 128;

    private static readonly SearchValues<char> Bullets = SearchValues.Create("-+*");

    // Columns at which the content of the lists that are open stands, the outermost first.
    private readonly List<int> _items = [];
    private bool _isParagraph;

    // Quotes that the last line stands in.
    private int _quotes;
    private string? _fence;

    private ProseScanner()
    {
    }

    /// <summary>The stretches of words: an inline never crosses from one to another.</summary>
    /// <param name="prose">Where the text stands.</param>
    public static List<(int Start, int End)> Stretches(SourceSpan prose)
    {
        var text = prose.Source.Text;
        var (start, margin) = Margin(prose);
        var lines = new ProseScanner();
        var stretches = new List<(int Start, int End)>();
        var words = start;
        for (var line = start; line < prose.End;)
        {
            var next = text.IndexOf('\n', line, prose.End - line);
            next = next < 0 ? prose.End : next + 1;
            if (!lines.HoldsWords(text.AsSpan(line, next - line), margin))
            {
                if (words < line) stretches.Add((words, line));
                words = next;
            }

            line = next;
        }

        if (words < prose.End) stretches.Add((words, prose.End));
        return stretches;
    }

    // Where the lines begin, and at which column. Only of a block text does YAML keep what its lines are indented by: of others null.
    private static (int Start, int? Margin) Margin(SourceSpan prose)
    {
        var text = prose.Source.Text.AsSpan(prose.Start, prose.Length);
        if (Path.GetExtension(prose.Source.Path) is not (".yaml" or ".yml")) return (prose.Start, 0);
        var head = text.IndexOf('\n') + 1;
        if (head == 0 || text[0] is not ('|' or '>')) return (prose.Start, null);
        var margin = int.MaxValue;
        foreach (var line in text[head..].EnumerateLines())
        {
            var indent = line.IndexOfAnyExcept(' ');
            if (indent >= 0) margin = Math.Min(margin, indent);
        }

        return (prose.Start + head, margin);
    }

    private bool HoldsWords(ReadOnlySpan<char> line, int? margin)
    {
        if (line.IsWhiteSpace())
        {
            _isParagraph = false;
            _quotes = 0;
            return false;
        }

        var column = -margin ?? 0;
        if (_fence is null && margin is not null && IsIndentedCode(ref line, ref column)) return false;
        var content = line.Trim();
        if (_fence is not null)
        {
            if (content.StartsWith(_fence) && content.Trim(_fence[0]).IsEmpty) _fence = null;
            return false;
        }

        _fence = FenceAt(content);
        _isParagraph = _fence is null && !content.IsEmpty && !IsRule(content) && !IsHeading(content);
        return _fence is null;
    }

    // Takes away what opens quotes and items of lists, so that what stands in them is left.
    private bool IsIndentedCode(ref ReadOnlySpan<char> line, ref int column)
    {
        var isFirst = true;
        var quotes = 0;
        for (var marks = 0; marks < DeepestNesting; marks++)
        {
            var indent = Indent(line, column, out var blanks);
            if (isFirst && !_isParagraph) Leave(indent);
            var depth = indent - (_items.Count > 0 ? _items[^1] : 0);
            if (depth >= CodeIndent && blanks < line.Length) return !_isParagraph;
            var rest = line[blanks..];
            var marker = IsRule(rest.Trim()) || (isFirst && _isParagraph && _quotes == 0 && depth >= 0 && GoesOn(rest))
                ? 0
                : MarkerAt(rest);
            if (isFirst && (marker > 0 || Interrupts(rest.Trim()))) Leave(indent);
            if (marker == 0) break;
            isFirst = false;
            line = rest[marker..];
            column = indent + marker;
            _isParagraph &= rest[0] == '>' && quotes < _quotes;
            if (rest[0] == '>')
            {
                quotes++;
                Quote(ref line, ref column);
            }
            else
            {
                _items.Add(ContentAt(line, column));
            }
        }

        if (!_isParagraph) _quotes = quotes;
        return false;
    }

    private void Leave(int indent)
    {
        while (_items.Count > 0 && indent < _items[^1]) _items.RemoveAt(_items.Count - 1);
    }

    // What is quoted is behind the mark and one blank.
    private static void Quote(ref ReadOnlySpan<char> line, ref int column)
    {
        if (line.Length == 0 || line[0] != ' ') return;
        line = line[1..];
        column++;
    }

    // Where an item's content stands: behind the blanks; where these make code, or nothing is there, behind the first of them.
    private static int ContentAt(ReadOnlySpan<char> rest, int column)
    {
        var content = Indent(rest, column, out var blanks);
        return blanks == rest.Length || content - column > CodeIndent ? column + 1 : content;
    }

    private static int Indent(ReadOnlySpan<char> line, int column, out int blanks)
    {
        for (blanks = 0; blanks < line.Length && line[blanks] is ' ' or '\t' or '\r' or '\n'; blanks++)
        {
            column = line[blanks] == '\t' && column >= 0 ? column + CodeIndent - (column % CodeIndent) : column + 1;
        }

        return column;
    }

    // The length of what opens a quote or an item of a list; 0 where nothing does.
    private static int MarkerAt(ReadOnlySpan<char> line)
    {
        if (line.IsEmpty) return 0;
        if (line[0] == '>') return 1;
        var digits = Math.Max(line.IndexOfAnyExceptInRange('0', '9'), 0);
        var length = Bullets.Contains(line[0]) ? 1 : digits is > 0 and < 10 && line[digits] is '.' or ')' ? digits + 1 : 0;
        return length > 0 && (length == line.Length || char.IsWhiteSpace(line[length])) ? length : 0;
    }

    // A list begins within a paragraph's lines only with a bullet or 1, and with something behind it: a line may begin with a year and a
    // dot.
    private static bool GoesOn(ReadOnlySpan<char> line) =>
        MarkerAt(line) is > 0 and var marker
            && line[0] != '>'
            && (line[marker..].IsWhiteSpace() || (char.IsAsciiDigit(line[0]) && line[..(marker - 1)] is not "1"));

    private static bool Interrupts(ReadOnlySpan<char> content) =>
        !content.IsEmpty && (IsRule(content) || IsHeading(content) || FenceAt(content) is not null);

    private static bool IsRule(ReadOnlySpan<char> content) =>
        !content.IsEmpty
            && content[0] is '-' or '*' or '_' or '='
            && content.Count(content[0]) >= (content[0] == '=' ? 1 : 3)
            && content.IndexOfAnyExcept(content[0], ' ', '\t') < 0;

    private static bool IsHeading(ReadOnlySpan<char> content)
    {
        var level = content.IndexOfAnyExcept('#');
        return content[0] == '#' && level is < 0 or (> 0 and < 7) && (level < 0 || content[level] is ' ' or '\t');
    }

    private static string? FenceAt(ReadOnlySpan<char> line)
    {
        if (line.Length < 3 || line[0] is not ('`' or '~')) return null;
        var length = line.IndexOfAnyExcept(line[0]);
        if (length < 0) length = line.Length;
        return length < 3 || (line[0] == '`' && line[length..].Contains('`')) ? null : line[..length].ToString();
    }
}
