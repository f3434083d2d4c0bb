using Archive.Site;

namespace Archive.Cli;

/// <summary><c>asfound check</c>: reads the record, tells every fault, writes nothing.</summary>
internal static class CheckCommand
{
    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var options = Options.From(arguments);
        var outcome = Watch.Over(terminal, progress => SiteBuild.Check(options.Order, progress, cancellation));
        Report.Faults(terminal, options.Format, outcome.Faults);
        terminal.Error.Write($"{Report.Closing(outcome)}\n");
        return outcome.Tally.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Well;
    }
}
