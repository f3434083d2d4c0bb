using Archive.Search.Index;
using Lucene.Net.Index;
using Lucene.Net.Search;

namespace Archive.Search.Finding;

/// <summary>The queries that matches of a word are made of, each with what it is worth.</summary>
internal static class MatchQueries
{
    /// <summary>Exactly so, in any field: what stands in several counts in each.</summary>
    /// <param name="own">The key among what the record is.</param>
    /// <param name="other">The key or stem in the other fields.</param>
    public static Query Exactly(string own, string other)
    {
        var any = new BooleanQuery();
        for (var field = 0; field < 4; field++) any.Add(Exact(field, field == 0 ? own : other), Occur.SHOULD);
        return any;
    }

    /// <summary>Exactly so among what the record is.</summary>
    public static Query Own(string key) => Exact(0, key);

    /// <summary>Begins so.</summary>
    /// <param name="beginning">The beginning; empty for none.</param>
    public static IEnumerable<Query> Beginning(string beginning) =>
        beginning.Length == 0 ? [] : Constant(
            field => new PrefixQuery(new Term(SearchFields.Searched[field], beginning)), SearchFields.BeginsOwn, SearchFields.BeginsOther);

    /// <summary>Begins nearly so.</summary>
    /// <param name="beginning">A beginning that is in the index.</param>
    public static IEnumerable<Query> NearlyBeginning(string beginning) =>
        Constant(
            field => new PrefixQuery(new Term(SearchFields.Searched[field], beginning)), SearchFields.NearlyOwn, SearchFields.NearlyOther);

    /// <summary>Nearly so.</summary>
    /// <param name="key">A key or stem that is in the index.</param>
    /// <param name="isWhole">Whether it looks the same from end to end.</param>
    public static IEnumerable<Query> Nearly(string key, bool isWhole)
    {
        var more = isWhole ? 2f : 1f;
        return Constant(
            field => new TermQuery(new Term(SearchFields.Searched[field], key)),
            SearchFields.NearlyOwn * more,
            SearchFields.NearlyOther * more);
    }

    /// <summary>Words that stand so far from each other, in name or prose.</summary>
    /// <param name="words">Stems with their places.</param>
    public static Query InPlace(IReadOnlyList<(string Stem, int Place)> words)
    {
        var any = new BooleanQuery();
        for (var field = 2; field < 4; field++)
        {
            var phrase = new PhraseQuery { Boost = SearchFields.Weights[field] };
            foreach (var (stem, place) in words) phrase.Add(new Term(SearchFields.Searched[field], stem), place - words[0].Place);
            any.Add(phrase, Occur.SHOULD);
        }

        return any;
    }

    private static TermQuery Exact(int field, string key) =>
        new(new Term(SearchFields.Searched[field], key)) { Boost = SearchFields.Weights[field] };

    private static IEnumerable<Query> Constant(Func<int, Query> query, float own, float other) =>
        Enumerable.Range(0, 4).Select(field => new ConstantScoreQuery(query(field)) { Boost = SearchFields.IsOwn(field) ? own : other });
}
