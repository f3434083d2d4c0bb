using System.Security.Cryptography;
using System.Text;
using Archive.Records.Model;
using Archive.Search.Documents;
using Archive.Search.Shards;
using Archive.Storage.Output;
using CsCheck;
using Xunit;

namespace Archive.Search.Tests;

public sealed class SearchIndexTests
{
    [Fact]
    public void Record_text_cannot_leave_its_string()
    {
        SearchDocument hostile = new(RecordKind.Frame, "F1")
        {
            Title = "</script><script>alert(1)</script>",
            Lead = "\u2028'\"\\",
            Own = ["F1</script>"],
            Names = ["</script>\u2028 x\"y"],
            Prose = "`${alert(1)}`",
            Facets = [new SearchFacet(FacetKind.Module, "</script>\"\\")],
        };
        foreach (var file in SearchIndex.Create([hostile]).Cast<RenderedFile>())
        {
            var text = Encoding.UTF8.GetString(file.Render().Bytes.Span);
            Assert.DoesNotContain("<", text, StringComparison.Ordinal);
            Assert.DoesNotContain("\u2028", text, StringComparison.Ordinal);
            Assert.DoesNotContain("alert(", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_same_record_gives_the_same_bytes()
    {
        var documents = Cables.Made(500);
        Assert.Equal(Bytes(), Bytes());

        IEnumerable<string> Bytes() => SearchIndex.Create(
            documents).Cast<RenderedFile>().Select(file => $"{file.Path} {Convert.ToHexString(file.Render().Bytes.Span)}").ToList();
    }

    [Fact]
    public void Shards_are_bounded()
    {
        foreach (var file in SearchIndex.Create(Cables.Made(6000)).Cast<RenderedFile>())
            Assert.InRange(file.Render().Bytes.Length, 1, 100_000);
    }

    // Now and then one more word makes a shard too large: it is cut in two, and those behind it have other numbers.
    [Fact]
    public void One_more_word_rewrites_the_shards_that_it_is_in_and_seldom_others()
    {
        var documents = Cables.Made(1500);
        var before = Written(documents);
        Assert.True(before.Count > 40);
        string[] words = ["aardvark", "mizzen", "zymurgy", "q7-1199", "c-9999", "r01-77", "12-3456", "bosun"];
        var rewritten = words.Select((word, i) => Written([.. documents.Select((document, at) => at == 100 + (150 * i)
                ? document with { Touches = [.. document.Touches, word] }
                : document)])
            .Count(file => before.GetValueOrDefault(file.Key) != file.Value)).ToList();
        Assert.All(rewritten, count => Assert.True(count > 0));
        Assert.True(rewritten.Count(count => count <= 8) >= 6, string.Join(' ', rewritten));

        static SortedDictionary<string, string> Written(IReadOnlyList<SearchDocument> documents) => new(
            SearchIndex.Create(documents, null, new ShardSizes(2 * 1024, 1024)).Cast<RenderedFile>()
                .ToDictionary(file => file.Path, file => Convert.ToHexString(SHA256.HashData(file.Render().Bytes.Span))),
            StringComparer.Ordinal);
    }

    [Fact]
    public void Codes_that_have_only_letters_in_common_across_a_cut_have_no_heads()
    {
        SearchDocument[] documents =
        [
            .. new[] { 'B', 'C' }
                .SelectMany(letter => Enumerable.Range(0, 300).Select(number => FormattableString.Invariant($"A{letter}{number:000}")))
                .Select(id => new SearchDocument(RecordKind.Cable, id) { Own = [id] }),
        ];

        var files = SearchIndex.Create(documents, null, new ShardSizes(1400, 1024)).Select(file => file.Path).ToList();

        Assert.Contains("search/codes-1.js", files);
        Assert.DoesNotContain(files, path => path.StartsWith("search/codes-heads", StringComparison.Ordinal));
    }

    // Cutting from the beginning, each shard as full as it can be, moves every cut behind one more entry.
    [Fact]
    public void One_more_entry_of_a_list_seldom_moves_a_cut_and_never_most_of_them()
    {
        var random = new Random(4);
        string[] looks = [.. Enumerable.Range(0, 9000).Select(_ => Look()).Distinct().Order(StringComparer.Ordinal)];
        var before = CutsOf(looks);
        Assert.InRange(before.Count, 50, 200);
        var moved = Enumerable.Range(0, 200)
            .Select(_ => CutsOf([.. looks.Append(Look()).Distinct().Order(StringComparer.Ordinal)]))
            .Select(after => after.Except(before).Count())
            .ToList();
        Assert.True(moved.Count(count => count > 0) <= 20, $"{moved.Count(count => count > 0)} of 200 moved a cut");
        Assert.True(moved.Max() <= before.Count / 2);

        string Look() => $"r{random.Next(20):00}{(char)('a' + random.Next(6))}{random.Next(1000):000}";

        static HashSet<string> CutsOf(string[] looks) =>
            [.. ShardCuts.Find(looks, [.. looks.Select(look => 2 + (look[^1] % 3))], 400).Skip(1).Select(first => looks[first])];
    }

    [Fact]
    public void A_list_is_cut_into_shards_that_are_neither_full_beyond_their_limit_nor_nearly_empty()
    {
        var looks = Enumerable.Range(0, 20_000).Select(i => $"r{i * 7919 % 20_000:00000}").Order(StringComparer.Ordinal).ToList();
        var firsts = ShardCuts.Find(looks, [.. looks.Select(_ => 3)], 600);
        Assert.Equal(0, firsts[0]);
        var sizes = firsts.Zip([.. firsts.Skip(1), looks.Count], (first, next) => 3 * (next - first)).ToList();
        Assert.All(sizes, size => Assert.InRange(size, 150, 600));

        // What looks alike stays together, however much it is.
        Assert.Equal([0, 1, 1001], ShardCuts.Find(["a", .. Enumerable.Repeat("b", 1000), "c"], [.. Enumerable.Repeat(10, 1002)], 600));
        Assert.Equal([0], ShardCuts.Find([], [], 600));
    }

    [Fact]
    public void No_documents_are_an_index_too()
    {
        using var folder = new TemporaryFolder();
        ScriptSide.Write(SearchIndex.Create([]), folder.Root);
        Assert.Equal(
            0, Assert.Single(ScriptSide.Ask<ScriptFind[]>(new ScriptQuestion("find", ["anything 12"]) { Site = folder.Root })).Total);
    }

    [Fact]
    public void What_is_packed_is_ASCII()
    {
        Gen.Byte.Array[0, 3000].Sample(bytes => Assert.All(
            ScriptEncoding.Pack(bytes), letter => Assert.True(letter is >= '!' and <= '~' and not '"' and not '\\' and not '<')));
    }
}
