using Archive.Search.Analysis;
using Archive.Search.Documents;

namespace Archive.Search.Index;

/// <summary>Takes a document's texts apart into the terms of each field.</summary>
/// <param name="words">How prose is taken apart.</param>
internal sealed class DocumentTerms(ProseWords words)
{
    private const int BetweenTexts = 10;

    /// <summary>What the codes taught so far.</summary>
    public CodePatterns Patterns { get; } = new();

    /// <summary>Keys of what the record is.</summary>
    public TermList Own { get; } = new();

    /// <summary>Keys and stems of what it touches.</summary>
    public TermList Touches { get; } = new();

    /// <summary>Stems of what it is called.</summary>
    public TermList Name { get; } = new();

    /// <summary>Stems of its prose.</summary>
    public TermList Prose { get; } = new();

    /// <summary>Its groups.</summary>
    public TermList Facet { get; } = new();

    /// <summary>Takes a document apart; what was found of the one before is forgotten.</summary>
    public void Take(SearchDocument document)
    {
        foreach (var list in new[] { Own, Touches, Name, Prose, Facet }) list.Empty();
        TakeTouched(document.Noun);
        foreach (var text in document.Own) TakeOwn(text);
        foreach (var text in document.Touches) TakeTouched(text);
        foreach (var text in document.Names) TakeProse(text, Name);
        TakeProse(document.Prose, Prose);
        Facet.Add(SearchFields.TermOf(document.Noun), 1);
        foreach (var facet in document.Facets) Facet.Add(SearchFields.TermOf(facet), 1);
    }

    private void TakeTouched(string text)
    {
        foreach (var chunk in TextFolding.Chunks(text))
        {
            if (CodeKeys.IsCode(chunk)) AddKeys(chunk, Touches);
            else AddWords(chunk, Touches, 1);
        }
    }

    // What is printed on a thing is both key and word: ANT FEED is found as it stands, and as feeds.
    private void TakeOwn(string text)
    {
        var step = Name.Count == 0 ? 1 : BetweenTexts;
        foreach (var chunk in TextFolding.Chunks(text))
        {
            AddKeys(chunk, Own);
            step = CodeKeys.IsCode(chunk) ? step + 1 : AddWords(chunk, Name, step);
        }
    }

    // A code among words is a key that the record touches, and takes up the place of a word.
    private void TakeProse(string text, TermList into)
    {
        var step = into.Count == 0 ? 1 : BetweenTexts;
        foreach (var chunk in TextFolding.Chunks(text))
        {
            var isCode = CodeKeys.IsCode(chunk);
            if (isCode) AddKeys(chunk, Touches);
            step = isCode ? step + 1 : AddWords(chunk, into, step);
        }
    }

    private void AddKeys(string chunk, TermList into)
    {
        foreach (var key in CodeKeys.All(chunk)) into.Add(key, 1);
        Patterns.Learn(chunk);
    }

    // A stop word leaves its place empty.
    private int AddWords(string chunk, TermList into, int step)
    {
        foreach (var word in ProseWords.In(chunk))
        {
            if (words.IsStop(word))
            {
                step++;
                continue;
            }

            into.Add(words.Stem(word), step);
            step = 1;
        }

        return step;
    }
}
