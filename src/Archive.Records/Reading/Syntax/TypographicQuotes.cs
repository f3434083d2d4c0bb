using System.Buffers;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Records.Reading.Syntax;

/// <summary>Finds values in the quotes of a word processor, which are a part of the text to YAML.</summary>
internal static class TypographicQuotes
{
    private static readonly SearchValues<char> Open = SearchValues.Create("“„”‘‚’«»"), Close = SearchValues.Create("”“’‘»«");

    /// <summary>A warning for a value that begins and ends with such quotes; null for any other.</summary>
    public static Diagnostic? Around(ScalarNode value) =>
        value is { Form: ScalarNotation.Plain, Text.Length: > 1 }
            && Open.Contains(value.Text[0])
            && Close.Contains(value.Text[^1])
            && value.Text.AsSpan(1, value.Text.Length - 2).IndexOfAny(Open) < 0
            ? DiagnosticDescriptors.QuotesInValue.At(
                value.Span,
                $"the quotes in `{value.Short}` are a part of the text",
                $"write straight quotes, `\"{value.Text[1..^1]}\"`; if these are on the thing itself, put straight quotes around them")
            : null;
}
