using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Reading.Syntax;

/// <summary>Cuts a very large YAML list into stretches that can be read side by side.</summary>
internal static class YamlSplitter
{
    // A quarter of a second of one core's work: below it, cutting is not worth the while.
    private const int Enough = 4 << 20;

    /// <summary>The stretches of a file, in order; the whole, unless it is a large list whose items begin at the start of a line.</summary>
    /// <param name="read">The part of a file that is read, from its beginning.</param>
    public static ImmutableArray<SourceSpan> Split(SourceSpan read)
    {
        var text = read.Source.Text;
        if (read.End < 2 * Enough || !IsList(text)) return [read];
        var parts = ImmutableArray.CreateBuilder<SourceSpan>();
        var start = 0;
        while (start < read.End)
        {
            var from = start + Enough;
            var next = from < read.End ? text.IndexOf("\n- ", from, read.End - from, StringComparison.Ordinal) : -1;
            var end = next < 0 ? read.End : next + 1;
            parts.Add(read.Slice(start, end - start));
            start = end;
        }

        return parts.DrainToImmutable();
    }

    /// <summary>Where the record begins that is around a place; 0 where none begins at the start of a line before it.</summary>
    /// <param name="text">The file's text.</param>
    /// <param name="at">The place, as an offset.</param>
    public static int StartOfRecord(string text, int at) =>
        text.LastIndexOf(IsList(text) ? "\n- " : "\n---", at, StringComparison.Ordinal) + 1;

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
