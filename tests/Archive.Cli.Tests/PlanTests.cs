using System.Text.Json;
using Archive.Plans.Catalog;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class PlanTests
{
    [Fact]
    public async Task Without_a_name_the_plans_are_listed()
    {
        var run = await Asfound.Typed("plan");
        Assert.Equal(0, run.Code);
        Assert.Equal(PlanCatalog.All.Select(kind => kind.Name), run.Out.TrimEnd('\n').Split('\n').Select(line => line.Split(' ')[0]));
    }

    public static TheoryData<string> Names => [.. PlanCatalog.All.Where(kind => !kind.IsOnRequest).Select(kind => kind.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public async Task A_plan_comes_as_text_and_as_the_very_files_of_the_site(string name)
    {
        using var archive = new Asfound();
        var text = await archive.Run("plan", name);
        Assert.Equal((0, ""), (text.Code, text.Error));
        Assert.StartsWith(PlanCatalog.Find(name)!.Title + "\n", text.Out, StringComparison.Ordinal);

        await archive.Run("publish", "--themes", Path.Combine(Repository.Root, "themes"));
        Assert.Equal(
            await File.ReadAllTextAsync(archive[$"site/data/plans/{name}.csv"], TestContext.Current.CancellationToken),
            (await archive.Run("plan", name, "--format", "csv")).Out);
        var json = (await archive.Run("plan", name, "--format", "json")).Out;
        Assert.Equal(await File.ReadAllTextAsync(archive[$"site/data/plans/{name}.json"], TestContext.Current.CancellationToken), json);
        Assert.Equal(JsonValueKind.Array, JsonDocument.Parse(json).RootElement.ValueKind);
        Assert.True(File.Exists(archive[$"site/{PlanCatalog.Find(name)!.Page}"]));
    }

    [Theory]
    [InlineData("metric", "0.60 m", "310 kg")]
    [InlineData("inch_pound", "2 ft", "684 lb")]
    public async Task A_terminal_shows_what_people_read_and_files_what_programs_read(string units, string width, string weight)
    {
        using var archive = new Asfound();
        archive.Write("content/archive.yaml", $"title: Small station\nunits: {units}\n");
        archive.Write(
            "content/frames/r1.yaml",
            "- {id: R1-01, name: One, size: 600 x 600 x 2000 mm, weight: 310.4567 kg, may_lie_down: false}\n- {id: R1-02, name: Two}\n");
        archive.Write(
            "content/halls/old.yaml",
            "{id: old, as_found: true, outline: [[0, 0], [9000, 0], [9000, 6000], [0, 6000]], rows: [{id: r, at: [1000, 3000], runs: east, faces: south, frames: [R1-01, R1-02]}]}\n");
        var run = await archive.Run("plan", "loads");
        var head = run.Out.Split('\n').Single(line => line.Contains("may lie down", StringComparison.Ordinal));
        Assert.Contains("  width  ", head, StringComparison.Ordinal);
        Assert.DoesNotContain("width m", head, StringComparison.Ordinal);
        var row = run.Out.Split('\n').Single(line => line.Contains("  R1-01  ", StringComparison.Ordinal));
        Assert.Contains(width, row, StringComparison.Ordinal);
        Assert.Contains(weight, row, StringComparison.Ordinal);
        Assert.Contains("  no", row, StringComparison.Ordinal);
        Assert.DoesNotContain("false", row, StringComparison.Ordinal);
        Assert.Contains(",false,", (await archive.Run("plan", "loads", "--format", "csv")).Out, StringComparison.Ordinal);
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

    [Fact]
    public async Task A_proposal_of_stands_is_a_record_that_checks_and_reaches()
    {
        using var archive = new Asfound();
        archive.Write(
            "content/frames/r1.yaml",
            string.Concat(Enumerable.Range(1, 4).Select(i => $"- {{id: R1-0{i}, name: Frame {i}, size: 600 x 600 x 2000 mm}}\n")));
        archive.Write("content/halls/old.yaml", "{id: old, as_found: true, outline: [[0, 0], [9000, 0], [9000, 6000], [0, 6000]]}\n");
        archive.Write(
            "content/halls/new.yaml",
            "{id: new, name: 'New: \"hall\"', outline: [[0, 0], [9000, 0], [9000, 6000], [0, 6000]], ceiling: {is: 9 ft, from: told, note: \"by: the # owner\"}, rows: [{id: one, at: [1000, 2000], runs: east, faces: south, frames: [R1-01, R1-02, {gap: 600 mm}, R1-03, R1-04]}], note: 'two\n\n  lines'}\n");
        archive.Write(
            "content/trays/t.yaml",
            "- {id: T-1, hall: new, path: [[500, 1700], [8000, 1700]], height: 2300 mm}\n- {id: T-0, hall: old, path: [[500, 1700], [8000, 1700]], height: 2300 mm}\n");
        archive.Write(
            "content/cables/c.yaml", "- {id: C-1, kind: coax-75, ends: [{at: R1-01}, {at: R1-04}], length: 1.3 m, lies_in: [T-0]}\n");
        Assert.Contains("short", (await archive.Run("plan", "reach", "--hall", "new")).Out, StringComparison.Ordinal);

        var proposed = await archive.Run("plan", "stands", "--hall", "new");
        Assert.Equal((0, ""), (proposed.Code, proposed.Error));
        Assert.StartsWith(
            "# Proposal for New: \"hall\" with all frames that leave: every cable reaches, ", proposed.Out, StringComparison.Ordinal);
        archive.Write("content/halls/new.yaml", proposed.Out);
        var check = await archive.Run("check");
        Assert.Equal((0, ""), (check.Code, check.Out));
        Assert.DoesNotContain("short", (await archive.Run("plan", "reach", "--hall", "new")).Out.Split('\n')[^2], StringComparison.Ordinal);
        Assert.StartsWith("# Proposal for New: ", (await archive.Run("plan", "stands", "--hall", "new")).Out, StringComparison.Ordinal);

        Assert.StartsWith(
            "# Name a hall with --hall", (await archive.Run("plan", "stands", "--hall", "old")).Out, StringComparison.Ordinal);
        Assert.Contains(
            "R1-04,one,", (await archive.Run("plan", "stands", "--hall", "new", "--format", "csv")).Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("asfound: there is no plan hand-tgs\n  help: did you mean hand-tags; asfound plan lists all of them\n", "hand-tgs")]
    [InlineData("asfound: the plan hand-tags has no option --hall\n  help: leave --hall out\n", "hand-tags", "--hall", "x")]
    [InlineData("asfound: the plan reach has no option --frame\n  help: leave --frame out\n", "reach", "--frame", "x")]
    [InlineData(
        "asfound: a plan is of one display or of one frame, not of both\n  help: leave --display or --frame out\n",
        "decabling", "--frame", "R1-01", "--display", "x")]
    [InlineData("asfound: the record has no frame R1-0\n  help: did you mean R1-01\n", "decabling", "--frame", "R1-0")]
    public async Task A_wrong_question_ends_with_2(string told, params string[] args)
    {
        using var archive = new Asfound();
        var run = await archive.Run("plan", args);
        Assert.Equal((2, "", told), (run.Code, run.Out, run.Error));
    }
}
