using System.Xml.Linq;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class FloorImportTests : IDisposable
{
    private const string Sheet = """
        ,Receiving hall <b>&amp;\u0007,,,,
        Row 1,R1-01,R1-02,,R1-04,
        ,,,,,
        ,,,,,
        ,,,,,
        Row 2,R2-01 ↓,R2-02,,,

        """;

    private readonly Asfound _archive = new();

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task A_floor_is_asked_about_drawn_accepted_and_then_nothing_is_new()
    {
        _archive.Write("floor.csv", Sheet);
        string[] typed = [_archive["floor.csv"], "--floor", "floor", "--square", "600 mm", "--hall", "origin"];
        var asked = await _archive.Run("import", typed);
        Assert.Equal(1, asked.Code);
        Assert.Contains("floor!B2:1:1: error AF1605: ", asked.Out, StringComparison.Ordinal);
        Assert.Contains("--faces row-1=north", asked.Out, StringComparison.Ordinal);

        typed = [.. typed, "--faces", "row-1=south", "--height", "2100 mm"];
        var drawn = await _archive.Run("import", [.. typed, "--drawing", _archive["floor.svg"]]);
        Assert.Equal(0, drawn.Code);
        Assert.Contains("row-1, faces south: R1-01 R1-02 [600 mm] R1-04", drawn.Error, StringComparison.Ordinal);
        Assert.Contains("Left out: floor!B1 Receiving hall", drawn.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_archive["content/halls"]));

        // One drawing with the sheet and the plan; what a cell says is text in it.
        var svg = XDocument.Parse(File.ReadAllText(_archive["floor.svg"]));
        var texts = svg.Descendants().Where(element => element.Name.LocalName == "text").Select(element => element.Value).ToList();
        Assert.Contains("The plan of origin, if all is accepted", texts);
        Assert.True(texts.Count(text => text == "R1-04") >= 2);
        Assert.DoesNotContain(svg.Descendants(), element => element.Name.LocalName is "b" or "script" or "image");
        Assert.Contains(texts, text => text.StartsWith("Receiving hall <b>", StringComparison.Ordinal));

        Assert.Equal(0, (await _archive.Run("import", [.. typed, "--accept", "all"])).Code);
        var check = await _archive.Run("check");
        Assert.Equal((0, ""), (check.Code, check.Out));
        var hall = File.ReadAllText(_archive["content/halls/added.yaml"]);
        Assert.Contains("frames: [R1-01, R1-02, {gap: 600 mm}, R1-04]", hall, StringComparison.Ordinal);
        var again = await _archive.Run("import", typed);
        Assert.Contains("\nNothing new is proposed", again.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--floor floor", "--square is missing")]
    [InlineData("--floor floor --square 6", "--square 6 is no length")]
    [InlineData("--floor floor --square 600mm --faces up", "--faces: up names no side")]
    [InlineData("--floor floor --square 600mm --hall a/b", "a/b is not an id")]
    [InlineData("--floor floor --square 600mm --drawing x.png", "--drawing cannot be x.png")]
    [InlineData("--floor floor --square 600mm --mapping m.yaml", "a floor has no columns")]
    [InlineData("--faces south", "--faces is for floors")]
    public async Task Wrong_options_are_named(string options, string message)
    {
        _archive.Write("floor.csv", Sheet);
        var run = await _archive.Run("import", [_archive["floor.csv"], .. options.Split(' ')]);
        Assert.Equal(2, run.Code);
        Assert.Contains(message, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sheet_that_is_not_there_is_an_error()
    {
        _archive.Write("floor.csv", Sheet);
        var run = await _archive.Run("import", _archive["floor.csv"], "--floor", "Hall 2", "--square", "600mm");
        Assert.Equal(1, run.Code);
        Assert.Contains("error AF1621: ", run.Out, StringComparison.Ordinal);
    }
}
