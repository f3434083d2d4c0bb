using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace Archive.Preservation.Bags;

/// <summary>
/// Names with each letter taken apart into its base and its marks (Unicode's normal form D), so that two ways to write one letter compare
/// equal. The platform's own normalisation needs a library of the system's that this tool does without.
/// </summary>
internal static class CanonicalLetters
{
    // Hangul syllables are taken apart by arithmetic: The Unicode Standard, 3.12.
    private const int SBase = 0xAC00, LBase = 0x1100, VBase = 0x1161, TBase = 0x11A7, VCount = 21, TCount = 28, SCount = 11172;

    private static readonly Lazy<(FrozenDictionary<int, int[]> Parts, FrozenDictionary<int, int> Class)> Table = new(Read);

    /// <summary>A name taken apart; one that is no Unicode text as it is.</summary>
    internal static string Apart(string name)
    {
        if (name.All(char.IsAscii)) return name;
        var letters = new List<(int Letter, int Class)>(name.Length + 4);
        foreach (var rune in name.EnumerateRunes())
        {
            foreach (var part in PartsOf(rune.Value)) letters.Add((part, Table.Value.Class.GetValueOrDefault(part)));
        }

        var text = new StringBuilder(name.Length + 4);
        for (var i = 0; i < letters.Count;)
        {
            // Marks of one letter stand in the order of their classes; those of one class in the order in which they were written.
            var marks = letters.Skip(i).TakeWhile(each => each.Class > 0).Count();
            foreach (var (letter, _) in letters.GetRange(i, Math.Max(1, marks)).OrderBy(each => each.Class))
                text.Append(char.ConvertFromUtf32(letter));
            i += Math.Max(1, marks);
        }

        return text.ToString();
    }

    private static ReadOnlySpan<int> PartsOf(int letter)
    {
        var syllable = letter - SBase;
        if (syllable is >= 0 and < SCount)
        {
            var (l, v, t) =
                (LBase + (syllable / (VCount * TCount)), VBase + (syllable % (VCount * TCount) / TCount), TBase + (syllable % TCount));
            return t == TBase ? new[] { l, v } : new[] { l, v, t };
        }

        return Table.Value.Parts.TryGetValue(letter, out var parts) ? parts : new[] { letter };
    }

    private static (FrozenDictionary<int, int[]>, FrozenDictionary<int, int>) Read()
    {
        using var reader = new StreamReader(typeof(CanonicalLetters).Assembly.GetManifestResourceStream("canonical-letters")!);
        var (parts, classes) = (new Dictionary<int, int[]>(), new Dictionary<int, int>());
        while (reader.ReadLine() is { } line)
        {
            if (line.StartsWith('#')) continue;
            var words = line.Split(' ');
            if (words[1][0] == '~') classes[Hex(words[0])] = int.Parse(words[1].AsSpan(1), CultureInfo.InvariantCulture);
            else parts[Hex(words[0])] = [.. words.Skip(1).Select(Hex)];
        }

        return (parts.ToFrozenDictionary(), classes.ToFrozenDictionary());
    }

    private static int Hex(string digits) => int.Parse(digits, NumberStyles.HexNumber, CultureInfo.InvariantCulture);
}
