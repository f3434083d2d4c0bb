using System.Buffers;
using Archive.Diagnostics.Rendering;

namespace Archive.Markup.Text;

/// <summary>Turns text into HTML that shows it, in element content and in quoted attributes alike.</summary>
/// <remarks>
/// <c>&amp; &lt; &gt; " '</c> become references. What HTML forbids (control characters, noncharacters; HTML Standard, 13.2.3.5), and what
/// would reorder the page around it, is made visible.
/// </remarks>
public static class HtmlEscaping
{
    private const string Specials = "&<>\"'";
    private static readonly SearchValues<char> Special = SearchValues.Create(Specials);

    // Most text and most markup holds nothing else: one look tells.
    private static readonly SearchValues<char> PlainMarkup = SearchValues.Create(Plain());
    private static readonly SearchValues<char> PlainText = SearchValues.Create([.. Plain().Except(Specials)]);

    /// <summary>The text escaped.</summary>
    public static string Html(string text)
    {
        if (!text.AsSpan().ContainsAnyExcept(PlainText)) return text;
        if (text.AsSpan().IndexOfAny(Special) < 0 && !VisibleText.IsHarmful(text)) return text;
        var html = new System.Text.StringBuilder(text.Length + 32);
        Each(text, html, static (html, part) => html.Append(part));
        return html.ToString();
    }

    /// <summary>Hands out the escaped text in parts.</summary>
    /// <typeparam name="T">What takes the parts.</typeparam>
    /// <param name="to">Where the parts go.</param>
    /// <param name="part">Takes a part.</param>
    public static void Each<T>(ReadOnlySpan<char> text, T to, Action<T, ReadOnlySpan<char>> part)
    {
        if (!text.ContainsAnyExcept(PlainText)) part(to, text);
        else VisibleText.Each(text, (to, part), static (all, stretch) => Harmless(stretch, all.to, all.part), static (all, sign) =>
            Harmless(sign, all.to, all.part));
    }

    /// <summary>
    /// Hands out finished markup in parts: what it holds is not escaped once more, but nothing harmful comes through, no matter who let it
    /// in.
    /// </summary>
    /// <typeparam name="T">What takes the parts.</typeparam>
    /// <param name="markup">Markup, of templates too.</param>
    /// <param name="to">Where the parts go.</param>
    /// <param name="part">Takes a part.</param>
    public static void EachOfMarkup<T>(ReadOnlySpan<char> markup, T to, Action<T, ReadOnlySpan<char>> part)
    {
        if (!markup.ContainsAnyExcept(PlainMarkup)) part(to, markup);
        else VisibleText.Each(
            markup, (to, part), static (all, stretch) => all.part(all.to, stretch), static (all, sign) => Harmless(sign, all.to, all.part));
    }

    // Printable ASCII, tabs and line ends.
    private static string Plain() => string.Concat(Enumerable.Range(' ', '~' - ' ' + 1).Select(code => (char)code)) + "\t\n\r";

    private static void Harmless<T>(ReadOnlySpan<char> text, T to, Action<T, ReadOnlySpan<char>> part)
    {
        for (var at = text.IndexOfAny(Special); at >= 0; at = text.IndexOfAny(Special))
        {
            if (at > 0) part(to, text[..at]);
            part(to, Reference(text[at]));
            text = text[(at + 1)..];
        }

        if (text.Length > 0) part(to, text);
    }

    private static string Reference(char special) => special switch
    {
        '&' => "&amp;",
        '<' => "&lt;",
        '>' => "&gt;",
        '"' => "&quot;",
        _ => "&#39;",
    };
}
