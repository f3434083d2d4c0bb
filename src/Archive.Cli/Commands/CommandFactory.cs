using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;

namespace Archive.Cli.Commands;

/// <summary>Makes commands: each says what it takes, and runs with what was typed.</summary>
internal static class CommandFactory
{
    /// <summary>Makes a command.</summary>
    /// <param name="takes">Its arguments and options, in the order in which help shows them.</param>
    internal static Command Create(
        string name,
        string description,
        Func<Arguments, Terminal, CancellationToken, ExitCode> run,
        Terminal terminal,
        params ReadOnlySpan<Symbol> takes)
    {
        var command = new Command(name, description);
        foreach (var symbol in takes)
        {
            if (symbol is Argument argument) command.Add(argument);
            else command.Add((Option)symbol);
        }

        command.SetAction((parsed, cancellation) =>
            Task.Run(() => (int)run(new Arguments(parsed), terminal, cancellation), CancellationToken.None));
        return command;
    }
}
