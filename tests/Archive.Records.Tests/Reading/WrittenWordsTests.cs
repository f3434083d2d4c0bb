using System.Text;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Records.Tests.Reading;

/// <summary>What YAML 1.1, JSON or a spreadsheet would take for a truth, a number or a time is kept as written.</summary>
public class WrittenWordsTests
{
    public static TheoryData<string> Words => ["NO", "yes", "on", "012", "007", "1e3", "0x1F", "1_000", "1.0", "1.50", "010"];

    [Theory]
    [MemberData(nameof(Words))]
    public void An_id_is_kept(string word)
    {
        Assert.Equal(word, Archives.ReadOnly<Cable>("cables/a.yaml", $"- {{id: {word}, kind: k}}\n").Id);
        Assert.Equal(word, Archives.ReadOnly<Cable>("cables/a.csv", $"id,kind\n{word},k\n").Id);
    }

    [Theory]
    [MemberData(nameof(Words))]
    [InlineData("12:30")]
    [InlineData("1:2:3")]
    [InlineData("-5")]
    [InlineData("+5")]
    [InlineData(".5")]
    [InlineData("2026-05-12")]
    [InlineData("0o17")]
    [InlineData(".inf")]
    [InlineData("True")]
    public void A_label_or_tag_is_kept(string word)
    {
        foreach (var cable in new[]
        {
            Archives.ReadOnly<Cable>(
                "cables/a.yaml", $"- id: C\n  kind: {word}\n  label: {word}\n  ends: [{{label: {word}, connector: {word}}}]\n"),
            Archives.ReadOnly<Cable>("cables/a.csv", $"id;kind;label\nC;{word};{word}\n"),
        })
        {
            Assert.Equal((word, word), (cable.Label!.Value.Value, cable.Kind!.Value.Value));
            Assert.All(cable.Ends, end => Assert.Equal((word, word), (end.Label!.Value.Value, end.Connector!.Value.Value)));
        }
    }

    [Fact]
    public void An_address_and_a_port_are_kept()
    {
        var cable = Archives.ReadOnly<Cable>("cables/a.yaml", "- {id: C, kind: k, ends: [{at: 012/1e3/007}, {at: NO}]}\n");
        Assert.Equal(["012/1e3/007", "NO"], cable.Ends.Select(end => end.At!.Value.Value.ToString()));
    }

    [Theory]
    [InlineData(",", "\"6.4 m\"")]
    [InlineData(";", "6,4 m")]
    [InlineData("\t", "6,4 m")]
    public void A_table_is_read_whatever_parts_its_cells(string separator, string length)
    {
        foreach (var start in new[] { "", "\ufeff", $"sep={separator}\r\n", $"\ufeffsep={separator}\n" })
        {
            var rows = new[] { "id,kind,label,a,b,length,was,,".Split(','), ["C", "k", "x", "A/1", "B", length, "D E", "", ""] };
            var text = start + string.Concat(rows.Select(row => string.Join(separator, row) + "\r\n"));
            var parsed = RecordReader.Read(InMemoryFolder.Empty
                .With("archive.yaml", "title: T\n")
                .With("cables/a.csv", Encoding.UTF8.GetBytes(text)), TestContext.Current.CancellationToken);
            Assert.Empty(parsed.Diagnostics);
            var cable = Assert.IsType<Cable>(Assert.Single(parsed.Records));
            Assert.Equal(("C", "x", 6.4), (cable.Id, cable.Label!.Value.Value, cable.Length!.Value.Value.Meters));
            Assert.Equal(["A/1", "B"], cable.Ends.Select(end => end.At!.Value.Value.ToString()));
            Assert.Equal(["D", "E"], cable.Was.Select(was => was.Value));
            Assert.Equal("x", cable.Label.Value.Span.Text);
        }
    }

    [Fact]
    public void A_table_can_say_how_facts_are_known_and_why_they_changed()
    {
        var cables = Archives.Read("cables/a.csv", """
            id,kind,label,label_from,a,b,b_note,length,length_from,length_by,length_on,length_note,withdrawn
            C-1,k,x,printed,A,B,the other port,6 m,measured,it,2026-05-14,first reading was of the wrong cable,
            C-2,,,,,,,,,,,,two records of one cable
            """).Records.Cast<Cable>().ToList();
        var length = cables[0].Length!.Value.Evidence!;
        Assert.Equal(
            (EvidenceSource.Measured, "it", "2026-05-14", "first reading was of the wrong cable"),
            (length.From!.Value.Value, length.By!.Value.Value, length.On!.Value.Value.Text, length.Note!.Value.Value));
        Assert.Equal(EvidenceSource.Printed, cables[0].Label!.Value.Evidence!.From!.Value.Value);
        Assert.Null(cables[0].Ends[0].At!.Value.Evidence);
        Assert.Equal("the other port", cables[0].Ends[1].At!.Value.Evidence!.Note!.Value.Value);
        Assert.Equal("two records of one cable", cables[1].Withdrawn!.Value.Value);
    }
}
