using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Records.Reading.Syntax;

/// <summary>
/// Finds the `#` that may have cut a value short: to YAML a `#` behind a space begins a comment, so that <c>ROW 3 #12</c> without quotes
/// is only <c>ROW 3</c>.
/// </summary>
/// <remarks>
/// Comments behind values are good style, so only two things are suspected: text that follows the `#` directly (<c>ROW 3 #12</c>), and,
/// in what is copied from a thing, a single space before it (<c>ROW 3 # 12</c>). YAML style guides ask for two spaces before a
/// comment and one after its `#` (common practice, no source): anyone who writes like this is never warned.
/// </remarks>
internal static class CommentInValue
{
    /// <summary>The rest of the line from the `#` on; null where nothing seems to be lost.</summary>
    /// <param name="exactness">How much each letter of the value counts.</param>
    public static SourceSpan? Find(ScalarNode value, Exactness exactness)
    {
        if (value.Form != ScalarNotation.Plain) return null;
        var (text, end) = (value.Span.Source.Text, value.Span.End);
        var mark = end;
        while (mark < text.Length && text[mark] is ' ' or '\t') mark++;
        if (mark == end || mark >= text.Length || text[mark] != '#') return null;
        var comment = RestOfLine(value.Span.Source, mark);
        var isSuspect = IsDirect(comment.Text) || (exactness == Exactness.Copy && mark == end + 1 && comment.Length > 1);
        return isSuspect ? comment : null;
    }

    /// <summary>
    /// The `#` that has cut off what was to close a bracket: the first on a line behind something else, with a comma or a closing bracket
    /// after it.
    /// </summary>
    /// <param name="from">Where the bracket opens.</param>
    /// <param name="to">Where it is known not to be closed.</param>
    public static SourceSpan? InBracket(SourceText source, int from, int to)
    {
        var text = source.Text;
        var quote = '\0';
        var isLineBlank = false;
        for (var at = from; at < Math.Min(to, text.Length); at++)
        {
            var letter = text[at];
            if (quote != '\0')
            {
                if (letter == '\\' && quote == '"') at++;
                else if (letter == quote) quote = '\0';
                continue;
            }

            if (letter == '\n') isLineBlank = true;
            else if (letter == '#' && at > 0 && text[at - 1] is ' ' or '\t')
            {
                var comment = RestOfLine(source, at);
                if (!isLineBlank && comment.Text.AsSpan().IndexOfAny(",]}") >= 0) return comment;
                at = comment.End - 1;
            }
            else if (letter is '"' or '\'' && (at == 0 || text[at - 1] is ' ' or ',' or '[' or '{' or ':')) quote = letter;
            else if (!char.IsWhiteSpace(letter)) isLineBlank = false;
        }

        return null;
    }

    /// <param name="comment">What <see cref="Find"/> found behind the value.</param>
    public static Diagnostic Report(ScalarNode value, SourceSpan comment, string key, Exactness exactness) =>
        (exactness != Exactness.Loose ? DiagnosticDescriptors.CommentInExactValue : DiagnosticDescriptors.CommentInText).At(
            comment,
            $"`#` begins a comment here, so that `{Quotation.Shorten(key)}` is only `{value.Short}`",
            exactness == Exactness.Loose || !IsDirect(comment.Text)
                ? QuoteAll(comment)
                : "put the whole value in quotes; if this is a comment, write two spaces before `#` and one after it");

    /// <summary>How to keep what is behind the `#`, or show that it is a comment.</summary>
    public static string QuoteAll(SourceSpan comment) => IsDirect(comment.Text)
        ? "put the whole value in quotes; if this is a comment, write a space after `#`"
        : "put the whole value in quotes; if this is a comment, write two spaces before `#`";

    // Lines of signs part files into sections; no one writes them behind a value for their own sake.
    private static bool IsDirect(string comment) =>
        comment.Length > 1 && !char.IsWhiteSpace(comment[1]) && comment[1] is not ('#' or '-' or '=' or '*');

    private static SourceSpan RestOfLine(SourceText source, int from)
    {
        var length = source.Text.AsSpan(from).IndexOfAny('\r', '\n');
        if (length < 0) length = source.Text.Length - from;
        return new SourceSpan(source, from, source.Text.AsSpan(from, length).TrimEnd().Length);
    }
}
