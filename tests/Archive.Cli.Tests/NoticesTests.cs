using System.Text.Json;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class NoticesTests
{
    [Fact]
    public void Every_package_that_travels_with_the_tool_is_named_with_its_licence()
    {
        var notices = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "THIRD-PARTY-NOTICES.md"));
        using var dependencies = JsonDocument.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "asfound.deps.json")));
        var packages = dependencies.RootElement.GetProperty("libraries").EnumerateObject()
            .Where(library => library.Value.GetProperty("type").GetString() == "package")
            .Select(library => library.Name.Split('/')[0])
            .Where(name => !name.StartsWith("NetVips.Native.", StringComparison.Ordinal))
            .ToList();

        Assert.Contains("Markdig", packages);
        Assert.All(packages, name => Assert.Contains(name, notices, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Apache-2.0.txt")]
    [InlineData("LGPL-3.0.txt")]
    [InlineData("GPL-3.0.txt")]
    [InlineData("libvips-notices.md")]
    public void The_texts_of_long_licences_travel_along(string file) =>
        Assert.True(File.Exists(Path.Combine(AppContext.BaseDirectory, "Licences", file)));
}
