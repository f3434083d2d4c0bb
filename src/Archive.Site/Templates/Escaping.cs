using System.Buffers;

namespace Archive.Site;

/// <summary>Turns text into HTML that shows it, in element content and in quoted attributes alike.</summary>
/// <remarks>
/// <c>&amp; &lt; &gt; " '</c> become references. Code points that HTML forbids (control characters, noncharacters; HTML Standard, 13.2.3.5)
/// are shown as U+FFFD, for a page that holds them is not valid.
/// </remarks>
internal static class Escaping
{
    private static readonly SearchValues<char> Special = SearchValues.Create(SpecialCharacters());

    /// <summary>The text escaped.</summary>
    /// <param name="text">Any text.</param>
    public static string Html(string text)
    {
        if (text.AsSpan().IndexOfAny(Special) < 0) return text;
        var html = new System.Text.StringBuilder(text.Length + 32);
        Each(text, html, static (html, part) => html.Append(part));
        return html.ToString();
    }

    /// <summary>Hands out the escaped text in parts.</summary>
    /// <typeparam name="T">What takes the parts.</typeparam>
    /// <param name="text">Any text.</param>
    /// <param name="to">Where the parts go.</param>
    /// <param name="part">Takes a part.</param>
    public static void Each<T>(ReadOnlySpan<char> text, T to, Action<T, ReadOnlySpan<char>> part)
    {
        while (text.Length > 0)
        {
            var at = text.IndexOfAny(Special);
            if (at < 0)
            {
                part(to, text);
                return;
            }

            if (at > 0) part(to, text[..at]);
            part(to, Reference(text[at]));
            text = text[(at + 1)..];
        }
    }

    private static string Reference(char special) => special switch
    {
        '&' => "&amp;",
        '<' => "&lt;",
        '>' => "&gt;",
        '"' => "&quot;",
        '\'' => "&#39;",
        _ => "\uFFFD",
    };

    private static string SpecialCharacters()
    {
        var forbidden = Enumerable.Range(0, 0xFFFF + 1).Select(code => (char)code)
            .Where(c => (char.IsControl(c) && c is not ('\t' or '\n' or '\r')) || c is >= '\uFDD0' and <= '\uFDEF' or '\uFFFE' or '\uFFFF');
        return "&<>\"'" + string.Concat(forbidden);
    }
}
