using System.Diagnostics;
using System.Globalization;

namespace Archive.Benchmarks;

/// <summary>Runs the tool as its users do, a process each, and tells wall time and peak memory.</summary>
internal static class ProcessMeasurements
{
    private static readonly TimeSpan Glance = TimeSpan.FromMilliseconds(10);

    /// <summary>
    /// Measures generated archives of several sizes. Where cost is linear, the processor's time a cable falls towards one figure as
    /// start-up counts for less.
    /// </summary>
    /// <param name="sizes">Numbers of cables.</param>
    /// <param name="checkOnly">Whether publishing is left out.</param>
    public static void Measure(int[] sizes, bool checkOnly)
    {
        Console.WriteLine(
            FormattableString.Invariant($"{Environment.ProcessorCount} cores, {Environment.OSVersion}, .NET {Environment.Version}"));
        Console.WriteLine(
            "| cables | frames | run | seconds | of processor | ms a cable | peak MB | exit code |\n| ---: | ---: | --- | ---: | ---: | ---: | ---: | ---: |");
        foreach (var cables in sizes) MeasureOne(cables, checkOnly);
    }

    private static void MeasureOne(int cables, bool checkOnly)
    {
        var work = Directory.CreateTempSubdirectory("archive-measure-").FullName;
        try
        {
            var content = Path.Combine(work, "content");
            var site = Path.Combine(work, "site");
            new ArchiveGenerator(Math.Max(2, cables / 10), cables, seed: 1).Write(content);
            Run(cables, "check", "check", "--content", content);
            if (checkOnly) return;
            Run(cables, "publish, cold", "publish", "--content", content, "--site", site);
            Run(cables, "publish, unchanged", "publish", "--content", content, "--site", site);
        }
        finally
        {
            Directory.Delete(work, recursive: true);
        }
    }

    private static void Run(int cables, string name, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "asfound.dll"), .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true
        };
        var clock = Stopwatch.StartNew();
        using var process = Process.Start(start)!;
        var said = process.StandardOutput.ReadToEndAsync();
        var complained = process.StandardError.ReadToEndAsync();
        var peak = 0L;
        var worked = TimeSpan.Zero;
        do
        {
            peak = Math.Max(peak, PeakOf(process.Id));
            worked = WorkOf(process) ?? worked;
        }
        while (!process.WaitForExit(Glance));
        var seconds = clock.Elapsed.TotalSeconds;
        Console.WriteLine(FormattableString.Invariant(
            $"| {cables} | {Math.Max(2, cables / 10)} | {name} | {seconds:F2} | {worked.TotalSeconds:F2} | {worked.TotalMilliseconds / cables:F3} | {peak / 1024} | {process.ExitCode} |"));
        if (process.ExitCode != 0) Console.Error.WriteLine(said.Result + complained.Result);
    }

    // On a machine that has other work, this says more than the wall clock; on a free one it shows how much ran side by side.
    private static TimeSpan? WorkOf(Process process)
    {
        try
        {
            return process.TotalProcessorTime;
        }
        catch (Exception gone) when (gone is InvalidOperationException or System.ComponentModel.Win32Exception or IOException)
        {
            return null;
        }
    }

    // The kernel keeps the greatest resident size of a process, in kB: proc(5), VmHWM. It is lost when the process ends, hence the glances.
    private static long PeakOf(int process)
    {
        try
        {
            var line = File.ReadLines($"/proc/{process}/status")
                .FirstOrDefault(line => line.StartsWith("VmHWM:", StringComparison.Ordinal));
            return line is null ? 0 : long.Parse(line.AsSpan(6).Trim(" \tkB"), CultureInfo.InvariantCulture);
        }
        catch (IOException)
        {
            return 0;
        }
    }
}
