using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Reading.Syntax;

/// <summary>Cuts a very large YAML list into stretches that can be read side by side.</summary>
internal static class YamlSplitter
{
    // A quarter of a second of one core's work: below it, cutting is not worth the while.
    private const int Enough = 4 << 20;

    /// <summary>The stretches of a file, in order; the whole, unless it is a large list whose items begin at the start of a line.</summary>
    public static ImmutableArray<SourceSpan> Split(SourceText source)
    {
        var text = source.Text;
        if (text.Length < 2 * Enough || !IsList(text)) return [source.Whole];
        var parts = ImmutableArray.CreateBuilder<SourceSpan>();
        var start = 0;
        while (start < text.Length)
        {
            var next = start + Enough < text.Length ? text.IndexOf("\n- ", start + Enough, StringComparison.Ordinal) : -1;
            var end = next < 0 ? text.Length : next + 1;
            parts.Add(new SourceSpan(source, start, end - start));
            start = end;
        }

        return parts.DrainToImmutable();
    }

    // In a list whose items begin at the start of a line, no other line can begin so; unless another document follows.
    private static bool IsList(string text)
    {
        if (text.Contains("\n---", StringComparison.Ordinal) || text.Contains("\n...", StringComparison.Ordinal)) return false;
        foreach (var line in text.AsSpan().EnumerateLines())
        {
            if (line.StartsWith("- ", StringComparison.Ordinal)) return true;
            if (line.TrimStart() is { Length: > 0 } said && said[0] != '#') return false;
        }

        return false;
    }
}
