using System.Diagnostics;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>What a short command loads: what it does not load costs it no time.</summary>
public sealed class StartUpTests
{
    private static readonly string[] Heavy =
        [
            "Microsoft.AspNetCore", "Microsoft.Extensions.Hosting", "Lucene.Net", "NetVips", "Scriban", "Markdig", "NetTopologySuite",
            "UnitsNet", "QRCoder", "zxing", "Spectre.Console", "YamlDotNet"
        ];

    [Fact]
    public async Task A_version_loads_no_library_but_that_of_the_command_line()
    {
        var loaded = await LoadedBy("--version");
        Assert.Contains("System.CommandLine", loaded);
        Assert.DoesNotContain(loaded, name => Heavy.Any(library => name.StartsWith(library, StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Only_the_preview_loads_a_web_server()
    {
        using var archive = new Asfound();
        Assert.DoesNotContain(await LoadedBy("check", "--content", archive["content"]), IsServer);
        var busy = new System.Net.Sockets.TcpListener(System.Net.IPAddress.Loopback, 0);
        busy.Start();
        var port = ((System.Net.IPEndPoint)busy.LocalEndpoint).Port;
        Assert.Contains(await LoadedBy("preview", "--content", archive["content"], "--port", $"{port}"), IsServer);
        busy.Stop();

        static bool IsServer(string name) => name.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal);
    }

    // Names of the assemblies that are loaded when the tool ends.
    private static async Task<string[]> LoadedBy(params string[] arguments)
    {
        var list = Path.GetTempFileName();
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "asfound.dll"), .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            Environment = { ["DOTNET_STARTUP_HOOKS"] = typeof(StartupHook).Assembly.Location, [StartupHook.ListName] = list },
        };
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        var names = await File.ReadAllLinesAsync(list, TestContext.Current.CancellationToken);
        File.Delete(list);
        Assert.True(names.Length > 0, await error);
        return names;
    }
}
