using System.Buffers;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Records.Reading.Syntax;

/// <summary>How much of a YAML file is read: what it costs to read and check depends on its values, not on its bytes.</summary>
internal static class YamlExtent
{
    /// <summary>Marks that a file can have: at least one precedes each value, and each link or tag in prose.</summary>
    public const int MostMarks = 600_000;

    private static readonly SearchValues<char> Marks = SearchValues.Create(",:[{<\n");

    /// <summary>The whole of a file, or its records up to the one with a mark too many, which is reported.</summary>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    public static SourceSpan Limit(SourceText source, DiagnosticBag diagnostics)
    {
        if (MarkBeyond(source.Text) is not { } beyond) return source.Whole;
        var start = YamlSplitter.StartOfRecord(source.Text, beyond);
        diagnostics.Add(DiagnosticDescriptors.TooManyValues.At(
            new SourceSpan(source, start > 0 ? start : beyond, 1),
            $"this file has more than {MostMarks} commas, colons, opening brackets and line ends; "
                + (start > 0 ? "this record and those after it are not read" : "it is not read"),
            "split the file into several"));
        return source.Whole.Slice(0, start);
    }

    private static int? MarkBeyond(string text)
    {
        var (at, count) = (0, 0);
        while (at < text.Length && text.AsSpan(at).IndexOfAny(Marks) is >= 0 and var next)
        {
            at += next + 1;
            if (++count > MostMarks) return at - 1;
        }

        return null;
    }
}
