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
