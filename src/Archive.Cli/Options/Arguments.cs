using System.CommandLine;

namespace Archive.Cli.Options;

/// <summary>What was typed, nothing of it judged.</summary>
/// <param name="parsed">The command line.</param>
internal sealed class Arguments(ParseResult parsed)
{
    /// <summary>The value of an option; nothing where it was not typed, or the command does not take it.</summary>
    internal T? Get<T>(Option<T> option) => parsed.GetResult(option) is null ? default : parsed.GetValue(option);

    /// <summary>The value of an argument; nothing where it was left out, or the command does not take it.</summary>
    internal T? Get<T>(Argument<T> argument) =>
        parsed.CommandResult.Command.Arguments.Contains(argument) ? parsed.GetValue(argument) : default;
}
