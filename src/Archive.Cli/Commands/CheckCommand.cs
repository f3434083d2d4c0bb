using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Comparison;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Building;
using Archive.Publishing.Requests;

namespace Archive.Cli.Commands;

/// <summary><c>asfound check</c>: reads the record, reports every error, writes nothing.</summary>
internal static class CheckCommand
{
    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var options = CommandOptions.From(arguments);
        if (arguments.Survey) return Survey(options, terminal, cancellation);
        var outcome = ProgressDisplay.Over(terminal, progress => SiteBuild.Check(options.Order, progress, cancellation));
        if (arguments.Against is { } revision) outcome = Against(revision, options, outcome, cancellation);
        ResultWriter.WriteDiagnostics(terminal, options.Format, outcome.Diagnostics);
        terminal.Error.Write($"{ResultWriter.Closing(outcome)}\n");
        return outcome.Counts.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Success;
    }

    private static ExitCode Survey(CommandOptions options, Terminal terminal, CancellationToken cancellation)
    {
        if (options.Format != ReportFormat.Text)
            throw new WrongCommandLineException("--survey is always text for people", "leave out --format, or leave out --survey");
        var (outcome, stops) = ProgressDisplay.Over(terminal, progress => SiteBuild.Survey(options.Order, progress, cancellation));
        ResultWriter.WriteDiagnostics(terminal, options.Format, outcome.Diagnostics);
        if (outcome.Diagnostics.Length > 0 && stops.Length > 0) terminal.Out.Write("\n");
        foreach (var stop in stops)
        {
            terminal.Out.Write($"{VisibleText.From($"{stop.Id}  {stop.Title}".Trim())}\n");
            foreach (var line in stop.ToDo) terminal.Out.Write($"  [ ] {VisibleText.From(line)}\n");
            terminal.Out.Write("\n");
        }

        var lines = stops.Sum(stop => stop.ToDo.Length);
        var left = lines == 0
            ? "Nothing is still to be recorded, as far as the record shows."
            : $"Still to record: {ResultWriter.Number(lines, "item")} at {ResultWriter.Number(stops.Length, "place")}.";
        terminal.Error.Write($"{ResultWriter.Closing(outcome)}\n{left}\n");
        return outcome.Counts.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Success;
    }

    // What a survey saw is evidence: no fact of it may change without a note.
    private static BuildResult Against(string revision, CommandOptions options, BuildResult outcome, CancellationToken cancellation)
    {
        var content = options.Order.Content;
        using var before = CompareCommand.Named(revision, content, cancellation);
        if (before.Unreadable is { } diagnostic)
            return outcome with { Diagnostics = [.. outcome.Diagnostics, RenderedDiagnostic.From(diagnostic, options.Order.Prefix)] };
        using var now = ArchiveVersion.Lying("the archive", content, cancellation);
        var comparison = ArchiveComparison.Compare(before, now, cancellation);
        var guarded = GuardedFacts.Read(now.Folder).With(GuardedFacts.Read(before.Folder), before.Name);
        return outcome with
        {
            Diagnostics = [.. outcome.Diagnostics, .. RenderedDiagnostic.FromAll(guarded.Check(comparison), options.Order.Prefix)]
        };
    }
}
