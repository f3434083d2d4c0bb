using System.Collections.Immutable;
using System.Text.Json;
using Archive.Search.Analysis;
using Archive.Search.Documents;
using Archive.Search.Index;
using Archive.Storage;
using Lucene.Net.Index;
using Lucene.Net.Store;

namespace Archive.Search.Finding;

/// <summary>A record that was found.</summary>
/// <param name="Document">What is shown of it; what it is searched by is left out.</param>
/// <param name="Score">What it is worth, by BM25 and the fields' weights.</param>
public sealed record SearchResult(SearchDocument Document, float Score);

/// <summary>What a search came to.</summary>
/// <param name="Total">How many records were found.</param>
/// <param name="Best">The best of them.</param>
/// <param name="IsPartial">Whether no record has all words, and these have some.</param>
/// <param name="Told">Words that were not found as typed.</param>
public sealed record SearchResults(int Total, ImmutableArray<SearchResult> Best, bool IsPartial, ImmutableArray<SearchHint> Told);

/// <summary>An index of records, opened to find them as the site's search does.</summary>
public sealed class RecordIndex : IDisposable
{
    private readonly Lucene.Net.Store.Directory _directory;
    private readonly DirectoryReader _reader;
    private readonly Finder _finder;

    private RecordIndex(Lucene.Net.Store.Directory directory)
    {
        _directory = directory;
        _reader = DirectoryReader.Open(directory);
        _finder = new Finder(_reader, _reader.IndexCommit.UserData.ContainsKey(LuceneIndex.EnglishKey));
    }

    /// <summary>Opens the index in a folder; null if there is none that can be read.</summary>
    /// <param name="folder">Full path of the folder.</param>
    public static RecordIndex? Open(string folder)
    {
        if (!System.IO.Directory.Exists(folder)) return null;
        try
        {
            return new RecordIndex(FSDirectory.Open(folder));
        }
        catch (Exception exception) when (DiskErrors.Is(exception) || exception is CorruptIndexException or IndexNotFoundException)
        {
            return null;
        }
    }

    /// <summary>Makes an index in memory.</summary>
    /// <param name="documents">What it finds.</param>
    /// <param name="language">The language they are written in; null if unknown.</param>
    public static RecordIndex InMemory(ImmutableArray<SearchDocument> documents, string? language)
    {
        var memory = new RAMDirectory();
        Write(memory, documents, language);
        return new RecordIndex(memory);
    }

    /// <summary>Writes an index into a folder.</summary>
    /// <param name="folder">Full path of the folder, which exists and is empty.</param>
    /// <param name="documents">What it finds.</param>
    /// <param name="language">The language they are written in; null if unknown.</param>
    /// <exception cref="IOException">The folder cannot be written.</exception>
    public static void Write(string folder, ImmutableArray<SearchDocument> documents, string? language)
    {
        using var directory = FSDirectory.Open(folder);
        Write(directory, documents, language);
    }

    /// <param name="typed">What was typed.</param>
    /// <param name="noun">Kind of record that is needed, such as <c>frame</c>; null for any.</param>
    /// <param name="groups">Groups that it must belong to, all of them.</param>
    /// <param name="most">How many of the best are needed, at least 1.</param>
    public SearchResults Find(string typed, string? noun, IEnumerable<SearchFacet> groups, int most)
    {
        var terms = groups.Select(SearchFields.TermOf).ToList();
        if (noun is not null) terms.Add(SearchFields.TermOf(noun));
        var found = _finder.Find(typed, terms, most);
        return new SearchResults(
            found.Total, [.. found.Best.Select(hit => new SearchResult(Shown(hit.Document), hit.Score))], found.IsPartial, found.Told);
    }

    public void Dispose()
    {
        _reader.Dispose();
        _directory.Dispose();
    }

    private SearchDocument Shown(int document) =>
        JsonSerializer.Deserialize<SearchDocument>(_reader.Document(document).Get(SearchFields.Shown))!;

    private static void Write(Lucene.Net.Store.Directory into, ImmutableArray<SearchDocument> documents, string? language) =>
        LuceneIndex.Write(into, documents, ProseWords.IsEnglish(language), withShown: true);
}
