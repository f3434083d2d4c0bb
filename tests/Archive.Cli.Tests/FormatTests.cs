using System.Text.Json.Nodes;
using Archive.Cli.Options;
using Archive.Records.Reading.Format;
using Archive.Records.Reference;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class FormatTests
{
    [Fact]
    public async Task The_kinds_are_listed()
    {
        var run = await Asfound.Typed("format");
        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains("archive.yaml  The archive as a whole.\n", run.Out, StringComparison.Ordinal);
        Assert.All(RecordFormats.All, document => Assert.Contains(document.Place, run.Out, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("frames")]
    [InlineData("frame")]
    [InlineData("frames/")]
    public async Task A_kind_is_described_by_any_of_its_names(string name)
    {
        var run = await Asfound.Typed("format", name);
        Assert.Equal((0, FormatText.Page(RecordFormats.Find("frames")!), ""), (run.Code, run.Out, run.Error));
        Assert.Contains(
            "- `weight`: Its weight as moved. A mass with its unit (kg or lb); can have evidence.", run.Out, StringComparison.Ordinal);
        Assert.Contains("Example: `weight: 310 kg`", run.Out, StringComparison.Ordinal);
        Assert.Contains("  - `any`: How many. Required. A whole number from 1", run.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("cables.ends.at", "`FRAME/POSITION/PORT` or, on the front of a unit, `FRAME/POSITION:SLOT/PORT`")]
    [InlineData("archive.yaml", "# archive.yaml\n")]
    [InlineData("archive.yaml.units", "If missing: metric.")]
    [InlineData("cables.length_from", "One of `plate`, `printed`, `photo`, `drawing`, `measured`, `estimated`, `told`")]
    public async Task A_key_is_described(string path, string said)
    {
        var run = await Asfound.Typed("format", path);
        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains(said, run.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("asfound: there is no kind of record farmes\n  help: did you mean frames; asfound format lists all of them\n", "farmes")]
    [InlineData("asfound: frames has no key wieght\n  help: did you mean weight; its keys: id, name", "frames.wieght")]
    [InlineData("asfound: frames.weight has no keys below it\n  help: type: asfound format frames.weight\n", "frames.weight.x")]
    [InlineData("asfound: --format json needs a kind\n", "--format", "json")]
    public async Task What_does_not_exist_is_answered_with_what_does(string said, params string[] typed)
    {
        var run = await Asfound.Typed(["format", .. typed]);
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.StartsWith(said, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Schemas_are_written_to_a_folder()
    {
        using var archive = new Asfound();
        var run = await Asfound.Typed("format", "--schema", archive["content/.schemas"]);
        Assert.Equal((0, ""), (run.Code, run.Out));
        Assert.Contains("cannot complete ids", run.Error, StringComparison.Ordinal);
        Assert.Equal(
            RecordFormats.All.Select(JsonSchemas.FileName).Order(StringComparer.Ordinal),
            Directory.GetFiles(archive["content/.schemas"]).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        var json = await Asfound.Typed("format", "cable", "--format", "json");
        Assert.Equal(json.Out, File.ReadAllText(archive["content/.schemas/cables.schema.json"]));
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", JsonNode.Parse(json.Out)!["$schema"]!.GetValue<string>());
        Assert.Equal(0, (await archive.Run("check")).Code);
        Assert.Equal(2, (await Asfound.Typed("format", "--schema", archive["content/archive.yaml"])).Code);
    }

    [Fact]
    public void An_archive_is_found_from_the_folders_in_and_around_it()
    {
        using var archive = new Asfound();
        var folder = Path.GetDirectoryName(archive["content"])!;
        Assert.Equal("content", ArchiveLocation.Find(folder));
        Assert.Equal(".", ArchiveLocation.Find(archive["content"]));
        Assert.Equal("..", ArchiveLocation.Find(archive["content/frames"]));
        Directory.CreateDirectory(archive["notes/old"]);
        Assert.Equal(Path.Combine("..", "..", "content"), ArchiveLocation.Find(archive["notes/old"]));
        File.Delete(archive["content/archive.yaml"]);
        Assert.Equal("content", ArchiveLocation.Find(archive["notes/old"]));
        Assert.Equal("content", ArchiveLocation.Find(folder));
    }
}
