using System.Text.RegularExpressions;

namespace Archive.Architecture.Tests.PlainEnglish;

/// <summary>
/// Finds the comments of C# source that have a line of their own. What is set as code, quoted or a tag in them is blanked out.
/// </summary>
public static partial class CSharpComments
{
    /// <summary>The comments, line by line.</summary>
    public static IEnumerable<(int Line, string Text)> In(string source)
    {
        var literals = CSharpStrings.Spans(source).Where(span => source.AsSpan(span.Begin, span.End - span.Begin).Contains('\n')).ToList();
        var (number, begin) = (0, 0);
        foreach (var line in source.Split('\n'))
        {
            number++;
            var at = begin;
            begin += line.Length + 1;
            if (Comment().Match(line) is not { Success: true } comment || literals.Any(span => span.Begin < at && at < span.End)) continue;
            yield return (number, Tag().Replace(NotProse().Replace(comment.Groups[1].Value, "·"), ""));
        }
    }

    [GeneratedRegex(@"^\s*///?(?!/)(.*)$")]
    private static partial Regex Comment();

    [GeneratedRegex("""<c>.*?</c>|<(?:see|paramref|typeparamref)\b[^>]*>|`[^`]*`|"[^"]*"|“[^”]*”""")]
    private static partial Regex NotProse();

    [GeneratedRegex("<[^>]+>")]
    private static partial Regex Tag();
}
