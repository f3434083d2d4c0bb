namespace Archive.Diagnostics;

/// <summary>A file of the record as it was read: its path within the archive and its decoded text.</summary>
/// <param name="path">Path relative to the archive's folder, separated by <c>/</c>.</param>
/// <param name="text">The decoded text, without a byte order mark; empty for a file that could not be read or has no text.</param>
public sealed class SourceText(string path, string text)
{
    private int[]? _lineStarts;

    /// <summary>Path relative to the archive's folder, separated by <c>/</c>.</summary>
    public string Path { get; } = path;

    /// <summary>The decoded text.</summary>
    public string Text { get; } = text;

    /// <summary>Number of lines, at least one.</summary>
    public int LineCount => LineStarts.Length;

    // Found on first need: most files are never quoted. A race computes the same array twice, harmlessly.
    private int[] LineStarts => _lineStarts ??= FindLineStarts(Text);

    /// <summary>The whole text as a span.</summary>
    public SourceSpan Whole => new(this, 0, Text.Length);

    /// <summary>Offset of a position given by line and column.</summary>
    /// <param name="line">Line, from 0; clamped to the text.</param>
    /// <param name="column">Column in UTF-16 units, from 0; clamped to the text.</param>
    /// <returns>Offset in UTF-16 units, from 0.</returns>
    public int OffsetOf(int line, int column)
    {
        var start = LineStarts[Math.Clamp(line, 0, LineStarts.Length - 1)];
        return Math.Min(start + Math.Max(column, 0), Text.Length);
    }

    /// <summary>Line and column of an offset.</summary>
    /// <param name="offset">Offset in UTF-16 units, from 0; clamped to the text.</param>
    public LinePosition PositionOf(int offset)
    {
        offset = Math.Clamp(offset, 0, Text.Length);
        var line = Array.BinarySearch(LineStarts, offset);
        if (line < 0) line = ~line - 1;
        return new LinePosition(line, offset - LineStarts[line]);
    }

    /// <summary>A line without its line end.</summary>
    /// <param name="line">Line, from 0; clamped to the text.</param>
    public string Line(int line)
    {
        line = Math.Clamp(line, 0, LineStarts.Length - 1);
        var end = line + 1 < LineStarts.Length ? LineStarts[line + 1] : Text.Length;
        return Text[LineStarts[line]..end].TrimEnd('\r', '\n');
    }

    private static int[] FindLineStarts(string text)
    {
        var starts = new List<int> { 0 };
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n' || (text[i] == '\r' && (i + 1 >= text.Length || text[i + 1] != '\n'))) starts.Add(i + 1);
        }

        return [.. starts];
    }
}

/// <summary>A place in a text. Both count from 0; add one to print.</summary>
/// <param name="Line">Line, from 0.</param>
/// <param name="Column">Column in UTF-16 units, from 0.</param>
public readonly record struct LinePosition(int Line, int Column);
