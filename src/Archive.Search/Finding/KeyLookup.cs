using Archive.Search.Analysis;
using Archive.Search.Index;
using Lucene.Net.Index;
using Lucene.Net.Util;

namespace Archive.Search.Finding;

/// <summary>Asks a Lucene index which terms it has.</summary>
/// <param name="reader">The index.</param>
internal sealed class KeyLookup(AtomicReader reader)
{
    /// <summary>Whether a field has the term.</summary>
    /// <param name="field">0 to 3.</param>
    /// <param name="key">The term.</param>
    public bool Has(int field, string key) => key.Length > 0 && reader.DocFreq(new Term(SearchFields.Searched[field], key)) > 0;

    /// <summary>Whether any field has the term.</summary>
    /// <param name="key">The term.</param>
    public bool Has(string key) => Enumerable.Range(0, 4).Any(field => Has(field, key));

    /// <summary>Whether any field has a term that begins so.</summary>
    public bool Begins(string beginning) => beginning.Length > 0 && Enumerable.Range(0, 4).Any(field => Beginning(field, beginning).Any());

    /// <summary>The terms of a field that begin so, ordinal.</summary>
    /// <param name="field">0 to 3.</param>
    public IEnumerable<string> Beginning(int field, string beginning)
    {
        if (reader.GetTerms(SearchFields.Searched[field]) is not { } terms) yield break;
        var all = terms.GetEnumerator();
        var prefix = new BytesRef(beginning);
        for (var has = all.SeekCeil(prefix) != TermsEnum.SeekStatus.END; has
            && StringHelper.StartsWith(all.Term, prefix); has = all.MoveNext()) yield return all.Term.Utf8ToString();
    }

    /// <summary>The beginnings that are in the index and have a look: all spellings that it may stand for.</summary>
    /// <param name="look">A look, as a beginning.</param>
    public List<string> Spellings(string look)
    {
        var found = new List<string>();
        Spell(look, 0, "", found);
        return found;
    }

    // Character by character, as far as the index has such terms. A misread zero that leads a number has left its look.
    private void Spell(string look, int at, string spelled, List<string> found)
    {
        if (at == look.Length)
        {
            found.Add(spelled);
            return;
        }

        var leads = char.IsAsciiDigit(look[at]) && (at == 0 || !char.IsAsciiDigit(look[at - 1]));
        foreach (var letter in Misreadings.Letters(look[at]))
        {
            if (Begins(spelled + letter)) Spell(look, at + 1, spelled + letter, found);
        }

        if (leads && Begins(spelled + 'o')) Spell(look, at, spelled + 'o', found);
    }
}
