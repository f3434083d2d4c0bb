using System.Diagnostics;
using Archive.Diagnostics;
using Archive.Site;

namespace Archive.Cli;

/// <summary><c>asfound publish</c>: checks the record and puts its site in place.</summary>
internal static class PublishCommand
{
    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var options = Options.From(arguments);
        var site = Options.Site(arguments, options.Order.Content);
        var watch = Stopwatch.StartNew();
        var outcome = Watch.Over(terminal, progress => SiteBuild.Publish(options.Order with { Replace = arguments.Replace }, site.Path, site.ShownAs, progress, cancellation));
        Report.Faults(terminal, options.Format, outcome.Faults);
        if (outcome.Ending is BuildEnding.Refused refused)
        {
            TextReport.Write(terminal.Error, [Telling.Of(refused.Why, "")], terminal.ErrorStyle);
            return ExitCode.OutsideFailed;
        }

        terminal.Error.Write($"{Report.Closing(outcome)}\n{Ending(outcome.Ending, options, site.ShownAs)} ({watch.Elapsed.TotalSeconds:0.0} s)\n");
        return outcome.Tally.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Well;
    }

    private static string Ending(BuildEnding ending, Options options, string site) => ending switch
    {
        BuildEnding.Unchanged same => $"Nothing changed in {site}: {Report.Number(same.Files.Length, "file")}.",
        BuildEnding.Published done =>
            $"Published to {site}: {Report.Number(done.Files.Length, "file")}, {done.Written:N0} written, {done.Removed:N0} removed.",
        _ => $"Nothing was published; {site} has not changed.{(options.Order.WithErrors ? "" : " --with-errors publishes anyway, and every page says so.")}",
    };
}
