using System.Text.RegularExpressions;

namespace Archive.Architecture.Tests.PlainEnglish;

/// <summary>A phrase that readers should not meet.</summary>
/// <param name="Pattern">What is looked for, between word boundaries.</param>
/// <param name="Write">What to write instead.</param>
/// <param name="Except">Texts in which it is right.</param>
/// <param name="IsForReadersOnly">Whether comments may have it: it is a term of the code there.</param>
public sealed record Phrase(Regex Pattern, string Write, string[] Except, bool IsForReadersOnly)
{
    /// <summary>The phrases of a list in the form of <c>phrases.tsv</c>.</summary>
    public static Phrase[] Read(IEnumerable<string> lines) =>
        [.. from line in lines
            where line.Length > 0 && !line.StartsWith('#')
            let cells = line.Split('\t')
            let except = cells.ElementAtOrDefault(2) ?? ""
            select Create(cells[0], cells[1], except.Length > 0 ? except.Split(" | ") : [], cells.ElementAtOrDefault(3) == "readers")];

    /// <summary>Where a text has the phrase, outside of what is excepted.</summary>
    /// <param name="text">The text, its white space as it is.</param>
    public IEnumerable<Match> In(string text) => Pattern.Matches(text).Where(match => !Except.Any(right => Covers(text, right, match)));

    private static bool Covers(string text, string right, Match match)
    {
        for (var at = text.IndexOf(
            right, StringComparison.OrdinalIgnoreCase); at >= 0; at = text.IndexOf(right, at + 1, StringComparison.OrdinalIgnoreCase))
        {
            if (at <= match.Index && match.Index + match.Length <= at + right.Length) return true;
        }

        return false;
    }

    private static Phrase Create(string phrase, string write, string[] except, bool isForReadersOnly)
    {
        var isExact = phrase.StartsWith("(?-i)", StringComparison.Ordinal);
        var pattern = (isExact ? phrase[5..] : phrase).Replace(" ", @"\s+", StringComparison.Ordinal);
        return new Phrase(new Regex($@"(?<!\w)(?:{pattern})(?!\w)", (isExact
            ? RegexOptions.None
            : RegexOptions.IgnoreCase) | RegexOptions.CultureInvariant | RegexOptions.Multiline), write, except, isForReadersOnly);
    }
}
