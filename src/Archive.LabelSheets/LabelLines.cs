using System.Globalization;
using Archive.Drawings.Svg;

namespace Archive.LabelSheets;

/// <summary>Words of a label, put into lines. What has no room is cut with an ellipsis: nobody takes a part for the whole.</summary>
internal static class LabelLines
{
    // The printing machine's own sans serif may run wider than the one that is measured by.
    private const double Slack = 1.08;
    private const string Ellipsis = "…";

    /// <summary>
    /// Whole words as far as they go, and parts of words that a hyphen joins; what is wider than a line is broken where the line ends, as
    /// is writing without blanks.
    /// </summary>
    /// <param name="size">Size of the type, in millimetres.</param>
    /// <param name="width">Width of a line, in millimetres.</param>
    /// <param name="joint">Behind what a word may be broken: a hyphen, or the stroke of an address.</param>
    internal static List<string> Wrap(string text, double size, double width, char joint = '-')
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Replace($"{joint}", $"{joint} ", StringComparison.Ordinal)
            .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            var longer = line.Length == 0 ? word : line[^1] == joint ? line + word : $"{line} {word}";
            if (Fits(longer, size, width))
            {
                line = longer;
                continue;
            }

            if (line.Length > 0) lines.Add(line);
            var parts = Broken(word, size, width);
            lines.AddRange(parts[..^1]);
            line = parts[^1];
        }

        if (line.Length > 0) lines.Add(line);
        return lines;
    }

    /// <summary>A word broken wherever a line ends, never within what a reader takes for one letter.</summary>
    /// <param name="word">The word, not empty.</param>
    /// <param name="size">Size of the type, in millimetres.</param>
    /// <param name="width">Width of a line, in millimetres.</param>
    internal static List<string> Broken(string word, double size, double width)
    {
        var lines = new List<string>();
        var line = "";
        for (var letters = StringInfo.GetTextElementEnumerator(word); letters.MoveNext();)
        {
            var letter = letters.GetTextElement();
            if (line.Length > 0 && !Fits(line + letter, size, width))
            {
                lines.Add(line);
                line = "";
            }

            line += letter;
        }

        lines.Add(line);
        return lines;
    }

    /// <summary>The first lines; where there are more, the last one ends in an ellipsis.</summary>
    /// <param name="most">How many there is room for.</param>
    /// <param name="size">Size of the type, in millimetres.</param>
    /// <param name="width">Width of a line, in millimetres.</param>
    internal static IEnumerable<string> First(List<string> lines, int most, double size, double width)
    {
        if (lines.Count <= most || most <= 0) return lines.Take(Math.Max(0, most));
        var letters = StringInfo.ParseCombiningCharacters(lines[most - 1]);
        var kept = letters.Length;
        while (kept > 1 && !Fits(
            lines[most - 1][..(kept < letters.Length ? letters[kept] : lines[most - 1].Length)].TrimEnd() + Ellipsis, size, width)) kept--;
        return lines.Take(most - 1)
            .Append(lines[most - 1][..(kept < letters.Length ? letters[kept] : lines[most - 1].Length)].TrimEnd() + Ellipsis);
    }

    private static bool Fits(string line, double size, double width) => TextMetrics.Width(line, size) * Slack <= width;
}
