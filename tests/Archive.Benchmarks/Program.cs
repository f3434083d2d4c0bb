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
        var command = new Command("measure", "runs the tool as a process of its own, and prints wall time and peak memory") { sizes, only };
        command.SetAction(given => ProcessMeasurements.Measure(given.GetValue(sizes)!, given.GetValue(only)));
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
