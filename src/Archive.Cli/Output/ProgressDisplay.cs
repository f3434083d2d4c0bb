using Archive.Publishing.Requests;
using Spectre.Console;

namespace Archive.Cli.Output;

/// <summary>Shows how far a build is: bars on a terminal, for work that takes longer than a moment; nothing elsewhere.</summary>
internal static class ProgressDisplay
{
    private static readonly TimeSpan Moment = TimeSpan.FromMilliseconds(600);

    /// <summary>Runs a build and shows how far it is.</summary>
    /// <typeparam name="T">The result of it.</typeparam>
    /// <param name="terminal">Where it is shown.</param>
    internal static T Over<T>(Terminal terminal, Func<IProgress<BuildProgress>?, T> build)
    {
        if (!terminal.IsWatched) return build(null);
        var latest = new Latest();
        var work = Task.Run(() => build(latest));
        if (Task.WaitAny([work], Moment) < 0) Draw(latest, work);
        return work.GetAwaiter().GetResult();
    }

    private static void Draw(Latest latest, Task work)
    {
        var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) });
        console.Progress().AutoClear(true).HideCompleted(false)
            .Columns(
                new TaskDescriptionColumn { Alignment = Justify.Left },
                new ProgressBarColumn(),
                new PercentageColumn(),
                new SpinnerColumn(Spinner.Known.Line))
            .Start(context =>
            {
                var tasks = new Dictionary<BuildStep, ProgressTask>();
                while (Task.WaitAny([work], 100) < 0)
                {
                    foreach (var step in latest.Steps) Show(context, tasks, step);
                }
            });
    }

    private static void Show(ProgressContext context, Dictionary<BuildStep, ProgressTask> tasks, BuildProgress step)
    {
        if (!tasks.TryGetValue(step.Step, out var task)) tasks[step.Step] = task = context.AddTask(Name(step.Step));
        task.IsIndeterminate = step.Total == 0;
        task.MaxValue = Math.Max(1, step.Total);
        task.Value = step.Done;
        task.Description = step.Total == 0 && step.Done > 0 ? $"{Name(step.Step)} {step.Done:N0}" : Name(step.Step);
    }

    private static string Name(BuildStep step) => step switch
    {
        BuildStep.Check => "reading the record",
        BuildStep.Inspect => "inspecting photos",
        BuildStep.Develop => "processing photos",
        BuildStep.ReadLabels => "reading labels",
        BuildStep.Seal => "sealing (MiB)",
        BuildStep.Verify => "reading files back (MiB)",
        _ => "making pages",
    };

    // Builds report from many threads, far oftener than anything can be drawn.
    private sealed class Latest : IProgress<BuildProgress>
    {
        private readonly BuildProgress?[] _steps = new BuildProgress?[Enum.GetValues<BuildStep>().Length];
        private readonly Lock _lock = new();

        internal IReadOnlyList<BuildProgress> Steps
        {
            get
            {
                lock (_lock) return [.. _steps.OfType<BuildProgress>()];
            }
        }

        public void Report(BuildProgress value)
        {
            lock (_lock)
            {
                if (_steps[(int)value.Step] is not { } before || before.Done <= value.Done) _steps[(int)value.Step] = value;
            }
        }
    }
}
