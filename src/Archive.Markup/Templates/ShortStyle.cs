using System.Text;

namespace Archive.Markup.Templates;

/// <summary>
/// A style sheet without its comments and without blanks that mean nothing (CSS Syntax Level 3, consumed as tokens): strings and
/// addresses stay as they are, and so does a blank that may be a combinator. The library for scripts cannot do it: it does not know the
/// newer syntax of selectors and of media queries.
/// </summary>
internal static class ShortStyle
{
    private const string NeedsNoBlankAfter = "{};,(:";
    private const string NeedsNoBlankBefore = "{};,)";

    internal static string Of(string style)
    {
        var text = new StringBuilder(style.Length);
        var (isBlankDue, isEscaped) = (false, false);
        bool NeedsBlank() => text.Length > 0 && (isEscaped || !NeedsNoBlankAfter.Contains(text[^1], StringComparison.Ordinal));
        for (var i = 0; i < style.Length;)
        {
            if (char.IsWhiteSpace(style[i]))
            {
                (isBlankDue, i) = (true, i + 1);
                continue;
            }

            var end = EndOfToken(style, i);
            if (IsComment(style, i) && !style.AsSpan(i).StartsWith("/*!"))
            {
                // It keeps apart what it stands between.
                var isBetween = !isBlankDue && NeedsBlank()
                    && end < style.Length && !char.IsWhiteSpace(style[end])
                    && !NeedsNoBlankBefore.Contains(style[end], StringComparison.Ordinal);
                if (isBetween) text.Append("/**/");
                i = end;
                continue;
            }

            if (isBlankDue && NeedsBlank() && !NeedsNoBlankBefore.Contains(style[i], StringComparison.Ordinal)) text.Append(' ');
            if (style[i] == '}' && text.Length > 0 && text[^1] == ';' && !isEscaped) text.Length--;
            text.Append(style, i, end - i);
            (isBlankDue, isEscaped, i) = (false, style[i] == '\\', end);
        }

        return text.Append('\n').ToString();
    }

    private static bool IsComment(string style, int at) => style.AsSpan(at).StartsWith("/*");

    // A comment, a string, an escaped letter or an address without quotes is taken whole; of all else, one character.
    private static int EndOfToken(string style, int at)
    {
        if (IsComment(style, at))
        {
            var closed = style.IndexOf("*/", at + 2, StringComparison.Ordinal);
            return closed < 0 ? style.Length : closed + 2;
        }

        if (style[at] == '\\') return Math.Min(at + 2, style.Length);
        if (style[at] is '"' or '\'')
        {
            var end = at + 1;
            while (end < style.Length && style[end] != style[at]) end += style[end] == '\\' ? 2 : 1;
            return Math.Min(end + 1, style.Length);
        }

        if (!style.AsSpan(at).StartsWith("url(", StringComparison.OrdinalIgnoreCase)) return at + 1;
        var first = style.AsSpan(at + 4).TrimStart();
        if (first.Length > 0 && first[0] is '"' or '\'') return at + 4;
        var close = style.IndexOf(')', at);
        return close < 0 ? style.Length : close + 1;
    }
}
