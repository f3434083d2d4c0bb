using System.Collections.Immutable;
using Archive.Search.Analysis;
using Lucene.Net.Search;

namespace Archive.Search.Finding;

/// <summary>What a typed word stands for in the index: a query, and what the reader is shown if it was not found as typed.</summary>
/// <param name="Query">Finds it; null where nothing comes near.</param>
/// <param name="Exclusion">Finds what must not stand, where the word is unwanted; null for nothing.</param>
/// <param name="Told">What is reported; null where it was found as typed.</param>
internal sealed record WordMeaning(Query? Query, Query? Exclusion, SearchHint? Told);

/// <summary>Works out what typed words stand for. <c>search-find.js</c> does the same over the shards.</summary>
/// <param name="keys">The index's terms.</param>
/// <param name="words">How prose is taken apart.</param>
/// <param name="patterns">Where the archive's codes have punctuation between digits.</param>
internal sealed class WordMeanings(KeyLookup keys, ProseWords words, ImmutableArray<string> patterns)
{
    private const int FixedInWord = 1;
    private const int FixedInCode = 2;
    private const int ShortestMisspelt = 4;
    private const int MostShortened = 5;
    private const int ShortestShortened = 3;

    /// <summary>
    /// Reads a code that is followed by words and numbers as one code, where the index has it: <c>R2-05 shelf 7 jack 14</c> is
    /// <c>R2-05/S7/J14</c>. Each word stands for its first letter, or for nothing.
    /// </summary>
    public ImmutableArray<QueryTerm> Joined(ImmutableArray<QueryTerm> typed)
    {
        var read = ImmutableArray.CreateBuilder<QueryTerm>();
        for (var i = 0; i < typed.Length; i++)
        {
            var pairs = typed[i] is QueryCode { IsWithout: false } ? PairsFrom(typed, i + 1) : 0;
            QueryTerm? whole = null;
            while (pairs > 0 && (whole = OneCode(typed.AsSpan(i, 1 + (2 * pairs)))) is null) pairs--;
            read.Add(whole ?? typed[i]);
            i += 2 * pairs;
        }

        return read.ToImmutable();
    }

    /// <summary>What a word stands for.</summary>
    public WordMeaning Resolve(QueryTerm word) => word switch
    {
        QueryCode code => OfCode(code),
        QueryWord prose => OfProse(prose),
        QueryPhrase phrase => OfPhrase(phrase),
        _ => throw new InvalidOperationException($"{word} is not a word"),
    };

    private static int PairsFrom(ImmutableArray<QueryTerm> typed, int at)
    {
        var pairs = 0;
        while (at + 1 < typed.Length && typed[at] is QueryWord { IsWithout: false }
            && typed[at + 1] is QueryCode { IsWithout: false } number && Digits(number).Length > 0) (pairs, at) = (pairs + 1, at + 2);
        return pairs;
    }

    // A number as it stands in a sentence; empty for any other code.
    private static string Digits(QueryCode number)
    {
        var digits = number.Chunk.TrimEnd(',', ';', '.');
        return digits.All(char.IsAsciiDigit) ? digits : "";
    }

    private QueryCode? OneCode(ReadOnlySpan<QueryTerm> typed)
    {
        var (first, spoken) = ((QueryCode)typed[0], typed[0].Typed);
        var (lettered, bare) = (first.Chunk, first.Chunk);
        for (var i = 1; i < typed.Length; i += 2)
        {
            var (word, number) = ((QueryWord)typed[i], (QueryCode)typed[i + 1]);
            lettered += $"/{word.Word[0]}{Digits(number)}";
            bare += $"/{Digits(number)}";
            spoken += $" {word.Typed} {number.Typed}";
        }

        foreach (var chunk in new[] { lettered, bare })
        {
            if (CodePatterns.Readings(chunk, patterns).Any(reading => keys.Has(CodeKeys.Typed(reading))))
                return new QueryCode(spoken, false, chunk);
        }

        return null;
    }

    private WordMeaning OfCode(QueryCode code)
    {
        var chunks = CodePatterns.Readings(code.Chunk, patterns).ToList();
        var readings = chunks.ConvertAll(CodeKeys.Typed);
        if (readings[0].Length == 0) return Nothing(code);
        foreach (var key in readings)
        {
            var beginning = CodeKeys.AsPrefix(key);
            if (!keys.Has(key) && !keys.Begins(beginning)) continue;
            var query = Best([MatchQueries.Exactly(key, key), .. MatchQueries.Beginning(beginning)]);
            return new WordMeaning(query, query, null);
        }

        return Alike(code, chunks.SelectMany(CodeKeys.Looks)) ?? LessOf(code) ?? Misspelt(code, readings[0], readings[0], FixedInCode);
    }

    private WordMeaning OfProse(QueryWord prose)
    {
        var word = prose.Word;
        if (words.IsStop(word)) return keys.Has(0, word) ? Whole(MatchQueries.Own(word)) : Nothing(prose);
        var stem = words.Stem(word);
        var exact = MatchQueries.Exactly(word, stem);
        var has = keys.Has(0, word) || Enumerable.Range(1, 3).Any(field => keys.Has(field, stem));
        if (has || keys.Begins(word)) return new WordMeaning(Best([exact, .. MatchQueries.Beginning(word)]), exact, null);
        return (CodeKeys.IsCode(Misreadings.Look(word))
            ? Alike(prose, [Misreadings.Look(word)])
            : null) ?? Shortened(prose) ?? Misspelt(prose, word, stem, FixedInWord);
    }

    private WordMeaning OfPhrase(QueryPhrase phrase)
    {
        var parts = new List<Query>();
        var inPlace = new List<(string Stem, int Place)>();
        var place = 0;
        foreach (var chunk in phrase.Chunks)
        {
            if (CodeKeys.IsCode(chunk))
            {
                parts.Add(MatchQueries.Exactly(CodeKeys.Typed(chunk), CodeKeys.Typed(chunk)));
                place++;
                continue;
            }

            foreach (var word in ProseWords.In(chunk))
            {
                if (!words.IsStop(word)) inPlace.Add((words.Stem(word), place));
                place++;
            }
        }

        if (inPlace.Count > 0) parts.Add(MatchQueries.InPlace(inPlace));
        if (parts.Count == 0) return Nothing(phrase);
        var all = new BooleanQuery();
        foreach (var part in parts) all.Add(part, Occur.MUST);
        return Whole(all);
    }

    // Keys of the same look; those that look the same from end to end count double.
    private WordMeaning? Alike(QueryTerm word, IEnumerable<string> looks)
    {
        foreach (var whole in looks.Distinct(StringComparer.Ordinal))
        {
            var look = CodeKeys.AsPrefix(whole);
            var spellings = look.Length == 0 ? [] : keys.Spellings(look).Where(IsOfCodes).ToList();
            if (spellings.Count == 0) continue;
            var same = spellings.SelectMany(spelling => Enumerable.Range(0, 4).SelectMany(field => keys.Beginning(field, spelling)))
                .Where(other => CodeKeys.IsCode(other) && Misreadings.Look(other) == whole).Distinct(StringComparer.Ordinal).ToList();
            Query[] queries =
            [
                .. spellings.SelectMany(MatchQueries.NearlyBeginning),
                .. same.SelectMany(other => MatchQueries.Nearly(other, isWhole: true))
            ];
            return new WordMeaning(Best(queries), null, new SearchHint(SearchHintKind.Alike, word.Typed, []));
        }

        return null;

        bool IsOfCodes(string spelling) => CodeKeys.IsCode(spelling)
            || Enumerable.Range(0, 4).Any(field => keys.Beginning(field, spelling).Any(other => CodeKeys.IsCode(other)));
    }

    // Where there is no such port, the position; where no such position, the frame.
    private WordMeaning? LessOf(QueryCode code)
    {
        var parts = CodeKeys.Parts(code.Chunk);
        for (var count = parts.Count - 1; count > 0; count--)
        {
            var written = string.Concat(parts.Take(count).Select(part => (part.IsApart ? "-" : "") + part.Text));
            if (!CodeKeys.IsCode(written)) return null;
            var key = CodeKeys.Typed(written);
            if (keys.Has(key)) return new WordMeaning(
                Best([.. MatchQueries.Nearly(key, isWhole: false)]), null, new SearchHint(SearchHintKind.Near, code.Typed, [written]));
        }

        return null;
    }

    private WordMeaning? Shortened(QueryWord prose)
    {
        for (var length = prose.Word.Length - 1; length >= ShortestShortened && prose.Word.Length - length <= MostShortened; length--)
        {
            var shorter = prose.Word[..length];
            if (keys.Has(shorter)) return new WordMeaning(
                Best([.. MatchQueries.Nearly(shorter, isWhole: false)]), null, new SearchHint(SearchHintKind.Near, prose.Typed, [shorter]));
        }

        return null;
    }

    // A word is compared with stems, so its own stem may be the one that comes near.
    private WordMeaning Misspelt(QueryTerm word, string key, string stem, int isFixed)
    {
        if (key.Length < ShortestMisspelt || key.Length <= isFixed) return Nothing(word);
        var near = Enumerable.Range(0, 4).SelectMany(field => keys.Beginning(field, key[..isFixed]))
            .Where(other => CodeKeys.IsCode(other) == word is QueryCode && (IsNear(other, key) || IsNear(other, stem)))
            .Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToImmutableArray();
        return near.Length == 0 ? Nothing(word)
            : new WordMeaning(
                Best([.. near.SelectMany(other => MatchQueries.Nearly(other, isWhole: false))]),
                null,
                new SearchHint(SearchHintKind.Near, word.Typed, near));

        bool IsNear(string one, string other) =>
            word is QueryCode ? Misspelling.IsNear(one, other) : Misspelling.AreWordsNear(one, other);
    }

    private static WordMeaning Nothing(QueryTerm word) => new(null, null, new SearchHint(SearchHintKind.Nothing, word.Typed, []));

    private static WordMeaning Whole(Query query) => new(query, query, null);

    private static DisjunctionMaxQuery Best(params ReadOnlySpan<Query> queries)
    {
        var best = new DisjunctionMaxQuery(0f);
        foreach (var query in queries) best.Add(query);
        return best;
    }
}
