using Archive.Records.Facts;
using Archive.Records.Reading.Values;

namespace Archive.Records.Editing;

/// <summary>A key and its value as lines of a block: lists of mappings with a line for each item, all else in one line.</summary>
internal static class YamlLines
{
    /// <summary>The lines, without the break behind the last.</summary>
    /// <param name="format">What can be behind the key.</param>
    /// <param name="indent">Blanks before the key.</param>
    public static IEnumerable<string> Of(FactEntry entry, NodeFormat? format, string indent, string newLine)
    {
        var key = indent + YamlScalars.Key(entry.Key, isFlow: false) + ":";
        var comment = entry.Comment is { } said ? $" # {YamlScalars.Comment(said)}" : "";
        if (entry.Value is FactList { IsPlain: false } list)
        {
            yield return key + comment;
            foreach (var item in list.Items)
                yield return $"{indent}- {YamlScalars.Inline(item, FactFormats.AsItem(format), isFlow: item is not SingleFact)}";
            yield break;
        }

        var isText = entry.Value is SingleFact text && text.Value.Contains('\n', StringComparison.Ordinal) && comment.Length == 0;
        var value = (isText ? YamlScalars.Block(((SingleFact)entry.Value).Value, indent + "  ", newLine) : null)
            ?? YamlScalars.Inline(entry.Value, format, isFlow: false);
        yield return $"{key} {value}{comment}";
    }
}
