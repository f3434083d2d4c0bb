using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Building;
using Archive.Storage;

namespace Archive.Cli.Preview;

/// <summary>Serves the site on this machine until it is stopped, and reloads pages when the record or the theme changes.</summary>
internal static class PreviewRun
{
    internal static readonly Option<int?> Port =
        new("--port") { HelpName = "NUMBER", Description = "the port to serve on, or 0 for any free one (the first free one from 8400)" };

    /// <param name="review">Proposals to decide in a page; null for none.</param>
    internal static ExitCode Serve(Arguments arguments, Terminal terminal, ReviewSession? review, CancellationToken cancellation)
    {
        if (arguments.Get(Port) is < 0 or > 65535) throw new WrongCommandLineException(
            $"{arguments.Get(Port)} is not a port number", "use a number from 1 to 65535, or 0 for any free port");
        var options = CommandOptions.From(arguments);
        var session = new SiteSession(options.Order);
        var state = new PreviewState(diagnostics => ResultWriter.WriteDiagnostics(terminal, ReportFormat.Text, diagnostics));
        using var server = SiteServer.Start(state, arguments.Get(Port), review);

        // A link in the place of the themes is refused by the check, and could lead to the top of the disk.
        using var watch = new FolderWatch([options.Order.Content, .. options.Order.Themes.Where(PrivateFolder.IsFolder)]);
        terminal.Error.Write($"Preview at {server.Address}; stop it with Ctrl-C.\n");
        if (review is not null) terminal.Error.Write($"Decide at {new Uri(server.Address, ReviewPage.Path)}\n");
        while (true)
        {
            Update(session, state, terminal, cancellation);
            watch.Next(cancellation).GetAwaiter().GetResult();
        }
    }

    private static void Update(SiteSession session, PreviewState state, Terminal terminal, CancellationToken cancellation)
    {
        try
        {
            if (session.Update(cancellation) is not { } outcome) return;
            state.Take(outcome, session.Site);
            ResultWriter.WriteDiagnostics(terminal, ReportFormat.Text, outcome.Diagnostics);
            terminal.Error.Write($"{ResultWriter.Closing(outcome)}\n");
        }
        catch (Exception trouble) when (DiskErrors.Is(trouble))
        {
            // A folder that is being moved about: the next change brings the next try.
            terminal.Error.Write($"{VisibleText.From(DiskErrors.Describe(trouble))}\n");
        }
    }
}
