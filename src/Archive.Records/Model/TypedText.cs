using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>
/// A text exactly as typed: its value has lost its indentation and escapes. Finds where parts of the value stand in the file.
/// </summary>
/// <remarks>Asked in the order of the text, the same part costs no more for standing there many times. Not thread-safe.</remarks>
public sealed class TypedText(Stated<string> stated)
{
    // How far the value and the file were looked through for a part.
    private readonly Dictionary<string, (int Value, int Source)> _reached = new(StringComparer.Ordinal);

    /// <summary>Where a stretch of the value stands in its file.</summary>
    /// <param name="start">Offset of the stretch within the value, from 0.</param>
    /// <returns>The first line of the stretch where it is found as it is; else the whole value.</returns>
    public SourceSpan Of(int start, int length)
    {
        var value = stated.Value;
        if (start < 0 || length <= 0 || start + length > value.Length) return stated.Span;
        var stretch = value.AsSpan(start, length);
        if (stretch.IndexOf('\n') is >= 0 and var end) stretch = stretch[..end].TrimEnd();
        if (stretch.IsEmpty) return stated.Span;

        // The same stretch may stand several times: the one with as many before it.
        var source = stated.Span.Source.Text.AsSpan(0, Math.Min(stated.Span.End, stated.Span.Source.Text.Length));
        var part = stretch.ToString();
        var (inValue, inSource) = _reached.GetValueOrDefault(part, (0, stated.Span.Start));
        if (inValue > start) (inValue, inSource) = (0, stated.Span.Start);
        while (Next(value, part, inValue) is >= 0 and var before && before < start)
        {
            if (Next(source, part, inSource) is not (>= 0 and var skipped)) return stated.Span;
            (inValue, inSource) = (before + 1, skipped + 1);
        }

        _reached[part] = (inValue, inSource);
        return Next(source, part, inSource) is >= 0 and var found ? new SourceSpan(stated.Span.Source, found, part.Length) : stated.Span;
    }

    private static int Next(ReadOnlySpan<char> text, string part, int from)
    {
        var at = from > text.Length ? -1 : text[from..].IndexOf(part);
        return at < 0 ? -1 : from + at;
    }
}
