using System.Globalization;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reading.Kinds;
using Archive.Records.Reading.Syntax;
using Xunit;

namespace Archive.Records.Tests.Reading;

/// <summary>Files made to upset the reader: they are reported, and cost no more than their length.</summary>
public class HostileTests
{
    [Fact]
    public void Brackets_a_hundred_thousand_deep() =>
        Assert.Equal(["frames/a.yaml:1:66 AF0103"], Archives.Read("frames/a.yaml", new string('[', 100_000)).Places());

    [Fact]
    public void A_file_made_of_faults_is_told_up_to_a_limit()
    {
        var parsed = Archives.Read("frames/a.yaml", string.Concat(Enumerable.Repeat("- text\n", 30_000)));
        Assert.Equal(10_001, parsed.Diagnostics.Length);
        Assert.Equal("frames/a.yaml:10001:3 AF0008", parsed.Places()[^1]);
    }

    [Fact]
    public void Nine_thousand_syntax_errors_are_each_told_and_gone_on_from()
    {
        var parsed = Archives.Read(
            "frames/a.yaml", string.Concat(Enumerable.Repeat("- {id: F-1, name: [}\n", 9_000)) + "- {id: F-2, name: last}\n");
        Assert.Equal(9_000, parsed.Diagnostics.Length);
        Assert.Equal("last", Assert.Single(parsed.Records).Name?.Value);
    }

    [Fact]
    public void A_record_without_end()
    {
        var parsed = Archives.Read("frames/a.yaml", "id: F-1\nname: x\nneeds: [" + string.Concat(Enumerable.Repeat("a,", 300_000)) + "]");
        Assert.Equal("AF0104", Assert.Single(parsed.Diagnostics).Code);
    }

    [Fact]
    public void A_mapping_with_very_many_keys()
    {
        var table = string.Concat(Enumerable.Range(0, 60_000).Select(i => $"    k{i}: v\n"));
        var scheme = Archives.ReadOnly<LabelScheme>("schemes/a.yaml", $"id: S-1\nreads: x\nmeans: [y]\ntables:\n  row:\n{table}");
        Assert.Equal(60_000, scheme.Tables["row"].Count);
        var twice = Archives.Read("schemes/a.yaml", $"id: S-1\nreads: x\nmeans: [y]\ntables:\n  row:\n{table}    k7: w\n");
        Assert.Equal(["schemes/a.yaml:60006:5 AF0105"], twice.Places());
    }

    [Theory]
    [InlineData("cables/a.csv", "id,kind\n", "C-{0},k\n", 100_000)]
    [InlineData("frames/a.yaml", "", "- {{id: C-{0}, name: F}}\n", 100_000)]
    [InlineData("photos/a.yaml", "", "- {{id: C-{0}, file: a.jpg}}\n", 25_000)]
    public void Of_very_many_records_in_a_file_the_first_are_read(string path, string header, string record, int most)
    {
        var text = header + string.Concat(Enumerable.Range(0, most).Select(i => string.Format(CultureInfo.InvariantCulture, record, i)));
        Assert.Empty(Archives.Read(path, text).Diagnostics);
        var parsed = Archives.Read(path, text
            + string.Format(CultureInfo.InvariantCulture, record, "more")
            + string.Format(CultureInfo.InvariantCulture, record, "last"));
        Assert.Equal(("AF0012", "C-more"), (Assert.Single(parsed.Diagnostics).Code, parsed.Diagnostics[0].Span.Text));
        Assert.Equal((most, $"C-{most - 1}"), (parsed.Records.Length, parsed.Records[^1].Id));
    }

    // A list, documents, a list in one pair of brackets, and what is no record at all.
    [Theory]
    [InlineData("- {id: F-A, name: F}\n", "- {id: F-B, name: F, needs: [", "a,", "]}\n", 1)]
    [InlineData("---\nid: F-A\nname: F\n", "---\nid: F-B\nname: F\nneeds: [", "a,", "]\n", 1)]
    [InlineData("[{id: F-A, name: F}", ", {id: F-B, name: F, needs: [", "a,", "]}]", 0)]
    [InlineData("", "- {id: F-B, name: F, needs: [", "a,", "]}\n", 0)]
    public void Of_a_file_of_very_many_values_what_comes_before_them_is_read(string first, string begin, string part, string end, int read)
    {
        const int Room = YamlExtent.MostMarks;
        var around = (first + begin + end).Count(",:[{<\n".Contains);
        var within = Archives.Read("frames/a.yaml", first + begin + Repeat(part, Room - around) + end);
        Assert.DoesNotContain("AF0013", within.Diagnostics.Select(told => told.Code));
        var beyond = Archives.Read("frames/a.yaml", first + begin + Repeat(part, Room - around + 1) + end);
        var told = Assert.Single(beyond.Diagnostics, each => each.Code == "AF0013");
        Assert.Equal(read, beyond.Records.Length);
        if (read > 0) Assert.Equal(first.Length, told.Span.Start);
    }

    [Fact]
    public void What_is_read_of_a_file_does_not_grow_with_its_values()
    {
        // Bytes that reading takes: twice the values beyond the limit take no more.
        var record = "- {id: F, needs: [" + Repeat("a,", 1000) + "]}\n";
        var few = Allocated("frames/a.yaml", record, 700);
        Assert.InRange(Allocated("frames/a.yaml", record, 1_400), 0, few * 1.3);
    }

    [Theory]
    [InlineData("lies_in", "T-1 ")]
    [InlineData("note", "![a](")]
    [InlineData("note", "<b>")]
    public void A_table_with_very_many_names_in_lists_or_links_in_prose_is_read_up_to_a_limit(string column, string part)
    {
        var cell = Repeat(part, 1000).TrimEnd();
        var rows = string.Concat(Enumerable.Range(0, 500).Select(i => $"C-{i},k,{cell}\n"));
        Assert.DoesNotContain("AF0013", Archives.Read("cables/a.csv", $"id,kind,{column}\n{rows}").Diagnostics.Select(told => told.Code));
        var parsed = Archives.Read("cables/a.csv", $"id,kind,{column}\n{rows}C-X,k,{part}\nC-Y,k,\n");
        Assert.Equal(["cables/a.csv:502:7 AF0013"], parsed.Places());
        Assert.Equal(500, parsed.Records.Length);
    }

    [Fact]
    public void In_a_file_full_of_unknown_names_no_more_are_looked_up()
    {
        var few = Cost(DiagnosticList.MostPerFile + 1);
        Assert.InRange(Cost(DiagnosticList.MostPerFile * 2), 0, few * 1.3);

        static double Cost(int records)
        {
            var parsed = Archives.Read(
                "frames/a.yaml",
                string.Concat(Enumerable.Range(0, records)
                    .Select(i => $"- {{id: F-{i}, name: F{i}, needs: [G-{i}a], about: '[[H-{i}]]'}}\n")));
            var record = ArchiveModel.From(parsed);
            var context = new CheckContext(parsed, record, new SharedCheckContext(parsed, record));
            var from = GC.GetAllocatedBytesForCurrentThread();
            Assert.Equal(DiagnosticList.MostPerFile + 1, ReferenceChecks.LeadSomewhere(context).Count());
            Assert.Equal(DiagnosticList.MostPerFile + 1, MentionChecks.LinksLeadSomewhere(context).Count());
            return GC.GetAllocatedBytesForCurrentThread() - from;
        }
    }

    [Fact]
    public void A_header_of_a_million_columns() =>
        Assert.Equal(
            ["cables/a.csv:1:2001 AF0106"],
            Archives.Read("cables/a.csv", "id" + string.Concat(Enumerable.Repeat(",a", 1_000_000)) + "\nC-1\n").Places());

    [Fact]
    public void A_line_of_a_million_commas_is_no_million_cells()
    {
        var parsed = Archives.Read("cables/a.csv", "id,kind\nC-1,coax" + new string(',', 1_000_000) + "\n");
        Assert.Equal(["cables/a.csv:2:1007 AF0106"], parsed.Places());
    }

    [Fact]
    public void A_cell_that_names_very_many_records()
    {
        var parsed = Archives.Read(
            "cables/a.csv", "id,kind,lies_over\nC-1,coax," + string.Concat(Enumerable.Repeat("C-1 ", 300_000)) + "\nC-2,coax,C-1\n");
        Assert.Equal(["cables/a.csv:2:10 AF0104"], parsed.Places());
        Assert.Equal("C-2", Assert.Single(parsed.Records).Id);
    }

    [Fact]
    public void A_cell_of_two_million_letters() =>
        Assert.Equal(
            ["cables/a.csv:2:10 AF0104"],
            Archives.Read("cables/a.csv", "id,kind,label\nC-1,coax," + new string('x', 2_000_000) + "\n").Places());

    [Theory]
    [InlineData("- text\n", "frames/a.yaml")]
    [InlineData("- ]\n", "frames/a.yaml")]
    [InlineData("---\n]\n", "frames/a.yaml")]
    [InlineData("- \"\n", "frames/a.yaml")]
    [InlineData("a\n", "cables/a.csv")]
    [InlineData("a\"b,\n", "cables/a.csv")]
    public void Of_a_file_that_is_full_of_errors_no_more_is_read(string line, string path)
    {
        // Bytes that reading takes beyond the text itself; without an end to it they grow with the file.
        var header = path.EndsWith(".csv", StringComparison.Ordinal) ? "id,kind\n" : "";
        var few = Allocated(path, line, 40_000, header);
        Assert.InRange(Allocated(path, line, 80_000, header), 0, few * 1.3);
    }

    [Theory]
    [InlineData("\"x")]
    [InlineData("x\n")]
    [InlineData("\"\"")]
    [InlineData("x,")]
    [InlineData("\n")]
    public void A_quote_that_is_never_closed_costs_no_more_than_its_length(string unit)
    {
        var few = Allocated("cables/a.csv", unit, 100_000, "id,kind,label\nC-1,coax,\"");
        Assert.InRange(Allocated("cables/a.csv", unit, 200_000, "id,kind,label\nC-1,coax,\""), 0, (few * 2.2) + 200_000);
    }

    [Theory]
    [InlineData(800)]
    [InlineData(1_000)]
    [InlineData(1_600)]
    [InlineData(20_000)]
    public void An_outline_that_crosses_itself_is_told_at_its_first_crossing(int count)
    {
        var random = new Random(1);
        var points = string.Join(", ", Enumerable.Range(0, count).Select(_ => $"[{random.Next(12_000)}, {random.Next(8_000)}]"));
        var parsed = Archives.Read(
            "halls/a.yaml", $"id: H\nname: H\noutline: [{points}]\ntake: [{points}]\nobstacles: [{{outline: [{points}]}}]\n");
        Assert.Equal(["AF0218", "AF0218", "AF0218"], parsed.Diagnostics.Select(told => told.Code));
        var hall = Assert.IsType<Hall>(Assert.Single(parsed.Records));
        Assert.True(hall is { Outline: null, Take: null, Obstacles.IsEmpty: true });
    }

    [Fact]
    public void A_path_of_very_many_points_is_told()
    {
        var points = string.Join(", ", Enumerable.Range(0, 1_001).Select(i => $"[{i}, {i % 2}]"));
        var parsed = Archives.Read("trays/a.yaml", $"id: T\nhall: H\npath: [{points}]\n");
        Assert.Equal("AF0220", Assert.Single(parsed.Diagnostics).Code);
        Assert.Empty(Assert.IsType<Tray>(Assert.Single(parsed.Records)).Path);
    }

    [Fact]
    public void An_outline_of_very_many_points_that_does_not_cross_itself_is_told()
    {
        var points = string.Join(", ", Enumerable.Range(0, 1_001).Select(i => $"[{i}, {i % 2}]"));
        var parsed = Archives.Read("halls/a.yaml", $"id: H\nname: H\noutline: [{points}, [500, 900]]\n");
        Assert.Equal("AF0220", Assert.Single(parsed.Diagnostics).Code);
        Assert.Null(Assert.IsType<Hall>(Assert.Single(parsed.Records)).Outline);
    }

    [Fact]
    public void A_value_of_two_million_letters()
    {
        var parsed = Archives.Read(
            "frames/a.yaml",
            $"- {{id: F-1, name: x, about: \"{new string('x', 2_000_000)}\"}}\n- {{id: F-2, name: {new string('y', 1 << 20)}}}\n");
        Assert.Equal(["frames/a.yaml:1:29 AF0104"], parsed.Places());
        Assert.Equal(2, parsed.Records.Length);
    }

    [Fact]
    public void Messages_quote_no_more_than_a_line()
    {
        var parsed = Archives.Read(
            "frames/a.yaml",
            $"- id: {new string('x', 100_000)}!\n  name: x\n  weight: \"1 {new string('k', 100_000)}\"\n  size: \"1\\n2 {new string('z', 1000)}\"\n  {new string('q', 900)}: 1\n");
        Assert.Equal(4, parsed.Diagnostics.Length);
        Assert.All(parsed.Diagnostics, told => Assert.InRange(told.Message.Length, 1, 400));
        Assert.All(parsed.Diagnostics, told => Assert.DoesNotContain(told.Message, char.IsControl));
    }

    [Fact]
    public void An_alias_bomb()
    {
        var bomb = new StringBuilder("a: &a [x, x]\n");
        for (var name = 'b'; name <= 'z'; name++) bomb.Append(name).Append(": &").Append(name).Append(" [*").Append((char)(name - 1))
            .Append(", *").Append((char)(name - 1)).Append("]\n");
        Assert.All(Archives.Read("frames/a.yaml", bomb.ToString()).Diagnostics, told =>
            Assert.Contains(told.Code, new[] { "AF0102", "AF0201", "AF0202" }));
    }

    // Decoding a file takes its length twice over; what is measured is what comes on top. A path that is read alone is read on this thread.
    private static string Repeat(string part, int times) => string.Concat(Enumerable.Repeat(part, times));

    private static double Allocated(string path, string unit, int count, string before = "")
    {
        var source = new SourceText(path, before + string.Concat(Enumerable.Repeat(unit, count)));
        var diagnostics = new DiagnosticBag();
        var from = GC.GetAllocatedBytesForCurrentThread();
        var nodes = path.EndsWith(".csv", StringComparison.Ordinal)
            ? RecordTableReader.Rows(RecordKind.Cable, source, diagnostics)
            : YamlSyntax.Records(YamlExtent.Limit(source, diagnostics), diagnostics);
        foreach (var node in nodes) _ = RecordKindReaders.Read(
            path.StartsWith("cables", StringComparison.Ordinal) ? RecordKind.Cable : RecordKind.Frame, node, diagnostics);
        var parsed = new ParseResult(null, [], diagnostics.All);
        _ = new ReadFailures(parsed, ArchiveModel.From(parsed));
        return GC.GetAllocatedBytesForCurrentThread() - from - (2.0 * source.Text.Length);
    }
}
