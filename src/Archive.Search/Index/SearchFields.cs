using Archive.Search.Documents;
using Lucene.Net.Index;

namespace Archive.Search.Index;

/// <summary>
/// The fields of the index and what a match in each is worth. Codes carry neither counts nor lengths: a cable is not more C-0417 for saying
/// so twice; their score is the rarity of the key alone.
/// </summary>
/// <remarks>The weights are the house's choice, tried on the demo; <c>search-index.js</c> reads them from the index.</remarks>
public static class SearchFields
{
    /// <summary>Keys of what the record is: id, former ids, label.</summary>
    public const string Own = "own";

    /// <summary>Keys and stems of what it touches: ends, what it shows, people, dates.</summary>
    public const string Touches = "touches";

    /// <summary>Stems of what it is called, with counts, places and lengths.</summary>
    public const string Name = "name";

    /// <summary>Stems of its prose, with counts, places and lengths.</summary>
    public const string Prose = "prose";

    /// <summary>Groups it belongs to.</summary>
    public const string Facet = "facet";

    /// <summary>What is shown of it; stored, not searched.</summary>
    public const string Shown = "shown";

    /// <summary>The four that are searched, in the order in which the shards keep them.</summary>
    public static readonly string[] Searched = [Own, Touches, Name, Prose];

    /// <summary>What an exact match in each is worth.</summary>
    public static readonly float[] Weights = [4f, 1f, 5f, 1f];

    /// <summary>Whether a field says what the record is or is called, rather than what it touches or what is said of it.</summary>
    /// <param name="field">Place in <see cref="Searched"/>.</param>
    public static bool IsOwn(int field) => field is 0 or 2;

    /// <summary>Score of a word that only begins a key or word of what the record is or is called.</summary>
    public const float BeginsOwn = 1f;

    /// <summary>Score of a word that only begins another key or word.</summary>
    public const float BeginsOther = .5f;

    /// <summary>
    /// Score of a word that is only nearly one of what the record is or is called; twice that where it looks the same from end to end.
    /// </summary>
    public const float NearlyOwn = .8f;

    /// <summary>Score of a word that is only nearly another key or word; twice that likewise.</summary>
    public const float NearlyOther = .4f;

    /// <summary>How keys are indexed.</summary>
    public static Lucene.Net.Documents.FieldType Keys { get; } =
        new() { IsIndexed = true, IsTokenized = true, OmitNorms = true, IndexOptions = IndexOptions.DOCS_ONLY };

    /// <summary>How words are indexed.</summary>
    public static Lucene.Net.Documents.FieldType WordsInPlace { get; } =
        new() { IsIndexed = true, IsTokenized = true, OmitNorms = false, IndexOptions = IndexOptions.DOCS_AND_FREQS_AND_POSITIONS };

    /// <summary>A kind of record as a term of <see cref="Facet"/>.</summary>
    /// <param name="noun">What one is called, such as <c>frame</c>.</param>
    public static string TermOf(string noun) => $"={noun}";

    /// <summary>A group as a term of <see cref="Facet"/>.</summary>
    /// <param name="facet">The group.</param>
    public static string TermOf(SearchFacet facet) => $"{(int)facet.By}{facet.Value}";
}
