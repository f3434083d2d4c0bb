using System.Buffers;
using Archive.Records.Terms;

namespace Archive.Search.Analysis;

/// <summary>
/// Characters that print and handwriting confuse: O and 0; I, l and 1; B and 8; S and 5 (common practice, no source). A key's look is what
/// is left of it when they are not distinguished; codes of the same look lie together in the index, so that a misread one is found where
/// the right one would be.
/// </summary>
internal static class Misreadings
{
    private static readonly SearchValues<char> Confused = SearchValues.Create("oilbs");

    /// <summary>The look of a key: each confused letter as the digit, leading zeros stripped again.</summary>
    /// <param name="key">A key of <see cref="CodeKeys"/>.</param>
    public static string Look(string key)
    {
        if (!key.AsSpan().ContainsAny(Confused)) return key;
        var look = string.Create(key.Length, key, (to, from) =>
        {
            for (var i = 0; i < to.Length; i++) to[i] = Digit(from[i]);
        });
        return key.Contains('o', StringComparison.Ordinal) ? LeadingZeros.Strip(look) : look;
    }

    /// <summary>The letters that may be where a look has a character.</summary>
    /// <param name="digit">A character of a look.</param>
    public static string Letters(char digit) => digit switch { '0' => "0o", '1' => "1il", '8' => "8b", '5' => "5s", _ => digit.ToString() };

    /// <summary>The digit that a letter is confused with; else itself.</summary>
    /// <param name="letter">A character of a key.</param>
    public static char Digit(char letter) => letter switch { 'o' => '0', 'i' or 'l' => '1', 'b' => '8', 's' => '5', _ => letter };
}
