using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Places within a text as it was typed: a value has lost its indentation and escapes.</summary>
public static class TypedSpan
{
    /// <summary>Where a stretch of a value stands in its file.</summary>
    /// <param name="stated">The value.</param>
    /// <param name="start">Offset of the stretch within the value, from 0.</param>
    /// <param name="length">Its length.</param>
    /// <returns>The first line of the stretch where it is found as it is; else the whole value.</returns>
    public static SourceSpan Of(Stated<string> stated, int start, int length)
    {
        var value = stated.Value;
        if (start < 0 || length <= 0 || start + length > value.Length) return stated.Span;
        var stretch = value.AsSpan(start, length);
        if (stretch.IndexOf('\n') is >= 0 and var end) stretch = stretch[..end].TrimEnd();
        if (stretch.IsEmpty) return stated.Span;

        // The same stretch may stand several times: the one with as many before it.
        var before = Count(value.AsSpan(0, start), stretch);
        var (source, from, to) = (stated.Span.Source.Text, stated.Span.Start, Math.Min(stated.Span.End, stated.Span.Source.Text.Length));
        for (var at = from; at < to; at++)
        {
            var found = source.AsSpan(at, to - at).IndexOf(stretch);
            if (found < 0) break;
            at += found;
            if (before-- == 0) return new SourceSpan(stated.Span.Source, at, stretch.Length);
        }

        return stated.Span;
    }

    private static int Count(ReadOnlySpan<char> text, ReadOnlySpan<char> stretch)
    {
        var count = 0;
        for (var at = text.IndexOf(stretch); at >= 0; at = text.IndexOf(stretch))
        {
            count++;
            text = text[(at + 1)..];
        }

        return count;
    }
}
