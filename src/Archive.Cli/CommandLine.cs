using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using Archive.Cli.Commands;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics;

namespace Archive.Cli;

/// <summary>
/// All commands, and what is said of a command line that is wrong. Help shows their descriptions between the words of <c>Help/</c>.
/// </summary>
internal static class CommandLine
{
    /// <summary>All commands, speaking to a terminal.</summary>
    internal static RootCommand Make(Terminal terminal)
    {
        var root = new RootCommand("check, plan, publish and preserve the record of a machine")
        {
            NewCommand.Create(terminal),
            CheckCommand.Create(terminal),
            PublishCommand.Create(terminal),
            PreviewCommand.Create(terminal),
            PlanCommand.Create(terminal),
            ExportCommand.Create(terminal),
            FindCommand.Create(terminal),
            AddressesCommand.Create(terminal),
            IntakeCommand.Create(terminal),
            ImportCommand.Create(terminal),
            SchemeCommand.Create(terminal),
            ReadLabelsCommand.Create(terminal),
            SealCommand.Create(terminal),
            LabelsCommand.Create(terminal),
            CompareCommand.Create(terminal),
            AuditCommand.Create(terminal),
            ExplainCommand.Create(terminal),
            FormatCommand.Create(terminal),
        };
        root.SetAction(parsed => HelpPage.Write(terminal, parsed));
        foreach (var help in root.Options.OfType<HelpOption>()) help.Action = new ShowHelp(terminal);
        foreach (var version in root.Options.OfType<VersionOption>()) version.Action = new ShowVersion(terminal);
        return root;
    }

    /// <summary>
    /// How a command line is read: a word that begins with @ is a revision (<c>@{upstream}</c>), never a file of more words.
    /// </summary>
    internal static ParserConfiguration Reading { get; } = new() { ResponseFileTokenReplacer = null };

    /// <summary>How commands are run: errors come out as exceptions; signals are the business of <see cref="Interruption"/>.</summary>
    internal static InvocationConfiguration Manner(Terminal terminal) => new()
    {
        EnableDefaultExceptionHandler = false,
        Output = terminal.Out,
        Error = terminal.Error,
        ProcessTerminationTimeout = null,
    };

    /// <summary>What is wrong with a command line, if anything.</summary>
    /// <param name="parsed">The command line.</param>
    internal static WrongCommandLineException? Error(ParseResult parsed)
    {
        if (parsed.Errors is not [var first, ..] || parsed.Action is ShowHelp or ShowVersion) return null;
        var command = parsed.CommandResult.Command;
        var page = command is RootCommand ? "asfound --help" : $"asfound {command.Name} --help";
        if (parsed.UnmatchedTokens is not [var unknown, ..])
        {
            return new WrongCommandLineException(Said(first), $"see {page}");
        }

        var known = command.Options
            .Concat(command is RootCommand ? [] : parsed.RootCommandResult.Command.Options)
            .Select(option => option.Name)
            .Concat(command.Subcommands.Select(sub => sub.Name));
        var isFolder = command.Options.Contains(ArchiveOptions.Content) && Directory.Exists(unknown);
        var help = isFolder ? $"the archive's folder is given as --content {unknown}"
            : NearestName.Find(unknown, known) is { } near ? $"did you mean {near}"
            : $"see {page}";
        var kind = unknown.StartsWith('-') ? "option" : command is RootCommand ? "command" : "argument";
        return new WrongCommandLineException($"unknown {kind}: {unknown}", help);
    }

    // The library sets what may be written on lines of their own.
    private static string Said(ParseError error)
    {
        if (error.SymbolResult is OptionResult { Option.Name: var name, Tokens: [] }
            && !error.Message.Contains('\n', StringComparison.Ordinal)) return $"{name} needs a value";
        if (error.SymbolResult is OptionResult { Option: { ValueType: var type } option, Tokens: [{ Value: var typed }, ..] }
            && (Nullable.GetUnderlyingType(type) ?? type) is var number && (number == typeof(int) || number == typeof(double))
            && error.Message.Contains(type.Name, StringComparison.Ordinal))
            return $"{option.Name} needs a {(number == typeof(int) ? "whole number" : "number")}, not {typed}";
        var words = string.Join(' ', error.Message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).TrimEnd('.');
        return char.ToLowerInvariant(words[0]) + words[1..].Replace("' '", "', '", StringComparison.Ordinal);
    }

    private sealed class ShowHelp(Terminal terminal) : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult) => HelpPage.Write(terminal, parseResult);
    }

    private sealed class ShowVersion(Terminal terminal) : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult)
        {
            terminal.Out.Write($"asfound {HelpPage.Version}\n");
            return (int)ExitCode.Success;
        }
    }
}
