using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Architecture.Tests.PlainEnglish;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>
/// No line of C# is longer than .editorconfig says, except for a long string literal with little beside it: to break it would change it.
/// </summary>
public sealed partial class LineLengthTests
{
    // Enough for "return " or an argument's name before the literal, and the brackets after it.
    private const int MostBeside = 20;

    private static readonly int Most = int.Parse(
        Setting().Match(File.ReadAllText(Path.Combine(Repository.Root, ".editorconfig"))).Groups[1].Value, CultureInfo.InvariantCulture);

    [Fact]
    public void No_line_is_longer_than_the_editor_is_told()
    {
        var files = Repository.Sources.ToList();
        Assert.True(files.Count > 800);
        var found = from file in files
                    from line in TooLong(File.ReadAllText(file))
                    select $"{Path.GetRelativePath(Repository.Root, file)}:{line}";
        Assert.Empty(found);
    }

    [Fact]
    public void Only_a_literal_may_be_too_long()
    {
        var words = new string('w', Most);
        var source = $"""
            var short = 1;
            var {words} = 1;
            return $"{words}";
            var aNameOfTwentyLetters = "{words}";
            // {words}
            Call("{words}", "and more of the same");
            var raw = $'''
                {words}
                ''';
            """.Replace("'''", "\"\"\"", StringComparison.Ordinal);
        Assert.Equal([2, 4, 5, 6], TooLong(source));
    }

    private static IEnumerable<int> TooLong(string source)
    {
        if (source.Split('\n').All(line => line.Length <= Most)) yield break;
        var literals = CSharpStrings.Spans(source).ToList();
        var (number, begin) = (0, 0);
        foreach (var line in source.Split('\n'))
        {
            number++;
            var (first, end) = (begin + line.Length - line.TrimStart().Length, begin + line.TrimEnd('\r').Length);
            begin += line.Length + 1;
            if (line.Length <= Most) continue;
            var literal = literals.Select(each => Math.Min(end, each.End) - Math.Max(first, each.Begin)).DefaultIfEmpty(0).Max();
            if (end - first - Math.Max(0, literal) > MostBeside) yield return number;
        }
    }

    [GeneratedRegex(@"^max_line_length = (\d+)$", RegexOptions.Multiline)]
    private static partial Regex Setting();
}
