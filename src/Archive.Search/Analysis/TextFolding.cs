using System.Globalization;
using System.Text;
using Lucene.Net.Analysis.Miscellaneous;

namespace Archive.Search.Analysis;

/// <summary>
/// The first step of every analysis: lower case, no accents. <c>search-words.js</c> folds alike; a test compares the two over every letter.
/// </summary>
internal static class TextFolding
{
    /// <summary>
    /// Lower case, Latin letters without accents; one apostrophe for all; marks that stand apart from their letter are dropped.
    /// </summary>
    public static string Fold(string text)
    {
        if (Ascii.IsValid(text)) return text.ToLowerInvariant();
        var folded = new StringBuilder(text.Length + 8);
        var (input, output) = (new char[1], new char[4]);
        foreach (var letter in text)
        {
            var lower = letter == 'İ' ? 'i' : char.ToLowerInvariant(letter);
            if (lower is >= '\u0300' and <= '\u036F') continue;
            if (!IsFolded(lower))
            {
                folded.Append(lower switch { '\u2019' or '\u02BC' => '\'', 'ς' => 'σ', _ => lower });
                continue;
            }

            input[0] = lower;
            var length = ASCIIFoldingFilter.FoldToASCII(input, 0, output, 0, 1);
            for (var i = 0; i < length; i++) folded.Append(char.ToLowerInvariant(output[i])); // Lucene folds ǧ to G
        }

        return folded.ToString();
    }

    /// <summary>What stands between blanks, folded.</summary>
    public static IEnumerable<string> Chunks(string text)
    {
        var folded = Fold(text);
        for (var i = 0; i < folded.Length;)
        {
            while (i < folded.Length && IsBlank(folded[i])) i++;
            var start = i;
            while (i < folded.Length && !IsBlank(folded[i])) i++;
            if (i > start) yield return folded[start..i];
        }
    }

    // Latin with accents, ligatures, full-width letters and digits, raised digits: where Lucene's folding and a browser's decomposition
    // agree, a short table aside.
    private static bool IsFolded(char lower) => lower is '²' or '³' or '¹' or (>= '\u00C0' and <= '\u024F') or (>= '\u1E00' and <= '\u1EFF')
        or (>= '\uFB00' and <= '\uFB04') or '\uFB06' or (>= '\uFF10' and <= '\uFF19') or (>= '\uFF41' and <= '\uFF5A');

    /// <summary>
    /// Whether a character belongs to a word: a letter, a mark upon one, a decimal digit. Nothing beyond the first 65,536 does.
    /// </summary>
    /// <param name="letter">A UTF-16 unit.</param>
    public static bool IsInside(char letter) => char.IsAscii(letter)
        ? char.IsAsciiLetterOrDigit(letter)
        : char.IsLetterOrDigit(letter) || char.GetUnicodeCategory(
            letter) is UnicodeCategory.NonSpacingMark or UnicodeCategory.SpacingCombiningMark or UnicodeCategory.EnclosingMark;

    private static bool IsBlank(char letter) => char.IsWhiteSpace(letter) || letter == '\uFEFF';
}
