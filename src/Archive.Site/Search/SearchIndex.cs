using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Archive.Site;

/// <summary>
/// The static index: what a small script reads, from a web host, a folder or a stick, by script tags alone. This is the search's one seam:
/// documents go in, files come out.
/// </summary>
/// <remarks>
/// <para>Files, all below <c>search/</c>: <c>index.js</c> names the shards; <c>terms-N.js</c> holds a run of the sorted terms with their postings;
/// <c>documents-N.js</c> holds 256 documents each. A posting is the distance to the document before in base 36, then a capital letter for its weight (A = 1).</para>
/// <para>Memory: eight bytes a posting while it is built. Cost: linear in the text, plus sorting the distinct terms.</para>
/// </remarks>
public static class SearchIndex
{
    private const int DocumentsInShard = 256;
    private const int CharactersInShard = 48 * 1024;

    // The default encoder keeps <, >, & and quotes out of the script as well as the page.
    private static readonly JavaScriptEncoder Encoder = JavaScriptEncoder.Default;

    /// <summary>The files of the index.</summary>
    /// <param name="documents">What is to be found, in the order that ties are shown.</param>
    public static ImmutableArray<SiteFile> Of(IReadOnlyList<SearchDocument> documents)
    {
        var shards = TermShards(Postings(documents));
        var files = ImmutableArray.CreateBuilder<SiteFile>();
        files.Add(Script("search/index.js", () => Start(documents.Count, shards)));
        for (var i = 0; i < shards.Count; i++)
        {
            var (number, shard) = (i, shards[i]);
            files.Add(Script($"search/terms-{number}.js", () => $"asfoundSearch.terms({number},{shard.Body});"));
        }

        for (var first = 0; first < documents.Count; first += DocumentsInShard)
        {
            var from = first;
            files.Add(Script($"search/documents-{from / DocumentsInShard}.js", () => Documents(documents, from)));
        }

        return files.ToImmutable();
    }

    private static SortedDictionary<string, List<(int Document, int Weight)>> Postings(IReadOnlyList<SearchDocument> documents)
    {
        var postings = new Dictionary<string, List<(int Document, int Weight)>>(StringComparer.Ordinal);
        for (var i = 0; i < documents.Count; i++)
        {
            foreach (var field in documents[i].Fields)
            {
                foreach (var term in SearchTerms.Of(field.Text)) Add(postings, term, i, field.Weight);
            }
        }

        return new SortedDictionary<string, List<(int, int)>>(postings, StringComparer.Ordinal);
    }

    // Documents come in order, so a term's last posting tells whether this document has it already; the best weight stands.
    private static void Add(Dictionary<string, List<(int Document, int Weight)>> postings, string term, int document, int weight)
    {
        if (!postings.TryGetValue(term, out var list)) postings[term] = list = new List<(int, int)>(1);
        if (list.Count == 0 || list[^1].Document != document) list.Add((document, weight));
        else if (list[^1].Weight < weight) list[^1] = (document, weight);
    }

    private static List<TermShard> TermShards(SortedDictionary<string, List<(int Document, int Weight)>> postings)
    {
        var shards = new List<TermShard>();
        var body = new StringBuilder();
        string? first = null;
        foreach (var (term, list) in postings)
        {
            first ??= term;
            body.Append(body.Length == 0 ? "{" : ",").Append('"').Append(Encoder.Encode(term)).Append("\":\"");
            Encode(body, list);
            body.Append('"');
            if (body.Length < CharactersInShard) continue;
            shards.Add(new TermShard(first, body.Append('}').ToString()));
            body.Clear();
            first = null;
        }

        if (first is not null) shards.Add(new TermShard(first, body.Append('}').ToString()));
        return shards;
    }

    private static void Encode(StringBuilder into, List<(int Document, int Weight)> list)
    {
        var before = 0;
        Span<char> digits = stackalloc char[8];
        foreach (var (document, weight) in list)
        {
            var distance = document - before;
            before = document;
            var at = digits.Length;
            do
            {
                digits[--at] = "0123456789abcdefghijklmnopqrstuvwxyz"[distance % 36];
                distance /= 36;
            }
            while (distance > 0);
            into.Append(digits[at..]).Append((char)('A' + Math.Clamp(weight, 1, 9) - 1));
        }
    }

    private static string Start(int documents, List<TermShard> shards) => string.Create(
        CultureInfo.InvariantCulture,
        $"asfoundSearch.start({{\"documents\":{documents},\"inShard\":{DocumentsInShard},\"firstTerms\":{Json(shards.Select(shard => shard.FirstTerm))}}});");

    private static string Documents(IReadOnlyList<SearchDocument> documents, int first)
    {
        var rows = documents.Skip(first).Take(DocumentsInShard).Select(d => new[] { d.Noun, d.Id, d.Title == d.Id ? "" : d.Title, d.Page, d.Says });
        return string.Create(CultureInfo.InvariantCulture, $"asfoundSearch.found({first / DocumentsInShard},{Json(rows)});");
    }

    private static string Json<T>(T value) => JsonSerializer.Serialize(value);

    private static RenderedFile Script(string path, Func<string> text) => new(path, () => new Rendering(Encoding.UTF8.GetBytes(text() + "\n"), []));

    private sealed record TermShard(string FirstTerm, string Body);
}
