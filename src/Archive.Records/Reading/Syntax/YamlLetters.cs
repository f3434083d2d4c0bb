using System.Buffers;
using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>
/// The letters as the YAML parser may see them. It takes U+0085, U+2028 and U+2029 for line ends, as YAML 1.1 did and 1.2 does not,
/// and stops at U+0000: each is given to it as a stand-in of the same length and put back in the values.
/// </summary>
internal sealed class YamlLetters
{
    // YAML's printable characters leave these out (YAML 1.2, production 1).
    private static readonly SearchValues<char> Controls =
        SearchValues.Create([.. Enumerable.Range(0, 32).Select(code => (char)code).Except(['\t', '\n', '\r']), '\u007f']);

    private readonly string _text;
    private readonly (char Letter, char StandIn)[] _swaps;

    private YamlLetters(string text, (char Letter, char StandIn)[] swaps)
    {
        _text = text;
        _swaps = swaps;
    }

    /// <summary>Looks over a text; control characters are told of.</summary>
    /// <param name="source">The file.</param>
    /// <param name="start">Offset of the YAML.</param>
    /// <param name="end">Offset behind it.</param>
    /// <param name="told">Where faults are told.</param>
    public static YamlLetters Of(SourceText source, int start, int end, List<Diagnostic> told)
    {
        var text = source.Text;
        var rest = text.AsSpan(start, end - start);
        var control = rest.IndexOfAny(Controls);
        if (control >= 0)
        {
            told.Add(Faults.YamlSyntax.At(
                new SourceSpan(source, start + control, 1),
                $"control character U+{(int)rest[control]:X4} in the text",
                "take it out; it is not seen on the screen, so type the value anew"));
        }

        var swaps = SwapsFor(text, control >= 0);
        foreach (var (letter, standIn) in swaps) text = text.Replace(letter, standIn);
        return new YamlLetters(text, swaps);
    }

    /// <summary>What the parser reads.</summary>
    /// <param name="start">Offset where to begin.</param>
    /// <param name="end">Offset where to end.</param>
    public TextReader Reader(int start, int end) => new StringReader(start == 0 && end == _text.Length ? _text : _text[start..end]);

    /// <summary>A value with its own letters again.</summary>
    /// <param name="value">As the parser gave it.</param>
    public string Restore(string value)
    {
        foreach (var (letter, standIn) in _swaps) value = value.Replace(standIn, letter);
        return value;
    }

    private static (char Letter, char StandIn)[] SwapsFor(string text, bool hasControls)
    {
        var letters = "\u0085\u2028\u2029".Where(letter => text.Contains(letter)).ToList();
        if (hasControls) letters.AddRange(text.Where(Controls.Contains).Distinct());
        if (letters.Count == 0) return [];

        // Letters of the private use area that the text does not hold; it cannot hold all 6,400 unless someone wants it to.
        var free = Enumerable.Range(0xe000, 6400).Select(code => (char)code).Where(letter => !text.Contains(letter));
        return [.. letters.Zip(free)];
    }
}
