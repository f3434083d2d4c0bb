using System.Text;
using Archive.Records.Terms;

namespace Archive.Search.Analysis;

/// <summary>
/// The keys that a code is found by. <c>R2-05/S7/J14</c> is found whole and from each of its parts on; leading zeros do not matter.
/// <c>search-words.js</c> does the same with what is typed.
/// </summary>
/// <remarks>
/// A part ends at punctuation, and where a letter follows a digit: <c>07J14</c> is <c>07</c> and <c>J14</c>. From each part on there is a
/// key: the parts without leading zeros and without punctuation, but for a <c>-</c> where punctuation kept digits apart: <c>r2-5s7j14</c>,
/// <c>5s7j14</c>, <c>s7j14</c>, <c>j14</c>. (An O counts as a digit there, for it may be a misread zero.) Anyone who leaves that
/// punctuation out as well is helped by <see cref="CodePatterns"/>.
/// </remarks>
internal static class CodeKeys
{
    /// <summary>Longest key in characters; what goes beyond is cut.</summary>
    public const int Longest = 40;

    /// <summary>Most parts that are distinguished in one code.</summary>
    public const int MostParts = 12;

    /// <summary>Whether a folded chunk is read as a code: it holds a digit.</summary>
    /// <param name="folded">A chunk, folded.</param>
    public static bool IsCode(ReadOnlySpan<char> folded) => folded.ContainsAnyInRange('0', '9');

    /// <summary>The keys of a folded chunk, from each of its parts on.</summary>
    /// <param name="folded">A chunk without blanks.</param>
    public static IEnumerable<string> All(string folded)
    {
        var parts = Parts(folded);
        for (var from = 0; from < parts.Count; from++) yield return Joined(parts, from);
    }

    /// <summary>The key that a typed code is looked for by; empty where there is nothing but punctuation.</summary>
    /// <param name="folded">A chunk without blanks.</param>
    public static string Typed(string folded) => Joined(Parts(folded), 0);

    /// <summary>
    /// The looks that a misread code may have: as typed; with S, I, L and B taken for digits behind punctuation too; and with one boundary
    /// less, for a letter may have been read as a digit there.
    /// </summary>
    /// <param name="folded">A chunk without blanks.</param>
    public static IEnumerable<string> Looks(string folded)
    {
        var parts = Parts(folded);
        var strict = Misreadings.Look(Joined(parts, 0));
        var loose = Misreadings.Look(Joined(parts, 0, isLoose: true));
        yield return strict;
        if (loose != strict) yield return loose;
        for (var at = loose.LastIndexOf('-'); at > 0; at = loose.LastIndexOf('-', at - 1)) yield return loose.Remove(at, 1);
    }

    /// <summary>
    /// A typed key as the beginning of others: a run of nothing but zeros at its end may be the beginning of any number, and is left out.
    /// </summary>
    public static string AsPrefix(string key)
    {
        var end = key.Length;
        while (end > 0 && key[end - 1] == '0') end--;
        return end > 0 && char.IsAsciiDigit(key[end - 1]) ? key : key[..end];
    }

    /// <summary>The parts of a folded chunk.</summary>
    /// <param name="folded">A chunk without blanks.</param>
    internal static List<CodePart> Parts(string folded)
    {
        var parts = new List<CodePart>(4);
        var (start, isApart) = (-1, false);
        for (var i = 0; i <= folded.Length && parts.Count < MostParts; i++)
        {
            var inside = i < folded.Length && TextFolding.IsInside(folded[i]);
            var turns = inside && start >= 0 && char.IsAsciiDigit(folded[i - 1]) && !char.IsAsciiDigit(folded[i]);
            if (start >= 0 && (!inside || turns))
            {
                parts.Add(new CodePart(folded[start..i], isApart && parts.Count > 0));
                (start, isApart) = (-1, !turns);
            }

            if (inside && start < 0) start = i;
        }

        return parts;
    }

    private static string Joined(List<CodePart> parts, int from, bool isLoose = false)
    {
        if (from == parts.Count - 1) return Cut(LeadingZeros.Strip(parts[from].Text));
        var key = new StringBuilder();
        for (var i = from; i < parts.Count; i++)
        {
            var (text, isApart) = parts[i];
            if (isApart && key.Length > 0 && char.IsAsciiDigit(Misreadings.Digit(key[^1])) && (char.IsAsciiDigit(text[0])
                || text[0] == 'o'
                || (isLoose && char.IsAsciiDigit(Misreadings.Digit(text[0]))))) key.Append('-');
            key.Append(LeadingZeros.Strip(text));
        }

        return Cut(key.ToString());
    }

    private static string Cut(string key) => key.Length > Longest ? key[..Longest] : key;
}

/// <summary>A part of a code.</summary>
/// <param name="Text">Its letters and digits.</param>
/// <param name="IsApart">Whether punctuation stands before it.</param>
internal readonly record struct CodePart(string Text, bool IsApart);
