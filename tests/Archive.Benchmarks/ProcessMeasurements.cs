using System.Diagnostics;
using System.Globalization;

namespace Archive.Benchmarks;

/// <summary>Runs the tool as its users do, a process each, and tells wall time and peak memory.</summary>
internal static class ProcessMeasurements
{
    private const int DemoCables = 601, DemoFrames = 32;

    // From here on once is enough: a run takes minutes.
    private const int Large = 50_000;

    private static readonly TimeSpan Glance = TimeSpan.FromMilliseconds(10);

    /// <summary>
    /// Measures generated archives of several sizes. Where cost is linear, the processor's time a cable falls towards one figure as
    /// start-up counts for less.
    /// </summary>
    /// <param name="sizes">Numbers of cables.</param>
    /// <param name="checkOnly">Whether publishing is left out.</param>
    /// <param name="demo">Folder of the demo's archive; it is measured first. Null leaves it out.</param>
    /// <param name="runs">How often each is run: medians are printed. From <see cref="Large"/> cables on, once.</param>
    /// <param name="tool">Full path of the tool's <c>asfound.dll</c>, such as the packed one's.</param>
    public static void Measure(int[] sizes, bool checkOnly, string? demo, int runs, string tool)
    {
        Console.WriteLine(
            FormattableString.Invariant($"{Environment.ProcessorCount} cores, {Environment.OSVersion}, .NET {Environment.Version}"));
        Console.WriteLine(
            "| cables | frames | run | seconds | of processor | ms a cable | peak MB | exit code |\n| ---: | ---: | --- | ---: | ---: | ---: | ---: | ---: |");
        if (demo is not null) MeasureOne(DemoCables, DemoFrames, content => Copy(demo, content), checkOnly, runs, tool);
        foreach (var cables in sizes)
        {
            var frames = Math.Max(2, cables / 10);
            MeasureOne(cables, frames, new ArchiveGenerator(frames, cables, seed: 1).Write, checkOnly, cables < Large ? runs : 1, tool);
        }
    }

    private static void MeasureOne(int cables, int frames, Action<string> write, bool checkOnly, int runs, string tool)
    {
        var work = Directory.CreateTempSubdirectory("archive-measure-").FullName;
        try
        {
            var content = Path.Combine(work, "content");
            var site = Path.Combine(work, "site");
            write(content);
            var (edit, frame) = Renaming(content);
            var measured = new List<Measured>();
            for (var run = 0; run < runs; run++)
            {
                measured.Add(Run(tool, "check", "check", "--content", content));
                edit(3 * run);
                measured.Add(Run(tool, "check, one frame renamed", "check", "--content", content));
                if (checkOnly) continue;

                // Moved away, not deleted: ext4 makes no file quickly for minutes after many were deleted.
                foreach (var left in (string[])[site, Path.Combine(work, ".asfound")])
                {
                    if (Directory.Exists(left)) Directory.Move(left, $"{left}-of-run-{run - 1}");
                }

                edit((3 * run) + 1);
                string[] publish = ["publish", "--content", content, "--site", site];
                measured.Add(Run(tool, "publish, cold", publish));
                measured.Add(Run(tool, "publish, unchanged", publish));
                edit((3 * run) + 2);
                measured.Add(Run(tool, "publish, one frame renamed", publish));
            }

            foreach (var of in measured.GroupBy(each => each.Name, StringComparer.Ordinal)) Print((cables, frames), Median([.. of]));
            if (checkOnly) return;
            var (wall, processor, peak) = PreviewMeasurements.Measure(tool, work, edit, frame).GetAwaiter().GetResult();
            Print((cables, frames), new Measured("preview, from an edit to the page", wall, processor, peak, 0));
            var pages = Directory.GetDirectories(Path.Combine(site, "cables"))
                .Select(page => new FileInfo(Path.Combine(page, "index.html")).Length)
                .Order()
                .ToList();
            Console.WriteLine(FormattableString.Invariant(
                $"HTML of a page of a cable, of {cables}: {pages[pages.Count / 2] / 1000.0:F1} kB (median), {pages[^1] / 1000.0:F1} kB (largest)"));
        }
        finally
        {
            Directory.Delete(work, recursive: true);
        }
    }

    // The first frame of the first file that has one gets a name with a number in it.
    private static (Action<int> Edit, string Frame) Renaming(string content)
    {
        foreach (var file in Directory.GetFiles(Path.Combine(content, "frames"), "*.yaml").Order(StringComparer.Ordinal))
        {
            var lines = File.ReadAllLines(file);
            var (id, name) = (
                Array.FindIndex(lines, line => line.StartsWith("- id: ", StringComparison.Ordinal)),
                Array.FindIndex(lines, line => line.StartsWith("  name: ", StringComparison.Ordinal)));
            if (id < 0 || name < id) continue;
            return (number =>
            {
                lines[name] = FormattableString.Invariant($"  name: Renamed {number}");
                File.WriteAllLines(file, lines);
            }, lines[id]["- id: ".Length..].Trim());
        }

        throw new InvalidOperationException($"{content} has no frame that can be renamed");
    }

    private static void Copy(string from, string to)
    {
        foreach (var file in Directory.GetFiles(from, "*", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
    }

    private static void Print((int Cables, int Frames) size, Measured run) => Console.WriteLine(FormattableString.Invariant(
        $"| {size.Cables} | {size.Frames} | {run.Name} | {run.Wall:F2} | {run.Processor:F2} | {1000 * run.Processor / size.Cables:F3} | {run.Peak} | {run.ExitCode} |"));

    // Of each figure by itself, but for memory, of which the most counts.
    private static Measured Median(List<Measured> runs) => new(
        runs[0].Name,
        Middle(runs.Select(run => run.Wall)),
        Middle(runs.Select(run => run.Processor)),
        runs.Max(run => run.Peak),
        runs.Max(run => run.ExitCode));

    private static double Middle(IEnumerable<double> values) => values.Order().ToList() is var all ? all[all.Count / 2] : 0;

    private static Measured Run(string tool, string name, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [tool, .. arguments])
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
        if (process.ExitCode != 0) Console.Error.WriteLine(said.Result + complained.Result);
        return new Measured(name, clock.Elapsed.TotalSeconds, worked.TotalSeconds, peak / 1024, process.ExitCode);
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

    /// <summary>One run, or the median of some.</summary>
    /// <param name="Wall">Seconds from beginning to end.</param>
    /// <param name="Processor">Seconds of all processors.</param>
    /// <param name="Peak">Most memory, in MB.</param>
    private sealed record Measured(string Name, double Wall, double Processor, long Peak, int ExitCode);
}
