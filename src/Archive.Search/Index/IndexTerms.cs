using Lucene.Net.Index;
using Lucene.Net.Search;
using Lucene.Net.Util;

namespace Archive.Search.Index;

/// <summary>One term of the four searched fields, with where its postings lie in <see cref="IndexTerms"/>.</summary>
/// <param name="Key">The term.</param>
/// <param name="Own">Postings in <see cref="SearchFields.Own"/>.</param>
/// <param name="Touches">Postings in <see cref="SearchFields.Touches"/>.</param>
/// <param name="Name">Postings in <see cref="SearchFields.Name"/>.</param>
/// <param name="Prose">Postings in <see cref="SearchFields.Prose"/>.</param>
internal readonly record struct IndexTerm(string Key, PostingsRange Own, PostingsRange Touches, PostingsRange Name, PostingsRange Prose)
{
    /// <summary>Postings in a field, by its place in <see cref="SearchFields.Searched"/>.</summary>
    /// <param name="field">0 to 3.</param>
    public PostingsRange In(int field) => field switch { 0 => Own, 1 => Touches, 2 => Name, _ => Prose };
}

/// <summary>A stretch of a list.</summary>
/// <param name="Start">First.</param>
/// <param name="Count">How many; 0 for none.</param>
internal readonly record struct PostingsRange(int Start, int Count);

/// <summary>
/// Everything that the shards are written from, read back from a Lucene index of one segment: terms in order, documents, counts, lengths,
/// places.
/// </summary>
internal sealed class IndexTerms
{
    private readonly List<int>[] _documents = [[], [], [], []];
    private readonly List<int>[] _counts = [[], [], [], []];
    private readonly List<int>[] _firstPlaces = [[], [], [], []];
    private readonly List<int> _places = [];
    private readonly NumericDocValues?[] _norms = new NumericDocValues?[4];

    private IndexTerms(AtomicReader reader)
    {
        Documents = reader.MaxDoc;
        var cursors = new Cursor?[4];
        for (var field = 0; field < 4; field++)
        {
            var name = SearchFields.Searched[field];
            if (reader.GetTerms(name) is not { } terms) continue;
            _norms[field] = reader.GetNormValues(name);
            cursors[field] = new Cursor(terms.GetEnumerator());
            AverageLengths[field] = HasCounts(field) && terms.SumTotalTermFreq > 0
                ? (float)(terms.SumTotalTermFreq / (double)Documents)
                : 1f;
        }

        Terms = Merged(cursors);
    }

    /// <summary>Number of documents.</summary>
    public int Documents { get; }

    /// <summary>Average length of each field in terms, over all documents, as Lucene's BM25 takes it.</summary>
    public float[] AverageLengths { get; } = [1f, 1f, 1f, 1f];

    /// <summary>All terms, ordinal.</summary>
    public List<IndexTerm> Terms { get; }

    /// <summary>Reads an index back.</summary>
    public static IndexTerms Read(Lucene.Net.Store.Directory directory)
    {
        using var reader = DirectoryReader.Open(directory);
        return new IndexTerms(SlowCompositeReaderWrapper.Wrap(reader));
    }

    /// <summary>Whether a field keeps counts, lengths and places.</summary>
    /// <param name="field">0 to 3.</param>
    public static bool HasCounts(int field) => field >= 2;

    /// <summary>The documents of a posting list, ascending.</summary>
    /// <param name="field">0 to 3.</param>
    /// <param name="run">The list.</param>
    public ReadOnlySpan<int> DocumentsIn(int field, PostingsRange run) =>
        System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_documents[field]).Slice(run.Start, run.Count);

    /// <summary>How often the term stands in a document of a posting list.</summary>
    /// <param name="field">2 or 3.</param>
    /// <param name="at">Place in the field's postings.</param>
    public int CountAt(int field, int at) => _counts[field][at];

    /// <summary>Lucene's one-byte code of the document's length.</summary>
    /// <param name="field">2 or 3.</param>
    public byte LengthCode(int field, int document) => _norms[field] is { } norms ? (byte)norms.Get(document) : (byte)0;

    /// <summary>The places of the term in a document of a posting list.</summary>
    /// <param name="field">2 or 3.</param>
    /// <param name="at">Place in the field's postings.</param>
    public ReadOnlySpan<int> PlacesAt(int field, int at) =>
        System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_places).Slice(_firstPlaces[field][at], _counts[field][at]);

    private List<IndexTerm> Merged(Cursor?[] cursors)
    {
        var merged = new List<IndexTerm>();
        while (true)
        {
            BytesRef? least = null;
            foreach (var cursor in cursors)
            {
                if (cursor?.Term is { } term && (least is null || term.CompareTo(least) < 0)) least = term;
            }

            if (least is null) return merged;
            var key = least.Utf8ToString();
            Span<PostingsRange> runs = [default, default, default, default];
            var bytes = BytesRef.DeepCopyOf(least);
            for (var field = 0; field < 4; field++)
            {
                if (cursors[field] is not { Term: { } term } cursor || term.CompareTo(bytes) != 0) continue;
                runs[field] = HasCounts(field) ? TakeWithPlaces(field, cursor) : Take(field, cursor);
                cursor.Next();
            }

            merged.Add(new IndexTerm(key, runs[0], runs[1], runs[2], runs[3]));
        }
    }

    private PostingsRange Take(int field, Cursor cursor)
    {
        var start = _documents[field].Count;
        var postings = cursor.Postings();
        while (postings.NextDoc() != DocIdSetIterator.NO_MORE_DOCS) _documents[field].Add(postings.DocID);
        return new PostingsRange(start, _documents[field].Count - start);
    }

    private PostingsRange TakeWithPlaces(int field, Cursor cursor)
    {
        var start = _documents[field].Count;
        var postings = cursor.PostingsWithPlaces();
        while (postings.NextDoc() != DocIdSetIterator.NO_MORE_DOCS)
        {
            _documents[field].Add(postings.DocID);
            _counts[field].Add(postings.Freq);
            _firstPlaces[field].Add(_places.Count);
            for (var i = postings.Freq; i > 0; i--) _places.Add(postings.NextPosition());
        }

        return new PostingsRange(start, _documents[field].Count - start);
    }

    private sealed class Cursor
    {
        private readonly TermsEnum _terms;
        private DocsEnum? _postings;
        private DocsAndPositionsEnum? _places;

        public Cursor(TermsEnum terms)
        {
            _terms = terms;
            Next();
        }

        public BytesRef? Term { get; private set; }

        public void Next() => Term = _terms.MoveNext() ? _terms.Term : null;

        public DocsEnum Postings() => _postings = _terms.Docs(null, _postings, DocsFlags.NONE);

        public DocsAndPositionsEnum PostingsWithPlaces() => _places = _terms.DocsAndPositions(null, _places, DocsAndPositionsFlags.NONE);
    }
}
