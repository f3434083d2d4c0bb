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
        if (reads.Value.IndexOf("(?P<", StringComparison.Ordinal) is >= 0 and var other)
        {
            var end = reads.Value.IndexOf('>', other);
            var length = end < 0 ? 4 : end + 1 - other;
            return DiagnosticDescriptors.BadPattern.At(
                reads.Part(other, length),
                $"`{reads.Value.Substring(other, length)}` is how other programs name a group",
                $"leave out the `P`: `(?<{reads.Value.Substring(other + 4, length - 4)}`");
        }

        if (wrong.Error is RegexParseError.UnterminatedBracket or RegexParseError.InsufficientClosingParentheses
            && Unclosed(reads.Value, wrong.Error == RegexParseError.UnterminatedBracket) is { } open)
        {
            return DiagnosticDescriptors.BadPattern.At(
                reads.Part(open, 1),
                $"this `{reads.Value[open]}` is never closed",
                reads.Value[open] == '['
                    ? "close it with `]`; if the sign itself is meant, write `\\[`"
                    : "close it with `)`; if the sign itself is meant, write `\\(`");
        }

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

    // Where the set, or else the outermost group, begins that is open at the end of a pattern.
    private static int? Unclosed(string pattern, bool isSet)
    {
        var groups = new Stack<int>();
        int? set = null;
        for (var at = 0; at < pattern.Length; at++)
        {
            var letter = pattern[at];
            if (letter == '\\') at++;
            else if (set is { } from)
            {
                // A bracket that closes nothing yet, `[]` or `[^]`, is a letter of the set.
                var isFirst = at == from + 1 || (at == from + 2 && pattern[from + 1] == '^');
                if (letter == ']' && !isFirst) set = null;
            }
            else if (letter == '[') set = at;
            else if (letter == '(') groups.Push(at);
            else if (letter == ')' && groups.Count > 0) groups.Pop();
        }

        return isSet ? set : groups.Count > 0 ? groups.Last() : null;
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
