using System.CommandLine;
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
    private static readonly Option<bool> SurveyOption = new("--survey")
    {
        Description =
            "also list what is still to be recorded, frame by frame in walking order, while the machine is still there: missing views, photos to take again "
                + "(too dark, burnt out, or less than a quarter as sharp as half of that camera's photos), photos that look the same, missing ends, lengths and weights. Decodes each photo once",
    };

    private static readonly Option<string> AgainstOption = new("--against")
    {
        HelpName = "REVISION",
        Description =
            "also compare with an earlier git revision, a bag or a folder: changing or removing a fact of the as-found state without a note is an error "
                + "(see asfound explain AF1401; guarded.txt lists such facts)",
    };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "check",
        "report every error in the record",
        Run,
        terminal,
        ArchiveOptions.Content,
        SurveyOption,
        AgainstOption,
        ArchiveOptions.Format,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var options = CommandOptions.From(arguments);
        if (arguments.Get(SurveyOption)) return Survey(options, terminal, cancellation);
        var outcome = ProgressDisplay.Over(terminal, progress => SiteBuild.Check(options.Order, Today, progress, cancellation));
        if (arguments.Get(AgainstOption) is { } revision) outcome = Against(revision, options, outcome, cancellation);
        ResultWriter.WriteDiagnostics(terminal, options.Format, outcome.Diagnostics);
        terminal.Error.Write($"{ResultWriter.Closing(outcome)}\n");
        return outcome.Counts.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Success;
    }

    // The one place where a command asks what day it is: what has happened is not in the future.
    private static DateOnly Today => DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().Date);

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
