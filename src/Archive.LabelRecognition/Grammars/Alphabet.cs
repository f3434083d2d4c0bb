using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace Archive.LabelRecognition.Grammars;

/// <summary>The characters that may stand on a label: what prints in ASCII, and what pattern and lists name besides.</summary>
internal sealed class Alphabet
{
    internal const int Most = 128;

    private readonly Dictionary<char, int> _index;

    private Alphabet(ImmutableArray<char> glyphs)
    {
        Glyphs = glyphs;
        _index = glyphs.Select((glyph, at) => (glyph, at)).ToDictionary(entry => entry.glyph, entry => entry.at);
        All = glyphs.Length == Most ? UInt128.MaxValue : (UInt128.One << glyphs.Length) - 1;
    }

    /// <summary>All characters; a character's place is its bit in a set.</summary>
    internal ImmutableArray<char> Glyphs { get; }

    /// <summary>The set of all characters.</summary>
    internal UInt128 All { get; }

    /// <summary>The alphabet of a pattern and its lists; null where they name too many characters, or some beyond UTF-16 units.</summary>
    internal static Alphabet? From(string pattern, IEnumerable<string> also)
    {
        var named = pattern.Concat(also.SelectMany(text => text)).Where(glyph => glyph is >= (char)128 && !char.IsControl(glyph)).ToList();
        if (named.Exists(char.IsSurrogate)) return null;
        var glyphs = Enumerable.Range(' ', '~' - ' ' + 1).Select(code => (char)code).Concat(named.Distinct().Order()).ToImmutableArray();
        return glyphs.Length > Most ? null : new Alphabet(glyphs);
    }

    /// <summary>The character's place; -1 where it is none of the alphabet.</summary>
    internal int IndexOf(char glyph) => _index.GetValueOrDefault(glyph, -1);

    /// <summary>The characters that a part of a pattern takes. The library itself says which.</summary>
    /// <param name="atom">What takes one character: <c>\d</c>, <c>[A-F]</c>.</param>
    /// <returns>Null where the library does not compile it.</returns>
    internal UInt128? Takes(string atom)
    {
        if (atom is [var only] && only != '.') return IndexOf(only) is var at and >= 0 ? UInt128.One << at : UInt128.Zero;
        try
        {
            var pattern = new Regex($@"\A(?:{atom})\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture);
            return Glyphs.Select((glyph, at) => pattern.IsMatch([glyph]) ? UInt128.One << at : UInt128.Zero)
                .Aggregate(UInt128.Zero, (set, bit) => set | bit);
        }
        catch (RegexParseException)
        {
            return null;
        }
    }
}
