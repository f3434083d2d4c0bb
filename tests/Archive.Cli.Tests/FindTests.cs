using System.Text.Json;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class FindTests
{
    [Fact]
    public async Task A_record_is_told_with_its_file_and_line()
    {
        using var archive = new Asfound();
        var run = await archive.Run("find", "receiver", "two");
        Assert.Equal(0, run.Code);
        Assert.EndsWith("frames/r1.yaml:2: R1-02 Receiver two (frame)\n", run.Out, StringComparison.Ordinal);
        Assert.Equal("1 record.\n", run.Error);
    }

    [Fact]
    public async Task Codes_are_found_by_half_and_misread()
    {
        using var archive = new Asfound();
        archive.Write("content/cables/d.yaml", "- {id: C-0417, kind: coax-75, label: 0205-07J14 0103-02J03, ends: [{at: R1-02}]}\n");
        foreach (var typed in new[] { "0205-07", "07J14", "0103-02J03", "O205-O7", "c-417", "C-O4I7" })
        {
            Assert.Contains(
                "d.yaml:1: C-0417 (cable): “0205-07J14 0103-02J03” · R1-02 · 75 ohm coaxial\n",
                (await archive.Run("find", typed)).Out,
                StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task What_changed_is_found_at_once_and_what_did_not_is_found_again()
    {
        using var archive = new Asfound();
        var before = await archive.Run("find", "receiver");
        Assert.Equal(before.Out, (await archive.Run("find", "receiver")).Out);
        archive.Write("content/frames/r2.yaml", "- {id: R2-01, name: Standby receiver}\n");
        Assert.Contains("r2.yaml:1: R2-01", (await archive.Run("find", "receiver")).Out, StringComparison.Ordinal);
        Assert.Single(Directory.GetDirectories(Path.Combine(archive.Cache, "find")));
    }

    [Fact]
    public async Task What_was_read_otherwise_or_not_found_is_said()
    {
        using var archive = new Asfound();
        Assert.Equal(
            "No exact match for “R1-O2”. Showing what looks the same, treating O and 0, I and 1, B and 8, S and 5 as equal.\n2 records.\n",
            (await archive.Run("find", "R1-O2")).Error);
        Assert.Equal("No match for “zzzz”.\nNo results.\n", (await archive.Run("find", "zzzz")).Error);
        Assert.Equal(
            "No match for “zzzz”.\nNo record has all of these words; 2 records have some of them.\n",
            (await archive.Run("find", "zzzz receiver")).Error);
    }

    [Fact]
    public async Task Kinds_narrow_down_and_json_is_for_programs()
    {
        using var archive = new Asfound();
        var json = JsonDocument.Parse((await archive.Run("find", "R1-01", "--kind", "cable", "--format", "json")).Out).RootElement;
        Assert.Equal(1, json.GetProperty("total").GetInt32());
        Assert.Equal("C-1", json.GetProperty("found")[0].GetProperty("id").GetString());
        Assert.Equal("cables/C-1/index.html", json.GetProperty("found")[0].GetProperty("page").GetString());
    }

    [Fact]
    public async Task A_damaged_cache_is_made_anew()
    {
        using var archive = new Asfound();
        var before = await archive.Run("find", "receiver");
        foreach (var file in Directory.GetFiles(Path.Combine(archive.Cache, "find"), "segments*", SearchOption.AllDirectories))
            await File.WriteAllTextAsync(file, "spoilt", TestContext.Current.CancellationToken);
        Assert.Equal(before.Out, (await archive.Run("find", "receiver")).Out);
    }
}
