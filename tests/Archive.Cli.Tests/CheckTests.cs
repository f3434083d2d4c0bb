using System.Text.Json;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class CheckTests : IDisposable
{
    private readonly Asfound _archive = new();

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task A_clean_record_ends_well_and_says_what_it_holds()
    {
        var run = await _archive.Run("check");
        Assert.Equal((0, "", "2 frames, 1 cable, no photos: no errors, no warnings.\n"), (run.Code, run.Out, run.Error));
    }

    [Fact]
    public async Task An_error_is_told_with_its_place_and_ends_with_1()
    {
        _archive.Write("content/frames/r2.yaml", "- {id: R2-01, name: Receiver, weight: 310}\n");
        var run = await _archive.Run("check");
        Assert.Equal(1, run.Code);
        Assert.Contains("content/frames/r2.yaml:1:39: error AF0204: ", run.Out, StringComparison.Ordinal);
        Assert.Contains(
            "  1 | - {id: R2-01, name: Receiver, weight: 310}\n    |                                       ^^^\n  help: ",
            run.Out,
            StringComparison.Ordinal);
        Assert.Equal("3 frames, 1 cable, no photos: 1 error, no warnings.\n", run.Error);
    }

    [Fact]
    public async Task A_photo_s_file_that_is_there_in_other_letters_is_named()
    {
        if (!OperatingSystem.IsLinux()) return; // Where letter case does not count, the file is found.
        _archive.Write("content/photos/DSC_1.JPG", "x");
        _archive.Write("content/photos/p.yaml", "- {id: P-1, file: DSC_1.jpg}\n");
        var run = await _archive.Run("check");
        Assert.Equal(1, run.Code);
        Assert.Contains("error AF0701: ", run.Out, StringComparison.Ordinal);
        Assert.Contains("help: did you mean `DSC_1.JPG`? Letter case counts in the names of files", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Machine_formats_print_nothing_but_themselves()
    {
        _archive.Write("content/frames/r2.yaml", "- {id: R2-01, name: Receiver, weight: 310}\n");
        using var json = JsonDocument.Parse((await _archive.Run("check", "--format", "json")).Out);
        Assert.Equal(1, json.RootElement.GetProperty("summary").GetProperty("errors").GetInt32());
        Assert.Equal(39, json.RootElement.GetProperty("faults")[0].GetProperty("column").GetInt32());

        using var sarif = JsonDocument.Parse((await _archive.Run("check", "--format", "sarif")).Out);
        Assert.Equal("2.1.0", sarif.RootElement.GetProperty("version").GetString());
        Assert.Equal("AF0204", sarif.RootElement.GetProperty("runs")[0].GetProperty("results")[0].GetProperty("ruleId").GetString());

        var github = (await _archive.Run("check", "--format", "github")).Out;
        Assert.Matches(@"\A::error file=[^\n]*content/frames/r2\.yaml,line=1,endLine=1,col=39,endColumn=42,title=AF0204[^\n]*\n\z", github);
    }

    [Fact]
    public async Task Every_format_of_a_clean_record_is_well_formed()
    {
        Assert.Equal(
            0,
            JsonDocument.Parse((await _archive.Run("check", "--format", "json")).Out).RootElement.GetProperty("faults").GetArrayLength());
        Assert.Equal(0, JsonDocument.Parse((await _archive.Run("check", "--format", "sarif")).Out).RootElement
            .GetProperty("runs")[0]
            .GetProperty("results")
            .GetArrayLength());
        Assert.Equal("", (await _archive.Run("check", "--format", "github")).Out);
    }
}
