using System.Text;

namespace Archive.Architecture.Tests.PlainEnglish;

/// <summary>
/// Finds the string literals of C# source: plain, verbatim, raw and interpolated. What an interpolated string fills in is blanked out, and
/// the literals in it are found as texts of their own. Comments, characters and preprocessor lines are passed over.
/// </summary>
public static class CSharpStrings
{
    private const char Filled = '·';

    /// <summary>The literals, with the line on which each begins.</summary>
    public static IReadOnlyList<(int Line, string Text)> In(string source) =>
        [.. Find(source).OrderBy(text => text.At).Select(text => (1 + source.AsSpan(0, text.At).Count('\n'), text.Text))];

    /// <summary>
    /// Where the literals begin and end, quotes included. Those in a hole of an interpolated string are inside its own range.
    /// </summary>
    public static IEnumerable<(int Begin, int End)> Spans(string source) => Find(source).Select(text => (text.At, text.End));

    private static List<(int At, int End, string Text)> Find(string source)
    {
        var found = new List<(int At, int End, string Text)>();
        Code(source, 0, isHole: false, found);
        return found;
    }

    // Reads code to its end, or, in a hole of an interpolated string, to the brace that closes it.
    private static int Code(string source, int at, bool isHole, List<(int At, int End, string Text)> found)
    {
        for (var depth = 0; at < source.Length;)
        {
            if (source.AsSpan(at).StartsWith("//"))
            {
                at = End(source, "\n", at);
            }
            else if (source.AsSpan(at).StartsWith("/*"))
            {
                at = End(source, "*/", at + 2);
            }
            else if (source[at] == '\'')
            {
                at = source.IndexOf('\'', source[at + 1] == '\\' ? at + 3 : at + 2) + 1;
            }
            else if (Opening(source, at) is { } opening)
            {
                at = Literal(source, at, opening, found);
            }
            else if (isHole && source[at] == '}' && depth == 0)
            {
                return at + 1;
            }
            else
            {
                depth += source[at] switch { '{' => 1, '}' => -1, _ => 0 };
                at++;
            }
        }

        return at;
    }

    private static (bool IsVerbatim, int Dollars, int Quotes, int Length)? Opening(string source, int at)
    {
        var next = at;
        var (isVerbatim, dollars) = (false, 0);
        for (; next < source.Length && source[next] is '$' or '@'; next++)
        {
            if (source[next] == '$') dollars++;
            else isVerbatim = true;
        }

        if (next >= source.Length || source[next] != '"') return null;
        var quotes = source.AsSpan(next).IndexOfAnyExcept('"') is var run and >= 0 ? run : source.Length - next;
        var isRaw = !isVerbatim && quotes >= 3;
        return (isVerbatim, dollars, isRaw ? quotes : 1, next - at + (isRaw ? quotes : 1));
    }

    private static int Literal(
        string source,
        int begin,
        (bool IsVerbatim, int Dollars, int Quotes, int Length) opening,
        List<(int At, int End, string Text)> found)
    {
        var (text, closing, braces) = (new StringBuilder(), new string('"', opening.Quotes), new string('{', Math.Max(1, opening.Dollars)));
        var isRaw = opening.Quotes >= 3;
        var at = begin + opening.Length;
        while (at < source.Length)
        {
            var rest = source.AsSpan(at);
            if (rest.StartsWith(closing) && !(opening.IsVerbatim && rest.StartsWith("\"\""))) break;
            if (!isRaw && !opening.IsVerbatim && source[at] == '\\')
            {
                text.Append(source[at + 1] == 'n' ? '\n' : source[at + 1]);
                at += 2;
            }
            else if (opening.IsVerbatim && rest.StartsWith("\"\""))
            {
                text.Append('"');
                at += 2;
            }
            else if (opening.Dollars > 0 && rest.StartsWith(braces) && (isRaw || !rest.StartsWith("{{")))
            {
                at = Code(source, at + braces.Length, isHole: true, found) + braces.Length - 1;
                text.Append(Filled);
            }
            else
            {
                text.Append(source[at]);
                at += !isRaw && opening.Dollars > 0 && (rest.StartsWith("{{") || rest.StartsWith("}}")) ? 2 : 1;
            }
        }

        found.Add((begin, at + opening.Quotes, text.ToString()));
        return at + opening.Quotes;
    }

    private static int End(string source, string mark, int from) =>
        source.IndexOf(mark, from, StringComparison.Ordinal) is var end and >= 0 ? end + mark.Length : source.Length;
}
