using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using CsCheck;
using Xunit;

namespace Archive.Site.Tests;

public sealed class SearchIndexTests
{
    [Fact]
    public void Postings_read_back_as_the_documents_that_have_the_term()
    {
        var word = Gen.Char["abc12-"].Array[1, 6].Select(letters => new string(letters));
        Gen.Select(word.Array[1, 8].Select(words => string.Join(' ', words)), Gen.Int[1, 9]).Array[1, 400].Sample(texts =>
        {
            SearchDocument[] documents = [.. texts.Select((text, i) => new SearchDocument("frame", $"F{i}", "", "", "", [new(text.Item1, text.Item2)]))];
            var expected = new SortedDictionary<string, SortedDictionary<int, int>>(StringComparer.Ordinal);
            for (var i = 0; i < documents.Length; i++)
            {
                foreach (var term in SearchTerms.Of(documents[i].Fields[0].Text))
                {
                    if (!expected.TryGetValue(term, out var at)) expected[term] = at = [];
                    at[i] = documents[i].Fields[0].Weight;
                }
            }

            var actual = Read(SearchIndex.Of(documents));
            Assert.Equal(expected.Keys, actual.Keys);
            foreach (var (term, at) in expected) Assert.Equal(at, actual[term]);
        }, iter: 60);
    }

    [Fact]
    public void Record_text_cannot_leave_its_string()
    {
        SearchDocument hostile = new("frame", "F1", "</script><script>alert(1)</script>", "frames/F1/index.html", "\u2028'\"\\", [new("</script>\u2028 x\"y", 1)]);
        foreach (var text in Texts(SearchIndex.Of([hostile])).Values)
        {
            Assert.DoesNotContain("<", text, StringComparison.Ordinal);
            Assert.DoesNotContain("\u2028", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Shards_are_bounded_and_named_by_their_first_terms()
    {
        SearchDocument[] documents = [.. Enumerable.Range(0, 20000).Select(i => new SearchDocument("cable", $"C-{i:00000}", "", "", "", [new($"C-{i:00000}", 9)]))];
        var texts = Texts(SearchIndex.Of(documents));
        Assert.All(texts, file => Assert.InRange(file.Value.Length, 1, 120_000));
        var start = JsonDocument.Parse(Regex.Match(texts["search/index.js"], @"start\((.*)\);").Groups[1].Value).RootElement;
        var first = start.GetProperty("firstTerms").EnumerateArray().Select(term => term.GetString()!).ToArray();
        Assert.Equal(first.Order(StringComparer.Ordinal), first);
        for (var i = 0; i < first.Length; i++) Assert.Contains($"{{\"{first[i]}\":", texts[$"search/terms-{i}.js"], StringComparison.Ordinal);
    }

    private static Dictionary<string, string> Texts(IEnumerable<SiteFile> files) =>
        files.Cast<RenderedFile>().ToDictionary(file => file.Path, file => Encoding.UTF8.GetString(file.Render().Bytes.Span), StringComparer.Ordinal);

    // As the script reads it.
    private static SortedDictionary<string, SortedDictionary<int, int>> Read(IEnumerable<SiteFile> files)
    {
        var read = new SortedDictionary<string, SortedDictionary<int, int>>(StringComparer.Ordinal);
        foreach (var (_, text) in Texts(files).Where(file => file.Key.Contains("terms-", StringComparison.Ordinal)))
        {
            foreach (var term in JsonDocument.Parse(Regex.Match(text, @"terms\(\d+,(.*)\);", RegexOptions.Singleline).Groups[1].Value).RootElement.EnumerateObject())
            {
                var at = 0;
                var documents = new SortedDictionary<int, int>();
                foreach (Match posting in Regex.Matches(term.Value.GetString()!, "([0-9a-z]+)([A-I])"))
                {
                    at += posting.Groups[1].Value.Aggregate(0, (n, digit) => (36 * n) + "0123456789abcdefghijklmnopqrstuvwxyz".IndexOf(digit, StringComparison.Ordinal));
                    documents[at] = posting.Groups[2].Value[0] - 'A' + 1;
                }

                read[term.Name] = documents;
            }
        }

        return read;
    }
}
