using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Archive.Records.Model;
using Archive.Search.Analysis;
using Archive.Search.Documents;
using Archive.Search.Index;
using Archive.Search.Shards;
using Archive.Storage.Output;
using Lucene.Net.Store;

namespace Archive.Search;

/// <summary>
/// The static index: what a small script reads, from a web host, a folder or a USB stick, by script tags alone. This is the search's one
/// seam: documents go in, files come out. Lucene does the index; its terms, postings and lengths are written out in shards. FORMAT.md
/// describes them.
/// </summary>
public static class SearchIndex
{
    private const int RowsInShard = 1024;
    private const int IdsInShard = 1 << 16;
    private const int LongestWithRoot = 48 * 1024;

    /// <summary>The files of the index, all below <c>search/</c>.</summary>
    /// <param name="documents">What is to be found, in the order in which equals are shown: each kind of record in one run.</param>
    /// <param name="language">BCP 47 language of the prose; English where null.</param>
    public static ImmutableArray<RenderedFile> Create(IReadOnlyList<SearchDocument> documents, string? language = null) =>
        Create(documents, language, ShardSizes.Usual);

    /// <summary>The same in shards of other sizes.</summary>
    /// <param name="documents">What is to be found.</param>
    /// <param name="language">BCP 47 language of the prose; English where null.</param>
    /// <param name="sizes">How large shards may be.</param>
    internal static ImmutableArray<RenderedFile> Create(IReadOnlyList<SearchDocument> documents, string? language, ShardSizes sizes)
    {
        using var directory = new RAMDirectory();
        var patterns = LuceneIndex.Write(directory, documents, ProseWords.IsEnglish(language), withShown: false);
        var index = IndexTerms.Read(directory);
        var (codes, words) = (TermShards.OfCodes(index, sizes), TermShards.OfWords(index, sizes));
        ImmutableArray<Block> ids = [.. documents
            .Chunk(IdsInShard)
            .Select((part, i) => new Block($"ids-{i}", () => DocumentBlocks.Ids(part)))];
        return
        [
            Script("index", () => Root(documents, language, index, codes, words, patterns, ids)),
            .. ids.Select(Script),
            .. Blocks("codes", codes),
            .. Blocks("words", words),
            .. Enumerable.Range(0, words.Count).Select(i => Script(new Block($"places-{i}", () => words.Places(i)))),
            .. documents.Chunk(RowsInShard).Select((part, i) => Script(new Block($"rows-{i}", () => DocumentBlocks.Rows(part)))),
            .. Enum.GetValues<FacetKind>().Select(by => Script(new Block(GroupFile(by), () => DocumentBlocks.Groups(documents, by)))),
        ];
    }

    /// <summary>The files of rows in which photos are shown.</summary>
    /// <param name="documents">What is to be found, as in the index.</param>
    public static ImmutableArray<ShownPhotos> RowsWithPhotos(IReadOnlyList<SearchDocument> documents) =>
    [
        .. documents
            .Chunk(RowsInShard)
            .Select((part, i) => new ShownPhotos(
                i, [.. part.Select(document => document.Kind == RecordKind.Photo ? document.Id : null)]))
            .Where(rows => rows.Photos.Any(photo => photo is not null)),
    ];

    /// <summary>
    /// The small pictures of photos, in as many files as there are of rows with photos: they are known when all are developed.
    /// </summary>
    /// <param name="picture">Where the small picture of a photo is, below the site's folder; null where there is none.</param>
    public static IEnumerable<OutputFile> Thumbs(ImmutableArray<ShownPhotos> rows, Func<string, string?> picture) => rows
        .Select(shard => Script(new Block(
            $"thumbs-{shard.File}",
            () => JsonSerializer.SerializeToUtf8Bytes(shard.Photos.Select(photo => photo is null ? "" : picture(photo) ?? "")))));

    private static IEnumerable<RenderedFile> Blocks(string name, TermShards shards)
    {
        for (var i = 0; i < shards.Count; i++)
        {
            var shard = i;
            yield return Script(new Block($"{name}-{shard}", () => shards.Block(shard)));
        }

        for (var i = 0; i < shards.Heads.Length; i++)
        {
            var shard = i;
            yield return Script(new Block($"{name}-heads-{shard}", () => shards.HeadBlock(shard)));
        }
    }

    // Where ids pack into little, as those do that were given in order, they come with the root.
    private static string Root(
        IReadOnlyList<SearchDocument> documents,
        string? language,
        IndexTerms index,
        TermShards codes,
        TermShards words,
        ImmutableArray<string> patterns,
        ImmutableArray<Block> ids)
    {
        var start = JsonSerializer.Serialize(new
        {
            format = 1,
            documents = documents.Count,
            english = ProseWords.IsEnglish(language),
            kinds = documents
                .Select((document, i) => (document.Kind, i))
                .GroupBy(pair => pair.Kind)
                .Select(group => new object[] { documents[group.First().i].Noun, group.Key?.Folder() ?? "", group.First().i }),
            weights = SearchFields.Weights.Select(weight => (double)weight),
            lengths = index.AverageLengths,
            begins = new[] { SearchFields.BeginsOwn, SearchFields.BeginsOther },
            nearly = new[] { SearchFields.NearlyOwn, SearchFields.NearlyOther },
            rowsInShard = RowsInShard,
            idsInShard = IdsInShard,
            codes = Dictionary(codes),
            words = Dictionary(words),
            patterns,
            groups = Enum.GetValues<FacetKind>().Select(by =>
                new object[] { GroupFile(by), Called(by), documents.Any(document => document.Facets.Any(facet => facet.By == by)) }),
        });
        var script = $"asfoundSearch.start({start});\n";
        if (ids is not [var only]) return script;
        var packed = only.Script();
        return packed.Length > LongestWithRoot ? script : packed + script;
    }

    private static object Dictionary(TermShards shards) =>
        new { cuts = shards.Cuts, heads = shards.Heads.Select(heads => heads.FirstLook) };

    private static string GroupFile(FacetKind by) => "by-" + by switch
    {
        FacetKind.Module => "module",
        FacetKind.Row => "row",
        FacetKind.CableKind => "cable-kind",
        FacetKind.Date => "date",
        _ => "person",
    };

    private static string Called(FacetKind by) => by switch
    {
        FacetKind.Module => "Module",
        FacetKind.Row => "Row",
        FacetKind.CableKind => "Kind of cable",
        FacetKind.Date => "Date",
        _ => "Person",
    };

    private static RenderedFile Script(Block block) => Script(block.Name, block.Script);

    private static RenderedFile Script(string name, Func<string> text) =>
        new($"search/{name}.js", () => new RenderedContent(Encoding.UTF8.GetBytes(text()), []));

    /// <summary>A part of the index by name, packed when its turn comes.</summary>
    private sealed record Block(string Name, Func<byte[]> Bytes)
    {
        public string Script() => $"asfoundSearch.block(\"{Name}\",\"{ScriptEncoding.Pack(Bytes())}\");\n";
    }
}

/// <summary>Photos that are shown in the rows of one file.</summary>
/// <param name="File">Its number.</param>
/// <param name="Photos">For each row the id of its photo; null where it shows none.</param>
public sealed record ShownPhotos(int File, ImmutableArray<string?> Photos);
