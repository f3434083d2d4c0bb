using System.Buffers;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Records.Reading.Syntax;

/// <summary>
/// The letters as the YAML parser may see them. It takes U+0085, U+2028 and U+2029 for line ends, as YAML 1.1 did and 1.2 does not,
/// and stops at U+0000: each is given to it as a stand-in of the same length and put back in the values.
/// </summary>
internal sealed class YamlCharacters
{
    // YAML's printable characters leave these out (YAML 1.2, production 1).
    internal static readonly SearchValues<char> Controls =
        SearchValues.Create([.. Enumerable.Range(0, 32).Select(code => (char)code).Except(['\t', '\n', '\r']), '\u007f']);

    private static readonly SearchValues<char> Breaks = SearchValues.Create("\u0085\u2028\u2029");

    private readonly int _end;
    private readonly string _text;
    private readonly (char Letter, char StandIn)[] _swaps;

    private YamlCharacters(SourceSpan span, string text, (char Letter, char StandIn)[] swaps)
    {
        _end = span.End;
        _text = text;
        _swaps = swaps;
    }

    /// <summary>Looks over a text; control characters are reported.</summary>
    /// <param name="span">The stretch of a file that is YAML.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    public static YamlCharacters From(SourceSpan span, DiagnosticBag diagnostics)
    {
        var text = span.Source.Text.AsSpan(span.Start, span.Length);
        var hasControls = TellControls(span, diagnostics);
        if (!hasControls && text.IndexOfAny(Breaks) < 0) return new YamlCharacters(span, span.Source.Text, []);
        var swaps = SwapsFor(span.Source.Text);
        return new YamlCharacters(span, swaps.Aggregate(span.Source.Text, (said, swap) => said.Replace(swap.Letter, swap.StandIn)), swaps);
    }

    /// <summary>What the parser reads.</summary>
    /// <param name="start">Offset in the file where to begin.</param>
    public TextReader Reader(int start) => new SegmentReader(_text, start, _end);

    // Each run of them once.
    private static bool TellControls(SourceSpan span, DiagnosticBag diagnostics)
    {
        var text = span.Source.Text.AsSpan(span.Start, span.Length);
        var hasControls = false;
        for (var at = text.IndexOfAny(Controls); at >= 0 && !diagnostics.IsFull;)
        {
            hasControls = true;
            var length = text[at..].IndexOfAnyExcept(Controls);
            if (length < 0) length = text.Length - at;
            diagnostics.Add(DiagnosticDescriptors.YamlSyntax.At(
                span.Slice(at, length),
                $"control character U+{(int)text[at]:X4} in the text",
                "remove it; it is invisible, so type the value again"));
            var next = text[(at + length)..].IndexOfAny(Controls);
            at = next < 0 ? -1 : at + length + next;
        }

        return hasControls;
    }

    /// <summary>A value with its own letters again.</summary>
    /// <param name="value">As the parser gave it.</param>
    public string Restore(string value)
    {
        foreach (var (letter, standIn) in _swaps) value = value.Replace(standIn, letter);
        return value;
    }

    // Letters of the private use area stand in that the text does not hold; it cannot hold all 6,400 unless someone needs it to.
    private static (char Letter, char StandIn)[] SwapsFor(string text)
    {
        var held = text.ToHashSet();
        var free = Enumerable.Range(0xe000, 6400).Select(code => (char)code).Where(letter => !held.Contains(letter));
        return [.. held.Where(letter => Controls.Contains(letter) || Breaks.Contains(letter)).Order().Zip(free)];
    }
}
