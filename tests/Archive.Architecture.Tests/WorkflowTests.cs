using System.Text.RegularExpressions;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>The workflows of the forges run <c>.ci/run</c> and nothing else, with actions of an exact version, and name no host.</summary>
public sealed partial class WorkflowTests
{
    public static TheoryData<string, string> Workflows => new()
    {
        { ".github/workflows/ci.yml", "      - run: bash .ci/run" },
        { ".gitlab-ci.yml", "  script:\n    - bash .ci/run" },
    };

    [Theory]
    [MemberData(nameof(Workflows))]
    public void A_workflow_runs_what_anyone_can_run(string path, string step)
    {
        var workflow = Read(path);
        Assert.Contains("\n" + step + "\n", workflow, StringComparison.Ordinal);
        Assert.Equal("bash .ci/run", Assert.Single(Commands().Matches(workflow).Select(match => match.Groups[1].Value)));
        Assert.DoesNotMatch(@"://|[a-z0-9]\.(com|org|net|io)\b", workflow);
    }

    [Fact]
    public void Actions_have_an_exact_version()
    {
        var actions = Read(".github/workflows/ci.yml").Split('\n').Where(line => line.Contains("uses:", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(actions);
        Assert.All(actions, action => Assert.Matches(@"^ +- uses: [a-z-]+/[a-z-]+@v\d+\.\d+\.\d+$", action));
    }

    private static string Read(string path) => File.ReadAllText(Path.Combine(Repository.Root, path));

    // A command of a step (run:) or of a job (an entry under script:).
    [GeneratedRegex(@"^\s*- (?:run: )?((?:bash|sh|dotnet|npm|apt-get|curl|docker)\b.*)$", RegexOptions.Multiline)]
    private static partial Regex Commands();
}
