using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Xunit;

namespace Archive.House.Tests;

/// <summary>Every fault has one code, one place in its group, one page, and a case that triggers it.</summary>
public partial class FaultTests
{
    public static TheoryData<string> Codes => [.. Faults.All.Select(kind => kind.Code)];

    [Fact]
    public void Codes_are_given_once() => Assert.Equal(Faults.All.Length, Faults.All.DistinctBy(kind => kind.Code).Count());

    [Theory]
    [MemberData(nameof(Codes))]
    public void A_code_is_AF_and_four_digits(string code) => Assert.Matches(@"^AF\d{4}\z", code);

    [Theory]
    [MemberData(nameof(Codes))]
    public void A_title_is_lower_case_without_a_full_stop(string code)
    {
        var title = Faults.Of(code)!.Title;
        var first = title.Split(' ')[0];
        Assert.True(char.IsLower(first[0]) || first.All(char.IsUpper), title);
        Assert.False(title.EndsWith('.'), title);
    }

    [Fact]
    public void A_file_of_faults_is_one_group_and_a_group_one_file()
    {
        var groups = Directory.GetFiles(Path.Combine(House.Root, "src/Archive.Diagnostics/Faults"))
            .ToDictionary(file => Path.GetFileName(file), file => Code().Matches(File.ReadAllText(file)).Select(match => match.Value[..4]).Distinct().ToArray());
        Assert.All(groups, group => Assert.Single(group.Value));
        Assert.Equal(groups.Count, groups.Values.Select(group => group[0]).Distinct().Count());
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void A_code_has_a_page(string code)
    {
        var page = FaultPage.Of(code);
        Assert.NotNull(page);
        Assert.StartsWith($"# {code}: {Faults.Of(code)!.Title}\n", page, StringComparison.Ordinal);
        Assert.Contains("\n## Example\n", page, StringComparison.Ordinal);
        Assert.Contains("\n## The mend\n", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_page_has_a_code()
    {
        var pages = Directory.GetFiles(Path.Combine(House.Root, "src/Archive.Diagnostics/Pages")).Select(file => Path.GetFileNameWithoutExtension(file)!);
        Assert.Empty(pages.Except(Faults.All.Select(kind => kind.Code)));
    }

    [Fact]
    public void Every_code_is_triggered_by_a_case()
    {
        // Golden cases, planted faults, and tests that name the code or its kind where a golden file would be too large or needs a disk.
        var triggered = Directory.GetFiles(Path.Combine(House.Root, "tests"), "*", SearchOption.AllDirectories)
            .Where(file => !file.Contains("/bin/", StringComparison.Ordinal) && !file.Contains("/obj/", StringComparison.Ordinal))
            .Where(file => (file.EndsWith("expected.txt", StringComparison.Ordinal) && file.Contains("/cases/", StringComparison.Ordinal))
                || file.EndsWith("Planted/faults.txt", StringComparison.Ordinal) || file.EndsWith("Tests.cs", StringComparison.Ordinal))
            .SelectMany(file => Code().Matches(File.ReadAllText(file)).Select(match => match.Value));
        Assert.Empty(Faults.All.Select(kind => kind.Code).Except(triggered));
    }

    [GeneratedRegex(@"\bAF\d{4}\b")]
    private static partial Regex Code();
}
