using System.Text.Json;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>What is built is what the lock files list: version and checksum of every package, also of those that packages use.</summary>
public class LockFileTests
{
    [Fact]
    public void Each_project_has_a_lock_file_with_a_checksum_for_every_package()
    {
        var projects = Directory.GetFiles(Repository.Root, "*.csproj", SearchOption.AllDirectories)
            .Select(project => Path.GetDirectoryName(project)!)
            .ToList();
        Assert.True(projects.Count > 30);
        foreach (var project in projects)
        {
            using var locked = JsonDocument.Parse(File.ReadAllText(Path.Combine(project, "packages.lock.json")));
            var packages = locked.RootElement
                .GetProperty("dependencies")
                .EnumerateObject()
                .SelectMany(platform => platform.Value.EnumerateObject())
                .Where(package => package.Value.GetProperty("type").GetString() != "Project")
                .ToList();
            Assert.All(packages, package => Assert.NotEmpty(package.Value.GetProperty("contentHash").GetString()!));
        }
    }

    [Fact]
    public void Continuous_integration_accepts_nothing_else()
    {
        var steps = File.ReadAllLines(Path.Combine(Repository.Root, ".ci/run"));
        Assert.Contains(steps, step => step.Contains("dotnet restore Archive.sln --locked-mode", StringComparison.Ordinal));
        Assert.Contains(steps, step => step.Contains("dotnet build Archive.sln -c Release --no-restore", StringComparison.Ordinal));
    }
}
