using System.Diagnostics;
using System.Globalization;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>
/// A process of the tool that is killed when something is seen to have come to pass on the disk: on a busy machine that says more than a
/// clock.
/// </summary>
internal static class KilledProcess
{
    /// <summary>How often a test kills: as often as <c>ASFOUND_KILLS</c> says, or a few times, because CI has little time.</summary>
    /// <param name="few">The few.</param>
    internal static int Times(int few) =>
        Environment.GetEnvironmentVariable("ASFOUND_KILLS") is { } more ? int.Parse(more, CultureInfo.InvariantCulture) : few;

    /// <summary>Runs the tool.</summary>
    /// <param name="kill">Whether the moment has come; null lets it run.</param>
    /// <param name="arguments">The command line.</param>
    /// <returns>What it said, or null where it was killed first.</returns>
    internal static Task<string?> Run(Func<bool>? kill, params string[] arguments) => Run(kill, home: null, arguments);

    /// <summary>Runs the tool.</summary>
    /// <param name="kill">Whether the moment has come; null lets it run.</param>
    /// <param name="home">Where another user's key lies; null for this user's.</param>
    /// <param name="arguments">The command line.</param>
    /// <returns>What it said, or null where it was killed first.</returns>
    internal static async Task<string?> Run(Func<bool>? kill, string? home, string[] arguments)
    {
        using var process = Start(arguments, home);
        var said = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        var patience = Stopwatch.StartNew();
        while (!process.HasExited)
        {
            Assert.True(patience.Elapsed < TimeSpan.FromMinutes(5), "it does not end");
            var look = Stopwatch.StartNew();
            if (kill?.Invoke() ?? false)
            {
                process.Kill(); // SIGKILL: nothing in it runs any more
                await process.WaitForExitAsync(TestContext.Current.CancellationToken);
                return process.ExitCode == 0 ? await said : null;
            }

            if (kill is null) await process.WaitForExitAsync(TestContext.Current.CancellationToken);
            else await Wait(look);
        }

        Assert.True(process.ExitCode == 0, await said);
        return await said;
    }

    /// <summary>
    /// Runs the tool and signals it. Nobody reads its standard output, so a command that says more there than a pipe holds does not end by
    /// itself.
    /// </summary>
    /// <param name="signal">The signal's name, such as <c>TERM</c>.</param>
    /// <param name="moment">Whether the moment has come.</param>
    /// <param name="arguments">The command line.</param>
    /// <returns>How it ended, and what it said on standard error.</returns>
    internal static async Task<(int Code, string Error)> Signal(string signal, Func<bool> moment, params string[] arguments)
    {
        using var process = Start(arguments);
        var said = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        var patience = Stopwatch.StartNew();
        for (var look = Stopwatch.StartNew(); !process.HasExited && !moment(); look.Restart())
        {
            Assert.True(patience.Elapsed < TimeSpan.FromMinutes(5), "the moment does not come");
            await Wait(look);
        }

        using (var kill = Process.Start("sh", ["-c", $"kill -{signal} {process.Id} 2>&-"]))
            await kill.WaitForExitAsync(TestContext.Current.CancellationToken);

        // Meant are two seconds; how long a busy machine takes is not tested here, only that it ends.
        try
        {
            await process
                .WaitForExitAsync(TestContext.Current.CancellationToken)
                .WaitAsync(TimeSpan.FromMinutes(5), TestContext.Current.CancellationToken);
        }
        catch (TimeoutException)
        {
            process.Kill();
            Assert.Fail($"{arguments[0]} does not end");
        }

        return (process.ExitCode, await said);
    }

    // Counting the files of a site takes a while: to count without rest would take a core from the process that is watched.
    private static Task Wait(Stopwatch look) =>
        Task.Delay(TimeSpan.FromMilliseconds(1) + (3 * look.Elapsed), TestContext.Current.CancellationToken);

    private static Process Start(string[] arguments, string? home = null)
    {
        var dotnet = Environment.ProcessPath is { } path && Path.GetFileNameWithoutExtension(path) == "dotnet" ? path : "dotnet";
        string[] line = [dotnet, Path.Combine(AppContext.BaseDirectory, "asfound.dll"), .. arguments];

        // A shell's background job ignores Ctrl-C, and so would everything that it starts.
        if (OperatingSystem.IsLinux()) line = ["env", "--default-signal=INT", .. line];
        var start = new ProcessStartInfo(line[0], line[1..]) { RedirectStandardOutput = true, RedirectStandardError = true };
        if (home is not null) start.Environment["XDG_STATE_HOME"] = home;
        return Process.Start(start)!;
    }

    /// <summary>Bytes and files below a folder, as far as they can be counted while it changes.</summary>
    /// <param name="folder">The folder; it need not be there.</param>
    internal static (long Bytes, int Files) Below(string folder)
    {
        try
        {
            var files = new DirectoryInfo(
                folder).EnumerateFiles("*", new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = 0 });
            return files.Aggregate((Bytes: 0L, Files: 0), (sum, file) => (sum.Bytes + (file.Exists ? file.Length : 0), sum.Files + 1));
        }
        catch (IOException)
        {
            return (0, 0);
        }
    }
}
