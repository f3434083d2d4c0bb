using System.Text.RegularExpressions;
using Archive.Diagnostics.Descriptors;
using Archive.Diagnostics.Pages;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>Every error has one code, one place in its group, one page, and a case that triggers it.</summary>
public partial class DescriptorTests
{
    public static TheoryData<string> Codes => [.. DiagnosticDescriptors.All.Select(kind => kind.Code)];

    [Fact]
    public void Codes_are_given_once() =>
        Assert.Equal(DiagnosticDescriptors.All.Length, DiagnosticDescriptors.All.DistinctBy(kind => kind.Code).Count());

    [Theory]
    [MemberData(nameof(Codes))]
    public void A_code_is_AF_and_four_digits(string code) => Assert.Matches(@"^AF\d{4}\z", code);

    [Theory]
    [MemberData(nameof(Codes))]
    public void A_title_is_lower_case_without_a_full_stop(string code)
    {
        var title = DiagnosticDescriptors.Find(code)!.Title;
        var first = title.Split(' ')[0];
        Assert.True(char.IsLower(first[0]) || first.All(char.IsUpper), title);
        Assert.False(title.EndsWith('.'), title);
    }

    [Fact]
    public void A_file_of_faults_is_one_group_and_a_group_one_file()
    {
        var groups = Directory.GetFiles(Path.Combine(Repository.Root, "src/Archive.Diagnostics/Descriptors"))
            .Where(file => file.Contains("DiagnosticDescriptors.", StringComparison.Ordinal)
                && !file.EndsWith("/DiagnosticDescriptors.cs", StringComparison.Ordinal))
            .ToDictionary(file => Path.GetFileName(file), file =>
                Code().Matches(File.ReadAllText(file)).Select(match => match.Value[..4]).Distinct().ToArray());
        Assert.All(groups, group => Assert.Single(group.Value));
        Assert.Equal(groups.Count, groups.Values.Select(group => group[0]).Distinct().Count());
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void A_code_has_a_page(string code)
    {
        var page = DiagnosticPage.Read(code);
        Assert.NotNull(page);
        Assert.StartsWith($"# {code}: {DiagnosticDescriptors.Find(code)!.Title}\n", page, StringComparison.Ordinal);
        Assert.Contains("\n## Example\n", page, StringComparison.Ordinal);
        Assert.Contains("\n## How to fix it\n", page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_page_has_a_code()
    {
        var pages = Directory.GetFiles(Path.Combine(Repository.Root, "src/Archive.Diagnostics/Pages"), "*.md")
            .Select(file => Path.GetFileNameWithoutExtension(file)!);
        Assert.Empty(pages.Except(DiagnosticDescriptors.All.Select(kind => kind.Code)));
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void A_case_or_an_assertion_expects_the_code(string code) => Assert.Contains(code, Expected);

    /// <summary>A comment, and an assertion that something is not there, expect nothing.</summary>
    [Theory]
    [InlineData("Assert.Equal(fault, told); // AF0001", "")]
    [InlineData("/* AF0001 */ Assert.Equal(1, 1);\n/// AF0002", "")]
    [InlineData("Assert.DoesNotContain(\"AF0001\", told);", "")]
    [InlineData("var url = \"https://archive.example/\"; Assert.Equal(\"AF0001\", told.Code);", "AF0001")]
    [InlineData("Assert.Equal([\"a:1:1 AF0001\",\n \"AF0002\"], told);", "AF0001 AF0002")]
    [InlineData("[InlineData(1, \"AF0001\")]\npublic void A(int n, string code) => Assert.Equal(code, told.Code);", "AF0001")]
    public void What_counts_as_expected(string test, string codes) => Assert.Equal(codes, string.Join(' ', ExpectedInTest(test)));

    // Golden files and planted errors are compared with what the product says; where such a file would be too large or needs a disk, a test
    // asserts the code.
    private static readonly HashSet<string> Expected =
    [
        .. FilesOfTests().SelectMany(file =>
            file.EndsWith("/expected.txt", StringComparison.Ordinal) && file.Contains("/cases/", StringComparison.Ordinal)
                ? ToldAtAPlace().Matches(File.ReadAllText(file)).Select(match => match.Groups["code"].Value)
                : file.EndsWith("Planted/faults.txt", StringComparison.Ordinal)
                ? File.ReadLines(file)
                    .Where(line => !line.StartsWith('#'))
                    .SelectMany(line => Code().Matches(line[(line.LastIndexOf('|') + 1)..]))
                    .Select(match => match.Value)
                : file.EndsWith("Tests.cs", StringComparison.Ordinal) && !file.EndsWith("/FaultTests.cs", StringComparison.Ordinal)
                ? ExpectedInTest(File.ReadAllText(file))
                : []),
    ];

    private static IEnumerable<string> FilesOfTests() =>
        Directory.EnumerateFiles(Path.Combine(Repository.Root, "tests"), "*", SearchOption.AllDirectories)
            .Select(file => file.Replace('\\', '/'))
            .Where(file => !file.Contains("/bin/", StringComparison.Ordinal)
                && !file.Contains("/obj/", StringComparison.Ordinal)
                && !file.Contains("/node_modules/", StringComparison.Ordinal));

    private static IEnumerable<string> ExpectedInTest(string test)
    {
        // What is matched first stands: a comment's slashes within a string are the string's.
        var code = StringOrComment().Replace(test, match => match.Value.StartsWith('/') ? "" : match.Value);
        return NotThere().Split(code).SelectMany(part => Code().Matches(part)).Select(match => match.Value);
    }

    [GeneratedRegex("""@?"(?:[^"\\\n]|\\.)*"|//[^\n]*|/\*.*?\*/""", RegexOptions.Singleline)]
    private static partial Regex StringOrComment();

    [GeneratedRegex("""Assert\.(?:DoesNotContain|DoesNotMatch|NotEqual|Empty)\([^\n]*""")]
    private static partial Regex NotThere();

    [GeneratedRegex(@"^\S[^\n]*?:\d+:\d+:? (?:(?:error|warning) )?(?<code>AF\d{4})\b", RegexOptions.Multiline)]
    private static partial Regex ToldAtAPlace();

    [GeneratedRegex(@"\bAF\d{4}\b")]
    private static partial Regex Code();
}
