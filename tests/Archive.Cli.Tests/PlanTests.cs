using System.Text.Json;
using Archive.Site;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class PlanTests
{
    [Fact]
    public async Task Without_a_name_the_plans_are_listed()
    {
        var run = await Asfound.Typed("plan");
        Assert.Equal(0, run.Code);
        Assert.Equal(PlanKinds.All.Select(kind => kind.Name), run.Out.TrimEnd('\n').Split('\n').Select(line => line.Split(' ')[0]));
    }

    public static TheoryData<string> Names => [.. PlanKinds.All.Select(kind => kind.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public async Task A_plan_comes_as_text_and_as_the_very_files_of_the_site(string name)
    {
        using var archive = new Asfound();
        var text = await archive.Run("plan", name);
        Assert.Equal((0, ""), (text.Code, text.Error));
        Assert.StartsWith(PlanKinds.Of(name)!.Title + "\n", text.Out, StringComparison.Ordinal);

        await archive.Run("publish", "--themes", Path.Combine(Repository, "themes"));
        Assert.Equal(await File.ReadAllTextAsync(archive[$"site/data/plans/{name}.csv"], TestContext.Current.CancellationToken), (await archive.Run("plan", name, "--format", "csv")).Out);
        var json = (await archive.Run("plan", name, "--format", "json")).Out;
        Assert.Equal(await File.ReadAllTextAsync(archive[$"site/data/plans/{name}.json"], TestContext.Current.CancellationToken), json);
        Assert.Equal(JsonValueKind.Array, JsonDocument.Parse(json).RootElement.ValueKind);
        Assert.True(File.Exists(archive[$"site/plans/{name}/index.html"]));
    }

    [Fact]
    public async Task No_plan_is_made_of_a_record_with_errors_unless_it_is_asked_for()
    {
        using var archive = new Asfound();
        archive.Write("content/cables/d.yaml", "- {id: C-2, kind: nothing}\n");
        var refused = await archive.Run("plan", "hand-tags");
        Assert.Equal((1, ""), (refused.Code, refused.Out));
        Assert.Contains("d.yaml:1:19: error", refused.Error, StringComparison.Ordinal);
        var forced = await archive.Run("plan", "hand-tags", "--with-errors");
        Assert.Equal(1, forced.Code);
        Assert.StartsWith("Hand-tag list\n", forced.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("asfound: there is no plan hand-tgs\n  help: did you mean hand-tags; asfound plan lists all of them\n", "hand-tgs")]
    [InlineData("asfound: the plan hand-tags knows nothing of --hall\n  help: leave --hall out\n", "hand-tags", "--hall", "x")]
    public async Task A_wrong_question_ends_with_2(string told, params string[] args)
    {
        using var archive = new Asfound();
        var run = await archive.Run("plan", args);
        Assert.Equal((2, "", told), (run.Code, run.Out, run.Error));
    }

    private static string Repository
    {
        get
        {
            var folder = new DirectoryInfo(AppContext.BaseDirectory);
            while (!File.Exists(Path.Combine(folder.FullName, "Archive.sln"))) folder = folder.Parent!;
            return folder.FullName;
        }
    }
}
