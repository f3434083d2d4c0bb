using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Storage;

namespace Archive.Cli;

/// <summary>
/// The way in. Exit codes: 0 well; 1 the record has errors; 2 the command line is wrong; 3 something outside failed; 130 or 143 ended by a
/// signal.
/// </summary>
internal static class Program
{
    private const string Interrupted = "asfound: interrupted\n  help: site, bag and record are unharmed; run the same command again\n";

    private static async Task<int> Main(string[] args)
    {
        using var interruption = Interruption.Listen();
        var terminal = Terminal.Own();
        interruption.OnStop(() =>
        {
            terminal.ShowCursor();
            terminal.Error.Write(Interrupted);
        });
        var code = await Run(args, terminal, interruption.Token).ConfigureAwait(false);
        return (int)(interruption.Code ?? code);
    }

    /// <summary>Runs a command line.</summary>
    /// <param name="args">What was typed.</param>
    /// <param name="terminal">Where it speaks.</param>
    /// <param name="cancellation">Is cancelled when the process is asked to end.</param>
    internal static async Task<ExitCode> Run(string[] args, Terminal terminal, CancellationToken cancellation = default)
    {
        try
        {
            var parsed = CommandLine.Make(terminal).Parse(args, CommandLine.Reading);
            if (CommandLine.Error(parsed) is { } wrong) throw wrong;
            var code = await parsed.InvokeAsync(CommandLine.Manner(terminal), cancellation).ConfigureAwait(false);
            await terminal.Out.FlushAsync(cancellation).ConfigureAwait(false);
            return (ExitCode)code;
        }
        catch (Exception given) when (Interruption.IsBehind(given) || cancellation.IsCancellationRequested)
        {
            terminal.Error.Write(Interrupted);
            return ExitCode.Interrupted;
        }
        catch (WrongCommandLineException wrong)
        {
            return terminal.Complain(ExitCode.CommandLineWrong, wrong.Message, wrong.Help);
        }
        catch (Exception trouble) when (DiskErrors.Is(trouble))
        {
            return terminal.Complain(
                ExitCode.OutsideFailed, DiskErrors.Describe(trouble), "check the disk and its permissions, then try again");
        }
        catch (Exception exception) when (Environment.GetEnvironmentVariable("ASFOUND_TRACE") is not "1")
        {
            return terminal.Complain(
                ExitCode.OutsideFailed,
                $"an error in asfound itself: {exception.Message}",
                "run it again with ASFOUND_TRACE=1 to see where, and report it with that output");
        }
    }
}
