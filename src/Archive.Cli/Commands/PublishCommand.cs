using System.CommandLine;
using System.Diagnostics;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Building;
using Archive.Publishing.Requests;

namespace Archive.Cli.Commands;

/// <summary><c>asfound publish</c>: checks the record and puts its site in place.</summary>
internal static class PublishCommand
{
    private static readonly Option<bool> ReplaceOption =
        new("--replace") { Description = "replace the site although its files were changed by hand" };

    private static readonly Option<bool> RebuildOption =
        new("--rebuild") { Description = "empty the cache first, and make everything again" };

    private static readonly Option<bool> WithErrorsOption =
        new("--with-errors") { Description = "publish although the record has errors; every page says so" };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "publish",
        "check the record and publish its site",
        Run,
        terminal,
        ArchiveOptions.Content,
        ArchiveOptions.Site,
        ReplaceOption,
        RebuildOption,
        WithErrorsOption,
        ArchiveOptions.Format,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var options = CommandOptions.From(arguments, arguments.Get(WithErrorsOption));
        var site = CommandOptions.Site(arguments, options.Order.Content);
        var watch = Stopwatch.StartNew();
        if (arguments.Get(RebuildOption)) options.Order.Cache.Clear();
        var order = options.Order with { Replace = arguments.Get(ReplaceOption) };
        var outcome = ProgressDisplay.Over(terminal, progress =>
            SiteBuild.Publish(order, site.Path, site.ShownAs, progress, cancellation));
        ResultWriter.WriteDiagnostics(terminal, options.Format, outcome.Diagnostics);
        if (outcome.Status is BuildStatus.Refused refused)
        {
            TextReport.Write(terminal.Error, [RenderedDiagnostic.From(refused.Why, "")], terminal.ErrorStyle);
            return ExitCode.OutsideFailed;
        }

        terminal.Error.Write(
            $"{ResultWriter.Closing(outcome)}\n{Ending(outcome.Status, options, site.ShownAs)} ({watch.Elapsed.TotalSeconds:0.0} s)\n");
        return outcome.Counts.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Success;
    }

    private static string Ending(BuildStatus status, CommandOptions options, string site) => status switch
    {
        BuildStatus.Unchanged same => $"Nothing changed in {site}: {ResultWriter.Number(same.Files.Length, "file")}.",
        BuildStatus.Published done =>
            $"Published to {site}: {ResultWriter.Number(done.Files.Length, "file")}, {done.Written:N0} written, {done.Removed:N0} removed.",
        _ => $"Nothing was published; {site} has not changed.{(options.Order.WithErrors ? "" : " --with-errors publishes anyway, and every page says so.")}",
    };
}
