using System.Diagnostics;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>
/// What a user without special rights may not do: run as another user where the tests are run by the superuser, who may do anything.
/// </summary>
public sealed class PermissionTests : IDisposable
{
    private const string Nobody = "65534";
    private readonly Asfound _archive = new();

    public void Dispose()
    {
        if (!OperatingSystem.IsWindows() && Directory.Exists(_archive["content/frames/shut"]))
            File.SetUnixFileMode(_archive["content/frames/shut"], (UnixFileMode)0b111_111_111);
        _archive.Dispose();
    }

    [Fact]
    public async Task A_folder_that_cannot_be_listed_is_told_at_its_path_and_the_rest_is_read()
    {
        if (!OperatingSystem.IsLinux()) return;
        _archive.Write("content/frames/shut/r9.yaml", "- {id: R9-01, name: Nine}\n");
        _archive.Write("content/frames/r3.yaml", "- {id: R3-01, name: Three, weight: 310}\n");
        Open();
        File.SetUnixFileMode(_archive["content/frames/shut"], 0);
        var run = await AsNobody("check", "--content", _archive["content"], "--cache", _archive["cache"]);
        Assert.Equal(1, run.Code);
        Assert.Contains(
            "content/frames/shut: error AF0010: this folder cannot be listed: access is denied", run.Out, StringComparison.Ordinal);
        Assert.Contains("content/frames/r3.yaml:1:36: error AF0204", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_port_that_needs_a_permission_is_not_called_taken()
    {
        if (!OperatingSystem.IsLinux()
            || !int.TryParse(File.ReadAllText("/proc/sys/net/ipv4/ip_unprivileged_port_start"), out var free)
            || free <= 81) return;
        Open();
        var run = await AsNobody("preview", "--content", _archive["content"], "--cache", _archive["cache"], "--port", "81");
        Assert.Equal(3, run.Code);
        Assert.Contains("port 81 needs a permission", run.Error, StringComparison.Ordinal);
    }

    // Temporary folders of the tests are their owner's only.
    [System.Runtime.Versioning.SupportedOSPlatform("linux")]
    private void Open()
    {
        Directory.CreateDirectory(_archive["cache"]);
        Directory.CreateDirectory(_archive["home"]);
        foreach (var folder in Directory.GetDirectories(_archive[""], "*", SearchOption.AllDirectories).Append(_archive[""]))
            File.SetUnixFileMode(folder, (UnixFileMode)0b111_111_111);
    }

    private async Task<Run> AsNobody(params string[] arguments)
    {
        string[] typed = ["dotnet", Path.Combine(AppContext.BaseDirectory, "asfound.dll"), .. arguments];
        if (Environment.UserName == "root") typed = ["setpriv", $"--reuid={Nobody}", $"--regid={Nobody}", "--clear-groups", .. typed];
        var start = new ProcessStartInfo(typed[0], typed[1..]) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["XDG_STATE_HOME"] = _archive["home"];
        start.Environment["HOME"] = _archive["home"];
        using var process = Process.Start(start)!;
        var (output, error) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(5));
        await process.WaitForExitAsync(patience.Token);
        return new Run(process.ExitCode, await output, await error);
    }
}
