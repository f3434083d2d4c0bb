using System.Collections.Immutable;
using Archive.SchemeSearch.Labels;

namespace Archive.SchemeSearch.Structures;

/// <summary>Reads a stretch of a label as pieces, and takes letters for figures where the print was misread.</summary>
internal static class LabelPieceReader
{
    /// <param name="groups">Receives the text of each piece that is a group, corrected.</param>
    /// <param name="misread">Receives each character that was taken for another, as typed and as meant.</param>
    /// <returns>Whether the stretch has these pieces.</returns>
    internal static bool Read(string text, ImmutableArray<LabelPiece> pieces, List<string> groups, List<(char Typed, char Meant)> misread)
    {
        var at = 0;
        Span<char> corrected = stackalloc char[text.Length];
        for (var index = 0; index < pieces.Length; index++)
        {
            var piece = pieces[index];
            var width = piece.Width > 0 ? piece.Width : WidthOf(text, at, pieces, index);
            if (width < 1 || at + width > text.Length) return false;
            for (var offset = 0; offset < width; offset++)
            {
                var typed = text[at + offset];
                var meant = piece.Kind switch
                {
                    GlyphKind.Figures => Glyphs.AsFigure(typed),
                    GlyphKind.Letters => Glyphs.AsLetter(typed),
                    GlyphKind.Constant => piece.Text[offset] == Glyphs.AsLetter(typed) ? piece.Text[offset] : '\0',
                    _ => typed,
                };
                if (meant == '\0') return false;
                if (meant != typed) misread.Add((typed, meant));
                corrected[offset] = meant;
            }

            if (piece.IsGroup) groups.Add(new string(corrected[..width]));
            at += width;
        }

        return at == text.Length;
    }

    // A piece of no fixed width takes what its kind allows, and leaves what the next pieces of figures need.
    private static int WidthOf(string text, int at, ImmutableArray<LabelPiece> pieces, int index)
    {
        var isFigures = pieces[index].Kind == GlyphKind.Figures;
        var end = at;
        while (end < text.Length && (isFigures ? Glyphs.AsFigure(text[end]) != '\0' : Glyphs.IsLetter(text[end]))) end++;
        var needed = 0;
        if (isFigures)
        {
            for (var next = index + 1; next < pieces.Length && pieces[next].Kind == GlyphKind.Figures; next++) needed += pieces[next].Width;
        }

        return end - at - needed;
    }
}
