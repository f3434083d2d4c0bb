using System.Diagnostics;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>
/// Work that is done side by side never waits for a thread that cannot come, because all others wait too.
/// </summary>
public sealed class FewThreadsTests
{
    [Theory]
    [InlineData("check")]
    [InlineData("publish")]
    public async Task A_command_ends_with_two_threads(string command)
    {
        using var archive = new Asfound();
        var start = new ProcessStartInfo(
            "dotnet", [Path.Combine(AppContext.BaseDirectory, "asfound.dll"), command, "--content", archive["content"]])
        {
            WorkingDirectory = archive["."],
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            Environment = { ["DOTNET_ThreadPool_ForceMaxWorkerThreads"] = "2" },
        };
        using var process = Process.Start(start)!;
        var said = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        try
        {
            // Seconds are meant, on a busy machine.
            await process.WaitForExitAsync(TestContext.Current.CancellationToken)
                .WaitAsync(TimeSpan.FromMinutes(5), TestContext.Current.CancellationToken);
        }
        catch (TimeoutException)
        {
            process.Kill();
            Assert.Fail($"{command} does not end");
        }

        Assert.True(process.ExitCode == 0, await said + await error);
    }
}
