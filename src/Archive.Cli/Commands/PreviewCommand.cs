using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Cli.Preview;

namespace Archive.Cli.Commands;

/// <summary>
/// <c>asfound preview</c>: serves the site on this machine, page by page as a browser asks for it, and reloads the page when the record or
/// the theme changes.
/// </summary>
internal static class PreviewCommand
{
    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "preview",
        "see the site while you edit the record",
        Run,
        terminal,
        ArchiveOptions.Content,
        PreviewRun.Port,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation) =>
        PreviewRun.Serve(arguments, terminal, review: null, cancellation);
}
