using System.Text;
using Lucene.Net.Analysis.Miscellaneous;

namespace Archive.Site;

/// <summary>
/// Cuts text into the terms it is found by. The browser's script does the same with what is typed (<c>search.js</c>): a change here
/// is a change there.
/// </summary>
/// <remarks>
/// A word is what stands between blanks. It is lower-cased, its accents are folded, its punctuation dropped. A code such as
/// <c>R2-05/S7/J14</c> is found whole and from each of its parts on, with or without punctuation and leading zeros: terms are
/// <c>r205s7j14</c>, <c>05s7j14</c>, <c>s7j14</c>, <c>j14</c>, and <c>r25s7j14</c>, <c>5s7j14</c>. The search matches beginnings of terms.
/// </remarks>
public static class SearchTerms
{
    private const int LongestTerm = 40;
    private const int MostParts = 12;

    /// <summary>The terms of a text, in order, repeated where they repeat.</summary>
    /// <param name="text">Any text.</param>
    public static IEnumerable<string> Of(string text)
    {
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            var parts = Parts(Fold(word));
            for (var from = 0; from < parts.Count; from++)
            {
                var whole = Join(parts, from, strip: false);
                if (whole.Length > 0) yield return whole;
                var bare = Join(parts, from, strip: true);
                if (bare.Length > 0 && bare != whole) yield return bare;
            }
        }
    }

    /// <summary>Lower case without accents.</summary>
    /// <param name="word">A word.</param>
    public static string Fold(string word)
    {
        var lower = word.ToLowerInvariant();
        if (Ascii.IsValid(lower)) return lower;
        var input = lower.ToCharArray();
        var output = new char[4 * input.Length];
        var length = ASCIIFoldingFilter.FoldToASCII(input, 0, output, 0, input.Length);
        return new string(output, 0, length).ToLowerInvariant();
    }

    // Letters and digits between punctuation; a new part begins also where a letter follows a digit: 07J14 is 07 and J14.
    private static List<string> Parts(string word)
    {
        var parts = new List<string>(4);
        var start = -1;
        for (var i = 0; i <= word.Length && parts.Count < MostParts; i++)
        {
            var inside = i < word.Length && char.IsLetterOrDigit(word[i]);
            var turns = inside && start >= 0 && char.IsLetter(word[i]) && char.IsDigit(word[i - 1]);
            if (start >= 0 && (!inside || turns))
            {
                parts.Add(word[start..i]);
                start = -1;
            }

            if (inside && start < 0) start = i;
        }

        return parts;
    }

    private static string Join(List<string> parts, int from, bool strip)
    {
        var joined = new StringBuilder();
        for (var i = from; i < parts.Count && joined.Length < LongestTerm; i++)
        {
            joined.Append(strip ? Archive.Records.LeadingZeros.Strip(parts[i]) : parts[i]);
        }

        return joined.Length > LongestTerm ? joined.ToString(0, LongestTerm) : joined.ToString();
    }
}
