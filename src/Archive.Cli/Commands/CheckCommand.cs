using Archive.Diagnostics;
using Archive.Preservation;
using Archive.Site;

namespace Archive.Cli;

/// <summary><c>asfound check</c>: reads the record, tells every fault, writes nothing.</summary>
internal static class CheckCommand
{
    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var options = Options.From(arguments);
        if (arguments.Survey) return Survey(options, terminal, cancellation);
        var outcome = Watch.Over(terminal, progress => SiteBuild.Check(options.Order, progress, cancellation));
        if (arguments.Against is { } revision) outcome = Against(revision, options, outcome, cancellation);
        Report.Faults(terminal, options.Format, outcome.Faults);
        terminal.Error.Write($"{Report.Closing(outcome)}\n");
        return outcome.Tally.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Well;
    }

    private static ExitCode Survey(Options options, Terminal terminal, CancellationToken cancellation)
    {
        if (options.Format != ReportFormat.Text) throw new WrongCommandLineException("--survey is always text for people", "leave out --format, or leave out --survey");
        var (outcome, stops) = Watch.Over(terminal, progress => SiteBuild.Survey(options.Order, progress, cancellation));
        Report.Faults(terminal, options.Format, outcome.Faults);
        if (outcome.Faults.Length > 0 && stops.Length > 0) terminal.Out.Write("\n");
        foreach (var stop in stops)
        {
            terminal.Out.Write($"{Visible.Of($"{stop.Id}  {stop.Title}".Trim())}\n");
            foreach (var line in stop.ToDo) terminal.Out.Write($"  [ ] {Visible.Of(line)}\n");
            terminal.Out.Write("\n");
        }

        var lines = stops.Sum(stop => stop.ToDo.Length);
        var left = lines == 0 ? "Nothing is still to be recorded, as far as the record shows." : $"Still to record: {Report.Number(lines, "item")} at {Report.Number(stops.Length, "place")}.";
        terminal.Error.Write($"{Report.Closing(outcome)}\n{left}\n");
        return outcome.Tally.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Well;
    }

    // What a survey saw is evidence: no fact of it may change without a note.
    private static BuildOutcome Against(string revision, Options options, BuildOutcome outcome, CancellationToken cancellation)
    {
        var content = options.Order.Content;
        using var before = CompareCommand.Named(revision, content, cancellation);
        if (before.Unreadable is { } fault) return outcome with { Faults = [.. outcome.Faults, Telling.Of(fault, options.Order.Prefix)] };
        using var now = Edition.Lying("the archive", content, cancellation);
        var comparison = Comparison.Of(before, now, cancellation);
        var guarded = GuardedFacts.Read(now.Folder).With(GuardedFacts.Read(before.Folder), before.Name);
        return outcome with { Faults = [.. outcome.Faults, .. Telling.All(guarded.Check(comparison), options.Order.Prefix)] };
    }
}
