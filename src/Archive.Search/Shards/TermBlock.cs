using Archive.Search.Index;

namespace Archive.Search.Shards;

/// <summary>Writes a stretch of terms with their postings as a block of columns; FORMAT.md describes it.</summary>
/// <param name="index">Where postings lie.</param>
internal sealed class TermBlock(IndexTerms index)
{
    private readonly BlockColumn _shared = new();
    private readonly BlockColumn _lengths = new();
    private readonly BlockColumn _letters = new();
    private readonly BlockColumn _lists = new();
    private readonly BlockColumn _counts = new();
    private readonly BlockColumn _low = new();
    private readonly BlockColumn _middle = new();
    private readonly BlockColumn _high = new();
    private readonly BlockColumn _steps = new();
    private readonly BlockColumn _times = new();
    private readonly BlockColumn _norms = new();
    private readonly BlockColumn _number = new();
    private string _before = "";
    private int _terms;

    /// <summary>Adds a term: its key, the lists of its fields, and, with a head, all documents of the terms that begin so.</summary>
    /// <param name="head">Its head, or null.</param>
    public void Add(IndexTerm term, PrefixSummary? head)
    {
        Key(term.Key);
        var (own, other) = head?.Documents() ?? ([], []);
        _lists.Byte(ListsOf(term) | (own.Count > 0 ? 16 : 0) | (other.Count > 0 ? 32 : 0));
        Lists(term);
        if (own.Count > 0) List(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(own));
        if (other.Count > 0) List(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(other));
    }

    /// <summary>The block.</summary>
    public byte[] Bytes()
    {
        _number.Number(_terms);
        return BlockColumn.Block(_number, _shared, _lengths, _letters, _lists, _counts, _low, _middle, _high, _steps, _times, _norms);
    }

    /// <summary>The places of the words of a stretch of terms, as a block of its own: only phrases want them.</summary>
    /// <param name="terms">The terms, as they stand in the block.</param>
    public byte[] Places(IEnumerable<IndexTerm> terms)
    {
        var places = new BlockColumn();
        foreach (var term in terms)
        {
            for (var field = 2; field < 4; field++)
            {
                var run = term.In(field);
                for (var at = run.Start; at < run.Start + run.Count; at++) AddPlaces(places, index.PlacesAt(field, at));
            }
        }

        return BlockColumn.Block(places);
    }

    private static void AddPlaces(BlockColumn places, ReadOnlySpan<int> of)
    {
        var before = 0;
        foreach (var place in of)
        {
            places.Number(place - before);
            before = place;
        }
    }

    private static int ListsOf(IndexTerm term)
    {
        var lists = 0;
        for (var field = 0; field < 4; field++) lists |= term.In(field).Count > 0 ? 1 << field : 0;
        return lists;
    }

    private void Key(string key)
    {
        var shared = 0;
        while (shared < key.Length && shared < _before.Length && key[shared] == _before[shared]) shared++;
        _shared.Byte(shared);
        _lengths.Byte(key.Length - shared);
        _letters.Text(key.AsSpan(shared));
        _before = key;
        _terms++;
    }

    private void Lists(IndexTerm term)
    {
        for (var field = 0; field < 4; field++)
        {
            var run = term.In(field);
            if (run.Count == 0) continue;
            var documents = index.DocumentsIn(field, run);
            List(documents);
            if (!IndexTerms.HasCounts(field)) continue;
            for (var i = 0; i < run.Count; i++)
            {
                _times.Number(index.CountAt(field, run.Start + i) - 1);
                _norms.Byte(index.LengthCode(field, documents[i]));
            }
        }
    }

    // A list of one, as most are, is written byte by byte: the high ones are much alike.
    private void List(ReadOnlySpan<int> documents)
    {
        _counts.Number(documents.Length);
        if (documents.Length == 1)
        {
            _low.Byte(documents[0] & 0xFF);
            _middle.Byte((documents[0] >> 8) & 0xFF);
            _high.Number(documents[0] >> 16);
            return;
        }

        var before = 0;
        foreach (var document in documents)
        {
            _steps.Number(document - before);
            before = document;
        }
    }
}
