using System.Collections.Frozen;
using Lucene.Net.Analysis.Core;
using Lucene.Net.Tartarus.Snowball.Ext;

namespace Archive.Search.Analysis;

/// <summary>
/// Words of prose as the index keeps them. In English they are stemmed (Snowball's English, as Lucene has it) and Lucene's stop words are
/// left out; in any other language they stand as they are. Not for use by several threads at once: a stemmer has a state, and what it found
/// is remembered.
/// </summary>
/// <param name="isEnglish">Whether the archive's prose is English.</param>
public sealed class ProseWords(bool isEnglish)
{
    private const int MostRemembered = 100_000;
    private readonly EnglishStemmer _stemmer = new();
    private readonly Dictionary<string, string> _stems = new(StringComparer.Ordinal);

    /// <summary>Words too common to tell anything.</summary>
    public static FrozenSet<string> Stops { get; } = StopAnalyzer.ENGLISH_STOP_WORDS_SET.ToFrozenSet(StringComparer.Ordinal);

    /// <summary>Whether prose in a language is stemmed.</summary>
    /// <param name="language">BCP 47 language of the archive.</param>
    public static bool IsEnglish(string? language) =>
        language is null
            || language.Equals("en", StringComparison.OrdinalIgnoreCase)
            || language.StartsWith("en-", StringComparison.OrdinalIgnoreCase);

    /// <summary>
    /// The words of a folded chunk that is no code: what stands between punctuation; an apostrophe within a word is part of it.
    /// </summary>
    /// <param name="folded">A chunk without blanks and digits.</param>
    public static IEnumerable<string> In(string folded)
    {
        for (var i = 0; i < folded.Length;)
        {
            var start = i;
            while (i < folded.Length && (TextFolding.IsInside(folded[i])
                || (folded[i] == '\'' && i > start && i + 1 < folded.Length && TextFolding.IsInside(folded[i + 1])))) i++;
            if (i > start) yield return folded[start..Math.Min(i, start + CodeKeys.Longest)];
            else i++;
        }
    }

    /// <summary>Whether a word is left out.</summary>
    /// <param name="word">A word, folded.</param>
    public bool IsStop(string word) => isEnglish && Stops.Contains(word);

    /// <summary>A word's stem.</summary>
    /// <param name="word">A word, folded.</param>
    public string Stem(string word)
    {
        if (!isEnglish) return word;
        if (_stems.TryGetValue(word, out var known)) return known;
        _stemmer.SetCurrent(word);
        _stemmer.Stem();
        var stem = _stemmer.Current;
        if (_stems.Count < MostRemembered) _stems.Add(word, stem);
        return stem;
    }
}
