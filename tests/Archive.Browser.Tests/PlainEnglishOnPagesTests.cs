using System.Net;
using System.Text.RegularExpressions;
using Archive.Architecture.Tests.PlainEnglish;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>
/// The pages of the demo as readers meet them, without its stories and what else its people wrote: none of the phrases of phrases.tsv is
/// left.
/// </summary>
public sealed partial class PlainEnglishOnPagesTests(DemoSite demo)
{
    [Fact]
    public void No_listed_phrase_is_on_a_page()
    {
        var phrases = Phrase.Read(
            File.ReadLines(Path.Combine(DemoSite.Repository, "tests/Archive.Architecture.Tests/PlainEnglish/phrases.tsv")));
        var record = Plain(
            string.Join(' ', Directory.EnumerateFiles(Path.Combine(DemoSite.Repository, "content"), "*", SearchOption.AllDirectories)
                .Where(file => Path.GetExtension(file) is ".yaml" or ".md" or ".csv").Select(File.ReadAllText)));
        var left = from page in demo.Pages
                   where !page.StartsWith("stories/", StringComparison.Ordinal)
                   from text in ReaderText.Visible(File.ReadAllText(Path.Combine(demo.Site, page)))
                       .Split(" | ")
                       .Select(Plain)
                       .Distinct(StringComparer.Ordinal)
                   where text.Length > 0 && !record.Contains(text, StringComparison.Ordinal)
                   from phrase in phrases
                   from match in phrase.In(text)
                   where !record.Contains(Around(text, match), StringComparison.Ordinal)
                   select $"{page}: “{match.Value}” in “{text}”; write: {phrase.Write}";
        Assert.Empty(left.Take(20));
    }

    // With the word before and the word behind: so much of a sentence is its author's.
    private static string Around(string text, Match match)
    {
        var before = text[..match.Index].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var behind = text[(match.Index + match.Length)..].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return string.Join(' ', [.. before.TakeLast(1), match.Value, .. behind.Take(1)]);
    }

    // Text without marks of Markdown and YAML, and without addresses, on one line.
    private static string Plain(string text) =>
        Blanks().Replace(Marks().Replace(Addresses().Replace(WebUtility.HtmlDecode(text), " "), " "), " ").Trim();

    [GeneratedRegex(@"https?://\S+")]
    private static partial Regex Addresses();

    [GeneratedRegex("""[*_`"\[\]|#“”]""")]
    private static partial Regex Marks();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();
}
