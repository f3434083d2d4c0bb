using Xunit;

namespace Archive.Architecture.Tests.PlainEnglish;

/// <summary>
/// What readers meet is plain, present-day English: none of the listed phrases is left. The published demo is looked at by
/// Archive.Browser.Tests.
/// </summary>
public class PlainEnglishTests
{
    private static readonly Phrase[] Phrases = Phrase.Read(
        File.ReadLines(Path.Combine(Repository.Root, "tests/Archive.Architecture.Tests/PlainEnglish/phrases.tsv")));

    [Fact]
    public void No_listed_phrase_is_left()
    {
        var left = from text in ReaderText.All(Repository.Root)
                   from phrase in Phrases
                   from match in phrase.In(text.Text)
                   let line = text.Line + text.Text.AsSpan(0, match.Index).Count('\n')
                   select $"{text.File}:{line}: “{match.Value}”; write: {phrase.Write}";
        Assert.Empty(left.Distinct());
    }

    [Fact]
    public void No_listed_phrase_is_left_in_comments()
    {
        var phrases = Phrases.Where(phrase => !phrase.IsForReadersOnly).ToArray();
        var left = from file in Repository.Sources
                   from comment in CSharpComments.In(File.ReadAllText(file))
                   from phrase in phrases
                   from match in phrase.In(comment.Text)
                   select $"{Path.GetRelativePath(Repository.Root, file)}:{comment.Line}: “{match.Value}”; write: {phrase.Write}";
        Assert.Empty(left);
    }

    [Fact]
    public void Comments_are_found_without_what_is_code_or_quoted()
    {
        const string Source = """"
            /// <summary>A fault, see <c>faults.txt</c> and <see cref="Fault"/>.</summary>
            var text = """
                // no comment
                """;
            // Told `told` as “told”; "told"
            """";
        Assert.Equal(
            [(1, "A fault, see · and ·."), (5, "Told · as ·; ·")],
            CSharpComments.In(Source).Select(comment => (comment.Line, comment.Text.Trim())));
    }

    [Fact]
    public void Every_place_that_readers_meet_is_looked_at()
    {
        var files = ReaderText.All(Repository.Root).Select(text => text.File).ToHashSet(StringComparer.Ordinal);
        Assert.Superset(new HashSet<string>(StringComparer.Ordinal)
        {
            "README.md", "DEVELOPERS.md", "SECURITY.md", "CHANGELOG.md", "src/Archive.Cli/Help/check.txt",
                "src/Archive.Diagnostics/Pages/AF0101.md",
                "themes/ledger/templates/cable.html", "themes/ledger/templates/parts/sheet.html",
                "themes/ledger/assets/offline.js", "themes/ledger/README.md",
            }, files);
        Assert.Superset(Repository.Projects.Where(project => project != "Archive.Markup").ToHashSet(StringComparer.Ordinal), files.Where(
            file => file.EndsWith(".cs", StringComparison.Ordinal)).Select(file => file.Split('/')[1]).ToHashSet(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("A knot: work it as one", true)]
    [InlineData("two KNOTS here", true)]
    [InlineData("knotted rope", false)]
    [InlineData("what the\nsurvey still owes", true)]
    [InlineData("Sheet 3 of 10", true)]
    [InlineData("Crew sheet: taking the cables out", false)]
    [InlineData("can be printed on paper", false)]
    [InlineData("Stands: arrived", true)]
    [InlineData("where the frames stand", false)]
    [InlineData("estimated or told", false)]
    [InlineData("estimated, or told by W.", true)]
    [InlineData("default", false)]
    [InlineData("a fault in it", true)]
    public void A_phrase_is_found_as_whole_words_outside_of_its_exceptions(string text, bool isFound) =>
        Assert.Equal(isFound, Phrases.SelectMany(phrase => phrase.In(text)).Any());

    [Fact]
    public void Strings_are_found_with_their_lines_and_without_what_is_filled_in()
    {
        const string Source = """"
            // "a comment" is none
            var a = "one two"; /* "nor this" */ var quote = '"';
            var b = $"{Told(x, "in side")} and {(n == 1 ? "one thing" : $"{n} things")} more";
            var c = @"say ""it"" twice"; var d = $$"""raw {{fault}} text""";
            """";
        Assert.Equal(
            [
                (2, "one two"), (3, "· and · more"), (3, "in side"), (3, "one thing"), (3, "· things"), (4, "say \"it\" twice"),
                (4, "raw · text")
            ],
            CSharpStrings.In(Source));
    }

    [Fact]
    public void Every_phrase_has_its_replacement_and_is_listed_once()
    {
        Assert.All(Phrases, phrase => Assert.NotEmpty(phrase.Write));
        Assert.Equal(Phrases.Length, Phrases.DistinctBy(phrase => phrase.Pattern.ToString()).Count());
    }
}
