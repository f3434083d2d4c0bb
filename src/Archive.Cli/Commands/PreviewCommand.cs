using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Cli.Preview;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Building;
using Archive.Publishing.Requests;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary>
/// <c>asfound preview</c>: serves the site on this machine, builds it again when the record or the theme changes, reloads the page.
/// </summary>
internal static class PreviewCommand
{
    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Port is < 0 or > 65535) throw new WrongCommandLineException(
            $"{arguments.Port} is not a port number", "use a number from 1 to 65535, or 0 for any free port");
        var options = CommandOptions.From(arguments);
        var state = new PreviewState(options.Order.Cache.Preview);
        using var server = SiteServer.Start(state, arguments.Port);

        // A link in the place of the themes is refused by the build, and could lead to the top of the disk.
        using var watch = new FolderWatch([options.Order.Content, .. options.Order.Themes.Where(PrivateFolder.IsFolder)]);
        terminal.Error.Write($"Preview at {server.Address}; stop it with Ctrl-C.\n");
        while (true)
        {
            Build(options.Order with { Replace = true }, state, terminal, cancellation);
            watch.Next(cancellation).GetAwaiter().GetResult();
        }
    }

    private static void Build(BuildOptions options, PreviewState state, Terminal terminal, CancellationToken cancellation)
    {
        try
        {
            var outcome = SiteBuild.Publish(options, state.Site, "the preview", null, cancellation);
            state.Take(outcome);
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
