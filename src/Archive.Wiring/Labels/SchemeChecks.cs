using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>The schemes compared with themselves: patterns compile, meanings name what is captured, examples read as stated.</summary>
public static class SchemeChecks
{
    /// <summary>Characters that a set of confusions can have.</summary>
    internal const int MostConfused = 20;

    /// <summary>Sets of confusions that a scheme can have.</summary>
    internal const int MostConfusions = 100;

    /// <summary>Checks every scheme that stands.</summary>
    /// <returns>What is wrong, in <see cref="Diagnostic.Order"/>.</returns>
    public static ImmutableArray<Diagnostic> Check(JudgedPrint print) =>
        DiagnosticList.Collect(print.Schemes.SelectMany(Check).Concat(TooMany(print.Record)));

    private static IEnumerable<Diagnostic> TooMany(ArchiveModel record) =>
        record.Schemes.Where(scheme => !scheme.IsWithdrawn).Skip(CompiledScheme.MostSchemes).Take(1)
            .Select(first => DiagnosticDescriptors.TooManySchemes.At(
                first.IdSpan,
                $"more than {CompiledScheme.MostSchemes} label schemes; this one and others are not tried on any label",
                "use one scheme for all labels of one type: a table says what their parts mean"));

    private static IEnumerable<Diagnostic> Check(CompiledScheme compiled)
    {
        var scheme = compiled.Scheme;
        // Examples of a scheme that cannot be compiled would only say so again.
        var examples = compiled.Errors.IsEmpty && scheme.Reads is not null && !scheme.Means.IsEmpty ? scheme.Examples : [];
        return compiled.Errors
            .Concat(scheme.Confusions.Take(MostConfusions).Select(Judge).OfType<Diagnostic>())
            .Concat(TooManySets(scheme))
            .Concat(examples.SelectMany(example => Judge(compiled, example)));
    }

    private static IEnumerable<Diagnostic> TooManySets(LabelScheme scheme) => scheme.Confusions.Skip(MostConfusions).Take(1)
        .Select(first => DiagnosticDescriptors.BadConfusion.At(
            first.Span,
            $"more than {MostConfusions} sets of characters; this one and others are not used",
            "list only characters that are easily mistaken for each other on these labels"));

    private static IEnumerable<Diagnostic> Judge(CompiledScheme scheme, SchemeExample example)
    {
        var label = example.Label;
        var reading = scheme.Read(label.Value, out var stumble);
        if (stumble is { Table: { } table })
        {
            yield return DiagnosticDescriptors.TableLacksEntry.At(
                label.Part(stumble.Start, stumble.Length),
                $"the example cannot be read: {stumble.Why}",
                $"add the entry to table `{table}`, or correct the example");
        }
        else if (stumble is not null)
        {
            yield return DiagnosticDescriptors.ExampleReadsOtherwise.At(
                label.Span, $"the example reads differently: {stumble.Why}", "correct `means`, or the example");
        }
        else if (reading is null)
        {
            yield return DiagnosticDescriptors.ExampleNotMatched.At(
                label.Span,
                $"the scheme does not match its example `{label.Value}`",
                "correct the pattern, or the example",
                new Related(scheme.Scheme.Reads!.Value.Span, "the pattern"));
        }
        else
        {
            foreach (var diagnostic in Compare(reading, example)) yield return diagnostic;
        }
    }

    private static IEnumerable<Diagnostic> Compare(LabelReading reading, SchemeExample example)
    {
        if (reading.Means.Length != example.Means.Length)
        {
            yield return DiagnosticDescriptors.ExampleReadsOtherwise.At(
                example.Label.Span,
                $"`{reading.Label}` reads as {Report(reading.Means)}, and {Counted(example.Means.Length)} stated",
                "state one address for each entry of `means`, or correct them");
            yield break;
        }

        for (var end = 0; end < reading.Means.Length; end++)
        {
            var (means, stated) = (reading.Means[end], example.Means[end]);
            if (means == stated.Value) continue;
            yield return DiagnosticDescriptors.ExampleReadsOtherwise.At(
                stated.Span,
                $"`{reading.Label}` reads as `{means}` here, not `{stated.Value}`",
                "correct the pattern, `means` or a table, or the example");
        }
    }

    private static string Report(ImmutableArray<Address> addresses) => string.Join(" and ", addresses.Select(address => $"`{address}`"));

    private static string Counted(int addresses) => addresses == 1 ? "one address is" : $"{addresses} addresses are";

    private static Diagnostic? Judge(Stated<string> confusion)
    {
        var glyphs = confusion.Value.EnumerateRunes().ToList();
        if (glyphs.Count < 2)
        {
            return DiagnosticDescriptors.BadConfusion.At(
                confusion.Span,
                $"`{confusion.Value}` is a single character",
                "write at least two characters that are mistaken for each other, such as `O0`");
        }

        if (glyphs.Count > MostConfused)
        {
            return DiagnosticDescriptors.BadConfusion.At(
                confusion.Span,
                $"a set of {glyphs.Count} characters; at most {MostConfused} are used",
                "list only characters that are easily mistaken for each other on these labels");
        }

        var at = 0;
        var seen = new HashSet<Rune>();
        foreach (var glyph in glyphs)
        {
            if (Rune.IsWhiteSpace(glyph)) return DiagnosticDescriptors.BadConfusion.At(
                confusion.Part(at, glyph.Utf16SequenceLength),
                "a space among the characters",
                "write the characters together, such as `I1l`");
            if (!seen.Add(glyph)) return DiagnosticDescriptors.BadConfusion.At(
                confusion.Part(at, glyph.Utf16SequenceLength), $"character `{glyph}` is listed twice", "list each character once");
            at += glyph.Utf16SequenceLength;
        }

        return null;
    }
}
