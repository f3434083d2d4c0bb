using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Numerics;
using System.Text.RegularExpressions;

namespace Archive.Wiring.Labels;

/// <summary>
/// Which characters a pattern can tell apart. Two characters that each of its atoms (literals, <c>\d</c>, <c>[A-F]</c>) takes or refuses
/// alike are the same to it: labels that differ in nothing else match alike, and their groups stand at the same places.
/// </summary>
/// <remarks>Only ASCII is sorted into classes; any other character is a class of its own. Immutable.</remarks>
internal sealed class GlyphClasses
{
    private const int Ascii = 128;

    private readonly char[] _plain = new char[Ascii];

    private GlyphClasses(string pattern, IEnumerable<string> also)
    {
        var atoms = PatternAtoms.Parse(pattern);
        var takes = atoms?.Select(TestOf).ToArray() ?? [_ => true];
        var first = new Dictionary<string, char>(StringComparer.Ordinal);
        for (var glyph = '\0'; glyph < Ascii; glyph++)
        {
            // Beyond what can be taken apart, each character is a class of its own.
            var kind = atoms is null ? glyph.ToString() : string.Create(takes.Length, glyph, (kind, of) => Mark(kind, takes, of));
            first.TryAdd(kind, glyph);
            _plain[glyph] = first[kind];
        }

        var printed = Enumerable.Range(' ', '~' - ' ' + 1).Select(code => (char)code);
        var named = pattern.Concat(also.SelectMany(text => text)).Where(glyph => glyph >= Ascii && !char.IsSurrogate(glyph));
        ByClass = printed.Concat(named).Distinct()
            .GroupBy(PlainOf)
            .ToFrozenDictionary(glyphs => glyphs.Key, glyphs => glyphs.Order().ToImmutableArray());
        var plain = ByClass.Keys.Order().ToArray();
        Takes = atoms?.Zip(takes).ToFrozenDictionary(atom => atom.First, atom => Enumerable.Range(0, plain.Length)
            .Where(at => atom.Second(plain[at]))
            .Aggregate(BigInteger.Zero, (bits, at) => bits | (BigInteger.One << at)), StringComparer.Ordinal);
    }

    /// <summary>
    /// For each atom of the pattern, the classes that it takes: a bit each, in order of their plain characters. Null for a pattern with
    /// options of its own.
    /// </summary>
    internal FrozenDictionary<string, BigInteger>? Takes { get; }

    /// <summary>
    /// The characters that may stand on a label: all of ASCII that print, and those that pattern and tables name. By the plain character of
    /// their class.
    /// </summary>
    internal FrozenDictionary<char, ImmutableArray<char>> ByClass { get; }

    /// <summary>Sorts the characters.</summary>
    /// <param name="pattern">A regular expression that compiles.</param>
    /// <param name="also">Texts whose characters stand on labels too, such as keys of tables.</param>
    internal static GlyphClasses Create(string pattern, IEnumerable<string> also) => new(pattern, also);

    /// <summary>The first character that the pattern cannot tell from this one.</summary>
    /// <param name="glyph">A UTF-16 unit.</param>
    internal char PlainOf(char glyph) => glyph < Ascii ? _plain[glyph] : glyph;

    /// <summary>Writes a label with each character in plain.</summary>
    /// <param name="plain">Room for as many units.</param>
    internal void Write(ReadOnlySpan<char> label, Span<char> plain)
    {
        for (var at = 0; at < label.Length; at++) plain[at] = PlainOf(label[at]);
    }

    private static void Mark(Span<char> kind, Func<char, bool>[] takes, char glyph)
    {
        for (var at = 0; at < takes.Length; at++) kind[at] = takes[at](glyph) ? '1' : '0';
    }

    // The library itself says what an atom takes.
    private static Func<char, bool> TestOf(string atom)
    {
        if (atom.Length == 1 && atom != ".") return glyph => glyph == atom[0];
        var pattern = new Regex($@"\A(?:{atom})\z", RegexOptions.CultureInvariant);
        return glyph => pattern.IsMatch([glyph]);
    }
}
