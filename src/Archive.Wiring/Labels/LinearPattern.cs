using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Wiring.Labels;

// Compiles `reads`: only what is matched in time linear in the label, so that no label can stall a build.
internal static class LinearPattern
{
    private const int LongestPattern = 2000;

    // A long printed label described character by character has some eighty; what one character of a label can cost grows with them.
    private const int MostAtoms = 400;

    private static readonly (string Sign, string Name)[] NotLinear =
    [
        ("(?=", "looks ahead"), ("(?!", "looks ahead"), ("(?<=", "looks behind"), ("(?<!", "looks behind"), ("(?>", "has an atomic group"),
        ("(?(", "has a condition"), (@"\k", "refers back to a group"), (@"\G", "goes on from the last match"),
        .. Enumerable.Range(1, 9).Select(n => ($@"\{n}", "refers back to a group")),
    ];

    internal static Regex? Compile(Stated<string> reads, List<Diagnostic> diagnostics)
    {
        if (reads.Value.Length > LongestPattern)
        {
            diagnostics.Add(DiagnosticDescriptors.BadPattern.At(
                reads.Span, $"the pattern has more than {LongestPattern} characters", "write one scheme for each type of label"));
            return null;
        }

        try
        {
            var pattern = new Regex(
                reads.Value, RegexOptions.NonBacktracking | RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant);
            if (PatternAtoms.CountWrittenOut(reads.Value) <= MostAtoms) return pattern;
            diagnostics.Add(TooLarge(reads));
        }
        catch (RegexParseException wrong)
        {
            diagnostics.Add(Broken(reads, wrong));
        }
        catch (NotSupportedException)
        {
            diagnostics.Add(NotInLinearTime(reads));
        }

        return null;
    }

    private static Diagnostic Broken(Stated<string> reads, RegexParseException wrong)
    {
        // The library's sentence is "Invalid pattern '…' at offset 3. Unterminated [] set."
        var said = wrong.Message[(wrong.Message.LastIndexOf($"at offset {wrong.Offset}. ", StringComparison.Ordinal) + 1)..];
        var reason = said.Contains(". ", StringComparison.Ordinal)
            ? said[(said.IndexOf(". ", StringComparison.Ordinal) + 2)..].TrimEnd('.')
            : said;
        return DiagnosticDescriptors.BadPattern.At(
            reads.Part(Math.Max(0, wrong.Offset - 1), Math.Min(1, reads.Value.Length)),
            $"the pattern cannot be compiled: {Lowered(reason)}",
            "correct the regular expression here or before here");
    }

    private static Diagnostic NotInLinearTime(Stated<string> reads)
    {
        var (sign, name) = NotLinear
            .Where(known => reads.Value.Contains(known.Sign, StringComparison.Ordinal))
            .OrderBy(known => reads.Value.IndexOf(known.Sign, StringComparison.Ordinal))
            .FirstOrDefault();
        return sign is null
            ? TooLarge(reads)
            : DiagnosticDescriptors.BadPattern.At(
                reads.Part(reads.Value.IndexOf(sign, StringComparison.Ordinal), sign.Length),
                $"the pattern {name}, which cannot be matched in linear time",
                "describe the label from its first character to its last without it");
    }

    private static Diagnostic TooLarge(Stated<string> reads) => DiagnosticDescriptors.PatternTooLarge.At(
        reads.Span,
        string.Create(
            CultureInfo.InvariantCulture,
            $"the pattern describes more than {MostAtoms} characters, with repetitions such as `{{9}}` written out"),
        "lower the counts in braces, or write `+`");

    private static string Lowered(string text) => text.Length == 0 ? text : char.ToLowerInvariant(text[0]) + text[1..];
}
