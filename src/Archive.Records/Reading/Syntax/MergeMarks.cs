using Archive.Diagnostics;

namespace Archive.Records.Reading.Syntax;

/// <summary>Finds what git leaves in a file when it cannot combine two changes.</summary>
internal static class MergeMarks
{
    private const string Begin = "<<<<<<< ", End = ">>>>>>> ";

    /// <summary>The first line of marks that is closed by another; null for a file without a conflict.</summary>
    public static SourceSpan? Find(SourceText source)
    {
        if (LineOf(source.Text, Begin, 0) is not (>= 0 and var begin) || LineOf(source.Text, End, begin) < 0) return null;
        var length = source.Text.AsSpan(begin).IndexOfAny('\r', '\n');
        return new SourceSpan(source, begin, length < 0 ? source.Text.Length - begin : length);
    }

    private static int LineOf(string text, string mark, int from)
    {
        if (from == 0 && text.StartsWith(mark, StringComparison.Ordinal)) return 0;
        var at = text.IndexOf("\n" + mark, from, StringComparison.Ordinal);
        return at < 0 ? -1 : at + 1;
    }
}
