using System.Collections.Immutable;
using System.Text.Json;
using Archive.Search.Analysis;
using Archive.Search.Documents;
using Lucene.Net.Analysis.Core;
using Lucene.Net.Documents;
using Lucene.Net.Index;
using Lucene.Net.Search.Similarities;
using Lucene.Net.Util;

namespace Archive.Search.Index;

/// <summary>Writes documents into a Lucene index of one segment: the number of a document there is its place in the list.</summary>
public static class LuceneIndex
{
    // Far above what 100,000 cables need, so that all stays in one segment without a merge.
    private const double BufferMegabytes = 1024;

    /// <summary>Under which name the patterns stand in the index's own notes, parted by blanks.</summary>
    public const string PatternsKey = "patterns";

    /// <summary>Under which name it is there that prose is English.</summary>
    public const string EnglishKey = "english";

    /// <summary>The version whose behaviour is kept.</summary>
    public const LuceneVersion Version = LuceneVersion.LUCENE_48;

    /// <summary>How matches are scored: Okapi BM25 with k1 = 1.2, b = 0.75, as Lucene has it.</summary>
    public static Similarity Scoring { get; } = new BM25Similarity();

    /// <summary>Writes an index.</summary>
    /// <param name="into">An empty directory of Lucene's.</param>
    /// <param name="documents">What is to be found.</param>
    /// <param name="isEnglish">Whether prose is English.</param>
    /// <param name="withShown">Whether what is shown of each document is kept beside, and its groups can be asked for.</param>
    /// <returns>What the codes taught: where punctuation stands between digits.</returns>
    public static ImmutableArray<string> Write(
        Lucene.Net.Store.Directory into, IReadOnlyList<SearchDocument> documents, bool isEnglish, bool withShown)
    {
        var config = new IndexWriterConfig(Version, new KeywordAnalyzer())
        {
            Similarity = Scoring,
            RAMBufferSizeMB = BufferMegabytes,
            MaxBufferedDocs = IndexWriterConfig.DISABLE_AUTO_FLUSH,
            OpenMode = OpenMode.CREATE,
            MergePolicy = new LogDocMergePolicy { NoCFSRatio = 0 },
            MergeScheduler = new SerialMergeScheduler(),
            UseCompoundFile = false,
        };
        using var writer = new IndexWriter(into, config);
        var terms = new DocumentTerms(new ProseWords(isEnglish));
        var shown = new StoredField(SearchFields.Shown, "");
        Document written =
        [
            new Field(SearchFields.Own, terms.Own, SearchFields.Keys),
            new Field(SearchFields.Touches, terms.Touches, SearchFields.Keys),
            new Field(SearchFields.Name, terms.Name, SearchFields.WordsInPlace),
            new Field(SearchFields.Prose, terms.Prose, SearchFields.WordsInPlace),
        ];
        if (withShown)
        {
            written.Add(new Field(SearchFields.Facet, terms.Facet, SearchFields.Keys));
            written.Add(shown);
        }

        foreach (var document in documents)
        {
            terms.Take(document);
            if (withShown)
                shown.SetStringValue(JsonSerializer.Serialize(document with { Own = [], Touches = [], Names = [], Facets = [] }));
            writer.AddDocument(written);
        }

        ImmutableArray<string> patterns = [.. terms.Patterns.Kept()];
        writer.ForceMerge(1);
        var notes = new Dictionary<string, string> { [PatternsKey] = string.Join(' ', patterns) };
        if (isEnglish) notes[EnglishKey] = "";
        writer.SetCommitData(notes);
        writer.Commit();
        return patterns;
    }
}
