using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Archive.Search.Analysis;

namespace Archive.Search.Finding;

/// <summary>A word that was typed, a code, or a phrase in quotes.</summary>
/// <param name="IsWithout">Whether it must not stand in what is found.</param>
internal abstract record QueryTerm(string Typed, bool IsWithout);

/// <summary>A chunk that holds a digit.</summary>
/// <param name="IsWithout">Whether it must not stand in what is found.</param>
/// <param name="Chunk">Folded.</param>
internal sealed record QueryCode(string Typed, bool IsWithout, string Chunk) : QueryTerm(Typed, IsWithout);

/// <summary>A word without digits.</summary>
/// <param name="IsWithout">Whether it must not stand in what is found.</param>
/// <param name="Word">Folded.</param>
internal sealed record QueryWord(string Typed, bool IsWithout, string Word) : QueryTerm(Typed, IsWithout);

/// <summary>Words that stand together.</summary>
/// <param name="IsWithout">Whether they must not stand so in what is found.</param>
/// <param name="Chunks">Folded.</param>
internal sealed record QueryPhrase(string Typed, bool IsWithout, ImmutableArray<string> Chunks) : QueryTerm(Typed, IsWithout);

/// <summary>Reads what was typed, as <c>search-find.js</c> reads it.</summary>
internal static partial class QueryParser
{
    /// <summary>The words of a query, in order.</summary>
    /// <param name="typed">What was typed.</param>
    public static ImmutableArray<QueryTerm> Parse(string typed)
    {
        var words = ImmutableArray.CreateBuilder<QueryTerm>();
        foreach (Match match in Each().Matches(typed))
        {
            if (!match.Groups["word"].Success)
            {
                ImmutableArray<string> chunks = [.. TextFolding.Chunks(match.Groups["phrase"].Value)];
                if (chunks.Length > 0)
                    words.Add(new QueryPhrase(match.Groups["phrase"].Value.Trim(), match.Groups["not"].Value.Length > 0, chunks));
                continue;
            }

            var word = match.Groups["word"].Value;
            var isWithout = word.Length > 1 && word[0] == '-';
            words.AddRange(Words(isWithout ? word[1..] : word, isWithout));
        }

        return words.ToImmutable();
    }

    private static IEnumerable<QueryTerm> Words(string word, bool isWithout)
    {
        foreach (var chunk in TextFolding.Chunks(word))
        {
            if (CodeKeys.IsCode(chunk)) yield return new QueryCode(word, isWithout, chunk);
            else foreach (var prose in ProseWords.In(chunk)) yield return new QueryWord(prose, isWithout, prose);
        }
    }

    [GeneratedRegex("""(?<not>-?)"(?<phrase>[^"]*)("|$)|(?<word>\S+)""")]
    private static partial Regex Each();
}
