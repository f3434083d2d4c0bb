using System.Text;
using Xunit;

namespace Archive.Records.Tests;

/// <summary>Files made to upset the reader: they are told, and cost no more than their length.</summary>
public class HostileTests
{
    [Fact]
    public void Brackets_a_hundred_thousand_deep() =>
        Assert.Equal(["frames/a.yaml:1:66 AF0103"], Archives.Read("frames/a.yaml", new string('[', 100_000)).Places());

    [Fact]
    public void A_file_made_of_faults_is_told_up_to_a_limit()
    {
        var draft = Archives.Read("frames/a.yaml", string.Concat(Enumerable.Repeat("- text\n", 30_000)));
        Assert.Equal(10_001, draft.Diagnostics.Length);
        Assert.Equal("frames/a.yaml:10001:3 AF0008", draft.Places()[^1]);
    }

    [Fact]
    public void Nine_thousand_syntax_errors_are_each_told_and_gone_on_from()
    {
        var draft = Archives.Read("frames/a.yaml", string.Concat(Enumerable.Repeat("- {id: F-1, name: [}\n", 9_000)) + "- {id: F-2, name: last}\n");
        Assert.Equal(9_000, draft.Diagnostics.Length);
        Assert.Equal("last", Assert.Single(draft.Records).Name?.Value);
    }

    [Fact]
    public void A_record_without_end()
    {
        var draft = Archives.Read("frames/a.yaml", "id: F-1\nname: x\nneeds: [" + string.Concat(Enumerable.Repeat("a,", 300_000)) + "]");
        Assert.Equal("AF0104", Assert.Single(draft.Diagnostics).Code);
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

    [Fact]
    public void A_header_of_a_million_columns() =>
        Assert.Equal(["cables/a.csv:1:402 AF0106"], Archives.Read("cables/a.csv", "id" + string.Concat(Enumerable.Repeat(",a", 1_000_000)) + "\nC-1\n").Places());

    [Fact]
    public void A_value_of_two_million_letters()
    {
        var draft = Archives.Read("frames/a.yaml", $"- {{id: F-1, name: x, about: \"{new string('x', 2_000_000)}\"}}\n- {{id: F-2, name: {new string('y', 1 << 20)}}}\n");
        Assert.Equal(["frames/a.yaml:1:29 AF0104"], draft.Places());
        Assert.Equal(2, draft.Records.Length);
    }

    [Fact]
    public void Messages_quote_no_more_than_a_line()
    {
        var draft = Archives.Read("frames/a.yaml", $"- id: {new string('x', 100_000)}!\n  name: x\n  weight: \"1 {new string('k', 100_000)}\"\n  size: \"1\\n2 {new string('z', 1000)}\"\n  {new string('q', 900)}: 1\n");
        Assert.Equal(4, draft.Diagnostics.Length);
        Assert.All(draft.Diagnostics, told => Assert.InRange(told.Message.Length, 1, 400));
        Assert.All(draft.Diagnostics, told => Assert.DoesNotContain(told.Message, char.IsControl));
    }

    [Fact]
    public void An_alias_bomb()
    {
        var bomb = new StringBuilder("a: &a [x, x]\n");
        for (var name = 'b'; name <= 'z'; name++) bomb.Append(name).Append(": &").Append(name).Append(" [*").Append((char)(name - 1)).Append(", *").Append((char)(name - 1)).Append("]\n");
        Assert.All(Archives.Read("frames/a.yaml", bomb.ToString()).Diagnostics, told => Assert.Contains(told.Code, new[] { "AF0102", "AF0201", "AF0202" }));
    }
}
