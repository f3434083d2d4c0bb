namespace Archive.SchemeSearch.Labels;

/// <summary>Letters and figures that are commonly mistaken for each other on prints (common practice, no source).</summary>
internal static class Glyphs
{
    private const string Letters = "OoQDIliZzSGB";

    internal static bool IsFigure(char glyph) => char.IsAsciiDigit(glyph);

    internal static bool IsLetter(char glyph) => char.IsLetter(glyph);

    /// <summary>The figure that a letter may be.</summary>
    /// <returns>The character itself where it is a figure; 0 where it is like none.</returns>
    internal static char AsFigure(char glyph)
    {
        if (IsFigure(glyph)) return glyph;
        var at = Letters.IndexOf(glyph, StringComparison.Ordinal);
        return at < 0 ? '\0' : FigureAt(at);
    }

    /// <summary>The letter that a figure may be.</summary>
    /// <returns>The character itself where it is a letter; 0 where it is like none.</returns>
    internal static char AsLetter(char glyph) => IsLetter(glyph)
        ? glyph
        : glyph switch { '0' => 'O', '1' => 'I', '2' => 'Z', '5' => 'S', '6' => 'G', '8' => 'B', _ => '\0' };

    private static char FigureAt(int at) => at switch
    {
        < 4 => '0',
        < 7 => '1',
        < 9 => '2',
        9 => '5',
        10 => '6',
        _ => '8',
    };
}
