using System.Text.RegularExpressions;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>The security page names tests that exist, and names no address.</summary>
public sealed partial class SecurityPageTests
{
    private static readonly string Page = File.ReadAllText(Path.Combine(Repository.Root, "SECURITY.md"));

    [Fact]
    public void The_page_names_tests_that_exist()
    {
        var tests = Directory.EnumerateFiles(Path.Combine(Repository.Root, "tests"), "*Tests.cs", SearchOption.AllDirectories)
            .Select(Path.GetFileNameWithoutExtension)
            .ToHashSet(StringComparer.Ordinal);
        var named = TestName().Matches(Page).Select(match => match.Groups[1].Value).ToList();
        Assert.NotEmpty(named);
        Assert.DoesNotContain(named, name => !tests.Contains(name));
    }

    [Fact]
    public void Each_promise_has_a_test() =>
        Assert.Equal(
            Enumerable.Range(1, 17).Select(i => i.ToString(System.Globalization.CultureInfo.InvariantCulture)),
            Promise().Matches(Page).Select(match => match.Groups[1].Value));

    [Fact]
    public void The_page_is_linked_and_names_no_address()
    {
        Assert.Contains("SECURITY.md", File.ReadAllText(Path.Combine(Repository.Root, "DEVELOPERS.md")), StringComparison.Ordinal);
        Assert.DoesNotMatch(@"https?:|@", Page);
    }

    [GeneratedRegex("`([A-Za-z]+Tests)`")]
    private static partial Regex TestName();

    [GeneratedRegex(@"^\| (\d+) \| .* \| (?:`[A-Za-z]+Tests`(?:, )?)+ \|$", RegexOptions.Multiline)]
    private static partial Regex Promise();
}
