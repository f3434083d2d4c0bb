using System.CommandLine;
using BenchmarkDotNet.Running;

namespace Archive.Benchmarks;

/// <summary>Makes archives of any size, and measures what the tool needs for them.</summary>
internal static class Program
{
    private static int Main(string[] arguments)
    {
        var root =
            new RootCommand("Makes archives of any size, and measures what the tool needs for them.") { Generate(), Measure(), Bench() };
        return root.Parse(arguments).Invoke();
    }

    private static Command Generate()
    {
        var frames = new Option<int>("--frames") { Description = "number of frames", DefaultValueFactory = _ => 1_000 };
        var cables =
            new Option<int>("--cables") { Description = "number of cables, half of them in CSV", DefaultValueFactory = _ => 10_000 };
        var seed = new Option<int>("--seed")
        {
            Description = "another seed, another archive; the same seed, the same bytes",
            DefaultValueFactory = _ => 1
        };
        var misread = new Option<int>("--misread")
        {
            Description = "of a hundred labels, how many have a letter in a figure's place",
            DefaultValueFactory = _ => 0
        };
        var to = new Option<DirectoryInfo>("--to") { Description = "an empty or new folder", Required = true };
        var command =
            new Command("generate", "writes a made-up archive without photos and without faults") { frames, cables, seed, misread, to };
        command.SetAction(given => new ArchiveGenerator(
            given.GetValue(frames),
            given.GetValue(cables),
            given.GetValue(seed),
            given.GetValue(misread)).Write(given.GetRequiredValue(to).FullName));
        return command;
    }

    private static Command Measure()
    {
        var sizes = new Option<int[]>("--cables")
        {
            Description = "sizes to measure, a tenth as many frames each",
            DefaultValueFactory = _ => [1_000, 10_000, 100_000],
            AllowMultipleArgumentsPerToken = true
        };
        var only = new Option<bool>("--check-only") { Description = "leave publish out" };
        var demo = new Option<DirectoryInfo>("--demo")
        {
            Description = "an archive to measure first: the demo's, which is content/ of the repository",
            DefaultValueFactory = _ => new DirectoryInfo("content")
        };
        var runs = new Option<int>("--runs")
        {
            Description = "runs of each, of which the medians are printed; 100,000 cables run once",
            DefaultValueFactory = _ => 3,
        };
        var tool = new Option<FileInfo>("--tool")
        {
            Description = "the asfound.dll to run, such as the packed tool's; else the one that was built with this",
            DefaultValueFactory = _ => new FileInfo(Path.Combine(AppContext.BaseDirectory, "asfound.dll")),
        };
        var command = new Command("measure", "runs the tool as a process of its own, and prints wall time and peak memory")
        {
            sizes, only, demo, runs, tool,
        };
        command.SetAction(given => ProcessMeasurements.Measure(
            given.GetValue(sizes)!,
            given.GetValue(only),
            given.GetValue(demo) is { Exists: true } folder ? folder.FullName : null,
            Math.Max(1, given.GetValue(runs)),
            given.GetValue(tool)!.FullName));
        return command;
    }

    private static Command Bench()
    {
        var command = new Command("bench", "measures reading and checking within one process, by BenchmarkDotNet");
        command.SetAction(_ =>
        {
            BenchmarkRunner.Run([typeof(RecordBenchmarks), typeof(LabelBenchmarks), typeof(PlanBenchmarks)]);
        });
        return command;
    }
}
