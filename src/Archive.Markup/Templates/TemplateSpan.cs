using Archive.Diagnostics;

namespace Archive.Markup.Templates;

/// <summary>Places within templates.</summary>
internal static class TemplateSpan
{
    /// <summary>The library's span as ours. Its end is the last character, not the one behind it.</summary>
    /// <param name="source">The template.</param>
    /// <param name="span">A span that the library tells.</param>
    public static SourceSpan Locate(SourceText source, Scriban.Parsing.SourceSpan span)
    {
        var start = Math.Clamp(span.Start.Offset, 0, source.Text.Length);
        var end = Math.Clamp(span.End.Offset + 1, start, source.Text.Length);
        return new SourceSpan(source, start, end - start);
    }
}

/// <summary>Makes a library's message read like one of ours.</summary>
internal static class LibraryMessage
{
    /// <summary>Lower case at the start, no full stop at the end, one line.</summary>
    /// <param name="message">A message of the template library.</param>
    public static string Format(string message)
    {
        var line = string.Join(' ', message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).TrimEnd('.', ' ');
        return line.Length > 1 && char.IsUpper(line[0]) && !char.IsUpper(line[1]) ? char.ToLowerInvariant(line[0]) + line[1..] : line;
    }
}
