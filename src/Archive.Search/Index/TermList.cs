using Lucene.Net.Analysis;
using Lucene.Net.Analysis.TokenAttributes;

namespace Archive.Search.Index;

/// <summary>Terms that were found already, as Lucene takes them; one list serves a field through all documents.</summary>
internal sealed class TermList : TokenStream
{
    private readonly ICharTermAttribute _term;
    private readonly IPositionIncrementAttribute _increment;
    private readonly List<(string Term, int Step)> _terms = [];
    private int _next;

    public TermList()
    {
        _term = AddAttribute<ICharTermAttribute>();
        _increment = AddAttribute<IPositionIncrementAttribute>();
    }

    /// <summary>Number of terms.</summary>
    public int Count => _terms.Count;

    /// <summary>Forgets all terms.</summary>
    public void Empty() => _terms.Clear();

    /// <summary>Adds a term.</summary>
    /// <param name="step">Places from the term before.</param>
    public void Add(string term, int step) => _terms.Add((term, step));

    public override void Reset()
    {
        base.Reset();
        _next = 0;
    }

    public override bool IncrementToken()
    {
        if (_next == _terms.Count) return false;
        ClearAttributes();
        var (term, step) = _terms[_next++];
        _term.SetEmpty().Append(term);
        _increment.PositionIncrement = step;
        return true;
    }
}
