using Archive.Diagnostics;
using Archive.Records.Model;

namespace Archive.Wiring.Labels;

internal static class WrittenPart
{
    // The span of a text may hold quotes around it; where it was written with escapes, the whole is reported.
    internal static SourceSpan Part(this Stated<string> stated, int start, int length)
    {
        var quoted = stated.Span.Text.IndexOf(stated.Value, StringComparison.Ordinal);
        return quoted < 0 || start < 0 || start + length > stated.Value.Length ? stated.Span : stated.Span.Slice(quoted + start, length);
    }
}
