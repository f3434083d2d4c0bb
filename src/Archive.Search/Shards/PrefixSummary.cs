using Archive.Search.Index;

namespace Archive.Search.Shards;

/// <summary>
/// A beginning whose terms do not all lie in the shard where it is looked for: all documents of them, found once, so that a short word
/// needs one shard as well.
/// </summary>
/// <param name="index">Where postings lie.</param>
internal sealed class PrefixSummary(IndexTerms index, string beginning)
{
    private readonly List<IndexTerm> _terms = [];

    public string Beginning => beginning;

    /// <summary>The term that is written just so; none in any field where there is none.</summary>
    public IndexTerm Exact { get; private set; } = new(beginning, default, default, default, default);

    /// <summary>About how many documents it has; some may be counted twice.</summary>
    public int Weight { get; private set; }

    /// <summary>Adds a term that begins so.</summary>
    public void Add(IndexTerm term)
    {
        if (term.Key == beginning) Exact = term;
        _terms.Add(term);
        Weight += term.Own.Count + term.Touches.Count + term.Name.Count + term.Prose.Count;
    }

    /// <summary>Adds the terms of another head of the same beginning.</summary>
    /// <param name="other">The head.</param>
    public void Add(PrefixSummary other)
    {
        foreach (var term in other._terms) Add(term);
    }

    /// <summary>Documents that are or are called something that begins so, and the rest of those that have any term that does.</summary>
    public (List<int> Own, List<int> Other) Documents()
    {
        var has = new byte[index.Documents];
        foreach (var term in _terms)
        {
            for (var field = 0; field < 4; field++) Mark(has, field, term.In(field));
        }

        var (own, other) = (new List<int>(), new List<int>());
        for (var document = 0; document < has.Length; document++)
        {
            if ((has[document] & 1) != 0) own.Add(document);
            else if (has[document] != 0) other.Add(document);
        }

        return (own, other);
    }

    private void Mark(byte[] has, int field, PostingsRange run)
    {
        if (run.Count == 0) return;
        foreach (var document in index.DocumentsIn(field, run)) has[document] |= SearchFields.IsOwn(field) ? (byte)1 : (byte)2;
    }
}
