using System.Collections.Immutable;
using Archive.Search.Analysis;
using Archive.Search.Index;
using Lucene.Net.Index;
using Lucene.Net.Search;

namespace Archive.Search.Finding;

/// <summary>Why something was not found exactly as typed.</summary>
public enum SearchHintKind
{
    /// <summary>Nothing comes near.</summary>
    Nothing,

    /// <summary>What looks like it was taken.</summary>
    Alike,

    /// <summary>What comes near was taken.</summary>
    Near,
}

/// <summary>What is shown about a typed word that was not found exactly as typed.</summary>
/// <param name="Kind">Why.</param>
/// <param name="Typed">The word.</param>
/// <param name="As">What was taken instead.</param>
public sealed record SearchHint(SearchHintKind Kind, string Typed, ImmutableArray<string> As);

/// <summary>What a search came to.</summary>
/// <param name="Total">How many documents were found.</param>
/// <param name="Best">The best, with their scores; equals by number.</param>
/// <param name="IsPartial">Whether no document has all words, and these have some.</param>
/// <param name="Told">Words that were not found as typed.</param>
public sealed record SearchOutcome(
    int Total, ImmutableArray<(int Document, float Score)> Best, bool IsPartial, ImmutableArray<SearchHint> Told);

/// <summary>Finds records by words, codes and phrases in a Lucene index, as the site's script does in the shards.</summary>
public sealed class Finder
{
    private readonly IndexSearcher _searcher;
    private readonly WordMeanings _meanings;
    private readonly ProseWords _words;

    /// <summary>Stands over an index of one segment.</summary>
    /// <param name="reader">The index.</param>
    /// <param name="isEnglish">Whether prose is English.</param>
    public Finder(DirectoryReader reader, bool isEnglish)
    {
        _searcher = new IndexSearcher(reader) { Similarity = LuceneIndex.Scoring };
        _words = new ProseWords(isEnglish);
        var notes = reader.IndexCommit.UserData;
        ImmutableArray<string> patterns = notes.TryGetValue(LuceneIndex.PatternsKey, out var kept)
            ? [.. kept.Split(' ', StringSplitOptions.RemoveEmptyEntries)]
            : [];
        _meanings = new WordMeanings(new KeyLookup(SlowCompositeReaderWrapper.Wrap(reader)), _words, patterns);
    }

    /// <param name="typed">What was typed.</param>
    /// <param name="groups">Terms of <see cref="SearchFields.Facet"/> that all must stand.</param>
    /// <param name="most">How many of the best are needed.</param>
    public SearchOutcome Find(string typed, IReadOnlyList<string> groups, int most)
    {
        var words = QueryParser.Parse(typed);
        if (!words.All(IsStop)) words = words.RemoveAll(word => IsStop(word) && !word.IsWithout);
        words = _meanings.Joined(words);
        if (words.All(word => word.IsWithout)) return new SearchOutcome(0, [], false, []);
        var meanings = words.Select(word => (Word: word, Meaning: _meanings.Resolve(word))).ToList();
        var wanted = meanings.Where(pair => !pair.Word.IsWithout).Select(pair => pair.Meaning).ToList();
        var unwanted = meanings.Where(pair => pair.Word.IsWithout).Select(pair => pair.Meaning.Exclusion).OfType<Query>().ToList();
        var all = Query(wanted, unwanted, Occur.MUST);
        var isPartial = wanted.Count > 1 && (all is null || _searcher.Search(all, 1).TotalHits == 0);
        var query = isPartial ? Query(wanted, unwanted, Occur.SHOULD) : all;
        ImmutableArray<SearchHint> told = [.. wanted.Select(meaning => meaning.Told).OfType<SearchHint>()];
        if (query is null) return new SearchOutcome(0, [], isPartial, told);
        var found = _searcher.Search(query, Filter(groups), most);
        return new SearchOutcome(found.TotalHits, [.. found.ScoreDocs.Select(hit => (hit.Doc, hit.Score))], isPartial, told);
    }

    private bool IsStop(QueryTerm word) => word is QueryWord prose && _words.IsStop(prose.Word);

    private static BooleanQuery? Query(List<WordMeaning> wanted, List<Query> unwanted, Occur occur)
    {
        if (wanted.All(meaning => meaning.Query is null)
            || (occur == Occur.MUST && wanted.Any(meaning => meaning.Query is null))) return null;
        var query = new BooleanQuery();
        foreach (var meaning in wanted)
        {
            if (meaning.Query is { } of) query.Add(of, occur);
        }

        foreach (var without in unwanted) query.Add(without, Occur.MUST_NOT);
        return query;
    }

    private static QueryWrapperFilter? Filter(IReadOnlyList<string> groups)
    {
        if (groups.Count == 0) return null;
        var all = new BooleanQuery();
        foreach (var group in groups) all.Add(new TermQuery(new Term(SearchFields.Facet, group)), Occur.MUST);
        return new QueryWrapperFilter(all);
    }
}
