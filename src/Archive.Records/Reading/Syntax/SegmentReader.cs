namespace Archive.Records.Reading.Syntax;

/// <summary>Reads a stretch of a text without copying it, so that reading can begin again behind each of many errors.</summary>
/// <param name="start">Offset where to begin.</param>
/// <param name="end">Offset where to end.</param>
internal sealed class SegmentReader(string text, int start, int end) : TextReader
{
    private int _at = start;

    public override int Peek() => _at < end ? text[_at] : -1;

    public override int Read() => _at < end ? text[_at++] : -1;

    public override int Read(char[] buffer, int index, int count) => Read(buffer.AsSpan(index, count));

    public override int Read(Span<char> buffer)
    {
        var length = Math.Min(buffer.Length, end - _at);
        text.AsSpan(_at, length).CopyTo(buffer);
        _at += length;
        return length;
    }
}
