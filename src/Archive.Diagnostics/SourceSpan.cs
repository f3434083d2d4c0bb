namespace Archive.Diagnostics;

/// <summary>A stretch of a source text: where a value stands, or where an error lies.</summary>
/// <param name="Start">Offset of the first character in UTF-16 units, from 0.</param>
/// <param name="Length">Length in UTF-16 units; zero marks a point.</param>
public readonly record struct SourceSpan(SourceText Source, int Start, int Length)
{
    /// <summary>Offset behind the last character.</summary>
    public int End => Start + Length;

    /// <summary>Path of the file relative to the archive's folder.</summary>
    public string Path => Source.Path;

    /// <summary>Where the span begins, counted from 0.</summary>
    public LinePosition From => Source.PositionOf(Start);

    /// <summary>The text of the span, exactly as written.</summary>
    public string Text =>
        Source.Text.Substring(Math.Min(Start, Source.Text.Length), Math.Max(0, Math.Min(Length, Source.Text.Length - Start)));

    /// <summary>A part of this span.</summary>
    /// <param name="start">Offset within the span, from 0.</param>
    /// <param name="length">Length in UTF-16 units.</param>
    public SourceSpan Slice(int start, int length) => new(Source, Start + start, length);

    /// <summary><c>path:line:column</c>, both counted from 1.</summary>
    public override string ToString() => $"{Path}:{From.Line + 1}:{From.Column + 1}";
}
