using System.Text.Json;
using Archive.Diagnostics.Rendering;
using Archive.Search.Documents;

namespace Archive.Search.Shards;

/// <summary>Blocks that tell what a document is: ids of all, rows of some, groups.</summary>
internal static class DocumentBlocks
{
    /// <summary>Longest prose that is kept for excerpts, in characters.</summary>
    public const int LongestProse = 600;

    private static readonly JsonSerializerOptions Plain = new() { Encoder = JsonText.Alone };

    /// <summary>Ids in order of documents, each as what it shares with the one before, and the rest.</summary>
    public static byte[] Ids(IEnumerable<SearchDocument> documents)
    {
        var (shared, lengths, letters) = (new BlockColumn(), new BlockColumn(), new BlockColumn());
        var before = "";
        foreach (var document in documents)
        {
            var common = 0;
            while (common < before.Length && common < document.Id.Length && before[common] == document.Id[common]) common++;
            shared.Byte(common);
            lengths.Byte(document.Id.Length - common);
            letters.Text(document.Id.AsSpan(common));
            before = document.Id;
        }

        return BlockColumn.Block(shared, lengths, letters);
    }

    /// <summary>What is shown of documents beside the id, as JSON: all titles, all leads, all tails, all prose, all places.</summary>
    public static byte[] Rows(IReadOnlyList<SearchDocument> documents) => JsonSerializer.SerializeToUtf8Bytes(
        new object[]
        {
            documents.Select(document => document.Title),
                documents.Select(document => document.Lead),
                documents.Select(document => document.Tail),
                documents.Select(document => Shortened(document.Prose)),
                documents.Select(document => document.Places.Select(place => place.Text)),
            },
        Plain);

    /// <summary>
    /// Groups of one sort, by value, with their documents: values as JSON, how many documents each, the steps from one to the next.
    /// </summary>
    /// <param name="by">What is grouped by.</param>
    public static byte[] Groups(IReadOnlyList<SearchDocument> documents, FacetKind by)
    {
        var groups = new SortedDictionary<string, List<int>>(StringComparer.Ordinal);
        for (var i = 0; i < documents.Count; i++)
        {
            foreach (var facet in documents[i].Facets)
            {
                if (facet.By != by) continue;
                if (!groups.TryGetValue(facet.Value, out var of)) groups[facet.Value] = of = [];
                if (of.Count == 0 || of[^1] != i) of.Add(i);
            }
        }

        var (values, counts, steps) = (new BlockColumn(), new BlockColumn(), new BlockColumn());
        values.Text(JsonSerializer.Serialize(groups.Keys, Plain));
        foreach (var of in groups.Values)
        {
            counts.Number(of.Count);
            var before = 0;
            foreach (var document in of)
            {
                steps.Number(document - before);
                before = document;
            }
        }

        return BlockColumn.Block(values, counts, steps);
    }

    // Cut between words, never within a pair of surrogates.
    private static string Shortened(string prose)
    {
        if (prose.Length <= LongestProse) return prose;
        var end = prose.LastIndexOf(' ', LongestProse);
        return prose[..(end > LongestProse / 2 ? end : LongestProse - 1)] + "…";
    }
}
