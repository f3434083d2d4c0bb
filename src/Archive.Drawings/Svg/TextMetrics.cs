namespace Archive.Drawings.Svg;

/// <summary>Which part of a text stands at its point.</summary>
internal enum TextAnchor
{
    /// <summary>Its beginning.</summary>
    Start,

    Middle,

    End,
}

/// <summary>
/// How much room letters take. Widths are those of the theme's own font where it is widest, so that what is set is narrower, as are the
/// usual sans serifs.
/// </summary>
public static class TextMetrics
{
    /// <summary>
    /// Height of the letters of a drawing in units: 10 px are 2.6 mm on paper, where 2.5 mm is a usual height of technical lettering (ISO
    /// 3098), and 9 px of a phone.
    /// </summary>
    internal const double Usual = 10;

    /// <summary>The least size that is still read in print.</summary>
    internal const double Least = 8;

    /// <summary>Width of a text.</summary>
    /// <param name="text">One line.</param>
    /// <param name="size">Size of type in units.</param>
    public static double Width(string text, double size)
    {
        var ems = 0.0;
        foreach (var rune in text.EnumerateRunes()) ems += Advance(rune.Value);
        return size * ems;
    }

    /// <summary>
    /// The text, or as many of its words as fit with an ellipsis behind; of a first word that is too long, its beginning; empty where not
    /// even three letters fit. Half a word would be read as another: what is seen in a link is what it is called (WCAG 2.5.3).
    /// </summary>
    internal static string Cut(string text, double size, double width)
    {
        if (Width(text, size) <= width) return text;
        var room = width - Width("…", size);
        var kept = new System.Text.StringBuilder();
        foreach (var rune in text.EnumerateRunes())
        {
            room -= size * Advance(rune.Value);
            if (room < 0) break;
            kept.Append(rune);
        }

        var cut = kept.ToString();
        var isWhole = cut.Length < text.Length && text[cut.Length] == ' ';
        if (!isWhole && cut.LastIndexOf(' ') is var space and > 0) cut = cut[..space];
        return cut.Length < 3 ? string.Empty : cut.TrimEnd(' ', ',', ';', '(') + "…";
    }

    /// <summary>
    /// The text on two lines where one does not hold it: as many words as fit, then the rest, cut as <see cref="Cut"/> cuts.
    /// </summary>
    internal static (string First, string Second) InTwo(string text, double size, double width)
    {
        if (Width(text, size) <= width) return (text, string.Empty);
        var at = text.Length;
        while (at > 0 && Width(text[..at], size) > width) at = text.LastIndexOf(' ', at - 1);
        return at <= 0 ? (Cut(text, size, width), string.Empty) : (text[..at], Cut(text[(at + 1)..], size, width));
    }

    /// <summary>As many words as fit, and the rest; a word longer than the line is cut.</summary>
    internal static (string First, string After) Split(string text, double size, double width)
    {
        if (Width(text, size) <= width) return (text, "");
        var at = text.Length;
        while (at > 0 && Width(text[..at], size) > width) at = text.LastIndexOf(' ', at - 1);
        return at <= 0 ? (Cut(text, size, width), "") : (text[..at], text[(at + 1)..]);
    }

    /// <summary>A text on as many lines as it takes, at most so many; the last is cut as <see cref="Cut"/> cuts.</summary>
    internal static IEnumerable<string> Lines(string text, double size, double width, int most)
    {
        for (var line = 1; line <= most && text.Length > 0; line++)
        {
            var (first, after) = line == most ? (Cut(text, size, width), "") : Split(text, size, width);
            if (first.Length > 0) yield return first;
            text = after;
        }
    }

    // Advance widths in ems, after Atkinson Hyperlegible Next in bold (measured in Chromium), rounded up by class; scripts that stand in a
    // square take one em, pictures more.
    private static double Advance(int rune) => rune switch
    {
        'i' or 'j' or 'l' or '.' or ',' or ':' or ';' or '\'' or '|' or '!' or ' ' => 0.32,
        '-' or '(' or ')' or '/' or '[' or ']' or 'f' or 't' or 'r' or 'I' => 0.44,
        'm' or 'M' or 'W' or '@' or '%' or '…' or '—' => 0.97,
        'w' or (>= 'A' and <= 'Z' and not 'J') => 0.76,
        >= 'a' and <= 'z' or 'J' => 0.6,
        < 0x2000 => 0.66,
        < 0x1F000 => 1.0,
        _ => 1.4,
    };
}
