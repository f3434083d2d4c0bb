using System.Text;

namespace Archive.Markup.Text;

/// <summary>
/// Text in which ids stay whole: a browser breaks lines behind a hyphen, and <c>C-</c> at the end of a line, <c>1435</c> on the next, is no
/// id.
/// </summary>
public static class UnbrokenIds
{
    // What is longer than this would stand out of a narrow column.
    private const int Longest = 24;

    /// <summary>The text as markup, with what looks like an id, a hyphen before a digit in it, in an element that does not break.</summary>
    public static HtmlFragment In(string text)
    {
        if (text.AsSpan().IndexOf('-') < 0) return HtmlFragment.Encode(text);
        var html = new StringBuilder(text.Length + 64);
        for (var at = 0; at < text.Length;)
        {
            var end = text.IndexOf(' ', at);
            if (end < 0) end = text.Length;
            var word = text.AsSpan(at, end - at);
            var bare = word.TrimEnd(".,;:!?)”’\"'");
            if (IsId(bare)) html.Append("<span class=\"unbroken\">")
                .Append(HtmlEscaping.Html(bare.ToString()))
                .Append("</span>")
                .Append(HtmlEscaping.Html(word[bare.Length..].ToString()));
            else html.Append(HtmlEscaping.Html(word.ToString()));
            if (end < text.Length) html.Append(' ');
            at = end + 1;
        }

        return new HtmlFragment(html.ToString());
    }

    private static bool IsId(ReadOnlySpan<char> word)
    {
        if (word.Length is < 3 or > Longest) return false;
        var hyphen = word.IndexOf('-');
        return hyphen > 0 && hyphen + 1 < word.Length && char.IsAsciiDigit(word[hyphen + 1]) && char.IsAsciiLetterOrDigit(word[0]);
    }
}
