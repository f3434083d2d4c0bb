using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using Archive.Diagnostics;

namespace Archive.Cli;

/// <summary>The commands and what each takes. Their pages of help stand in <c>Help/</c>, written by hand; a test holds the two together.</summary>
internal static class CommandLine
{
    private static readonly Option<string> Content = new("--content") { HelpName = "DIR" };
    private static readonly Option<string> Site = new("--site") { HelpName = "DIR" };
    private static readonly Option<string> Cache = new("--cache") { HelpName = "DIR" };
    private static readonly Option<string> Themes = new("--themes") { HelpName = "DIR" };
    private static readonly Option<string> Format = new Option<string>("--format") { HelpName = "FORMAT" }.AcceptOnlyFromAmong(Options.Formats);
    private static readonly Option<bool> Survey = new("--survey");
    private static readonly Option<bool> WithErrors = new("--with-errors");
    private static readonly Option<bool> Replace = new("--replace");
    private static readonly Option<int?> Port = new("--port") { HelpName = "NUMBER" };
    private static readonly Option<string> PlanFormat = new Option<string>("--format") { HelpName = "FORMAT" }.AcceptOnlyFromAmong(PlanCommand.Formats);
    private static readonly Option<string> Hall = new("--hall") { HelpName = "ID" };
    private static readonly Option<string> Display = new("--display") { HelpName = "ID" };
    private static readonly Argument<string> PlanName = new("NAME") { Arity = ArgumentArity.ZeroOrOne };
    private static readonly Option<string> To = new("--to") { HelpName = "DIR" };
    private static readonly Option<bool> Write = new("--write");
    private static readonly Option<bool> Zip = new("--zip");
    private static readonly Option<string> Withheld = new Option<string>("--withheld") { HelpName = "HOW" }.AcceptOnlyFromAmong(SealCommand.Withholdings);
    private static readonly Option<string> PaperName = new Option<string>("--paper") { HelpName = "PAPER" }.AcceptOnlyFromAmong(LabelsCommand.Papers);
    private static readonly Option<string> Size = new("--size") { HelpName = "WxH" };
    private static readonly Option<double?> Distance = new("--distance") { HelpName = "MM" };
    private static readonly Option<string> By = new Option<string>("--by") { HelpName = "HOW" }.AcceptOnlyFromAmong(LabelsCommand.Batches);
    private static readonly Option<string> Of = new("--of") { HelpName = "ID" };
    private static readonly Option<string> Svg = new("--svg") { HelpName = "DIR" };
    private static readonly Option<int?> Skip = new("--skip") { HelpName = "NUMBER" };
    private static readonly Option<string> Against = new("--against") { HelpName = "REVISION" };
    private static readonly Option<string> ChangeFormat = new Option<string>("--format") { HelpName = "FORMAT" }.AcceptOnlyFromAmong(CompareCommand.Formats);
    private static readonly Argument<string> From = new("A") { Arity = ArgumentArity.ExactlyOne };
    private static readonly Argument<string> Until = new("B") { Arity = ArgumentArity.ZeroOrOne };
    private static readonly Argument<string> Path = new("PATH") { Arity = ArgumentArity.ExactlyOne };
    private static readonly Argument<string[]> Sought = new("WORDS") { Arity = ArgumentArity.OneOrMore };
    private static readonly Option<string> Kind = new Option<string>("--kind") { HelpName = "NOUN" }.AcceptOnlyFromAmong(FindCommand.Kinds);
    private static readonly Option<string> Module = new("--module") { HelpName = "NAME" };
    private static readonly Option<string> Row = new("--row") { HelpName = "ID" };
    private static readonly Option<string> CableKind = new("--cable-kind") { HelpName = "NAME" };
    private static readonly Option<string> Date = new("--date") { HelpName = "MONTH" };
    private static readonly Option<string> Person = new("--person") { HelpName = "NAME" };
    private static readonly Option<int?> Most = new("--most") { HelpName = "NUMBER" };
    private static readonly Option<string> FindFormat = new Option<string>("--format") { HelpName = "FORMAT" }.AcceptOnlyFromAmong(FindCommand.Formats);
    private static readonly Option<int?> Gap = new("--gap") { HelpName = "MINUTES" };
    private static readonly Argument<string> What = new("photos") { Arity = ArgumentArity.ExactlyOne };
    private static readonly Argument<string> Folder = new("FOLDER") { Arity = ArgumentArity.ExactlyOne };
    private static readonly Argument<string> Code = new("CODE") { Arity = ArgumentArity.ZeroOrOne };

    /// <summary>All commands, speaking to a terminal.</summary>
    /// <param name="terminal">The terminal.</param>
    internal static RootCommand Make(Terminal terminal)
    {
        var root = new RootCommand("asfound");
        root.Add(Command("check", CheckCommand.Run, Content, Survey, Against, Format, Cache, Themes));
        root.Add(Command("publish", PublishCommand.Run, Content, Site, Replace, WithErrors, Format, Cache, Themes));
        root.Add(Command("preview", PreviewCommand.Run, Content, Port, Cache, Themes));
        var plan = Command("plan", PlanCommand.Run, Content, Hall, Display, WithErrors, PlanFormat, Cache, Themes);
        plan.Add(PlanName);
        root.Add(plan);
        var find = Command("find", FindCommand.Run, Content, Kind, Module, Row, CableKind, Date, Person, Most, FindFormat, Cache, Themes);
        find.Add(Sought);
        root.Add(find);
        root.Add(Command("addresses", AddressesCommand.Run, Content, Write, Format));
        var intake = Command("intake", IntakeCommand.Run, Content, Write, Gap, Cache);
        intake.Add(What);
        intake.Add(Folder);
        root.Add(intake);
        root.Add(Command("seal", SealCommand.Run, Content, To, Zip, Withheld, Format, Cache, Themes));
        root.Add(Command("labels", LabelsCommand.Run, Content, By, Of, Size, PaperName, Distance, Skip, Svg));
        var compare = Command("compare", CompareCommand.Run, Content, ChangeFormat);
        compare.Add(From);
        compare.Add(Until);
        root.Add(compare);
        var audit = Command("audit", AuditCommand.Run, Format);
        audit.Add(Path);
        root.Add(audit);
        var explain = Command("explain", ExplainCommand.Run);
        explain.Add(Code);
        root.Add(explain);
        root.SetAction(parsed => HelpPage.Write(terminal, parsed));
        foreach (var help in root.Options.OfType<HelpOption>()) help.Action = new ShowHelp(terminal);
        foreach (var version in root.Options.OfType<VersionOption>()) version.Action = new ShowVersion(terminal);
        return root;

        Command Command(string name, Func<Arguments, Terminal, CancellationToken, ExitCode> run, params Option[] options)
        {
            var command = new Command(name);
            foreach (var option in options) command.Add(option);
            command.SetAction((parsed, cancellation) => Task.Run(() => (int)run(Typed(parsed), terminal, cancellation), CancellationToken.None));
            return command;
        }
    }

    /// <summary>How a command line is read: a word that begins with @ is a revision (<c>@{upstream}</c>), never a file of more words.</summary>
    internal static ParserConfiguration Reading { get; } = new() { ResponseFileTokenReplacer = null };

    /// <summary>How commands are run: errors come out as exceptions; signals are the business of <see cref="Interruption"/>.</summary>
    /// <param name="terminal">The terminal.</param>
    internal static InvocationConfiguration Manner(Terminal terminal) => new()
    {
        EnableDefaultExceptionHandler = false,
        Output = terminal.Out,
        Error = terminal.Error,
        ProcessTerminationTimeout = null,
    };

    /// <summary>What is wrong with a command line, if anything.</summary>
    /// <param name="parsed">The command line.</param>
    internal static WrongCommandLineException? Fault(ParseResult parsed)
    {
        if (parsed.Errors is not [var first, ..] || parsed.Action is ShowHelp or ShowVersion) return null;
        var command = parsed.CommandResult.Command;
        var page = command is RootCommand ? "asfound --help" : $"asfound {command.Name} --help";
        if (parsed.UnmatchedTokens is not [var unknown, ..])
        {
            return new WrongCommandLineException(Said(first), $"{page} says what it takes");
        }

        var known = command.Options.Concat(command is RootCommand ? [] : parsed.RootCommandResult.Command.Options).Select(option => option.Name)
            .Concat(command.Subcommands.Select(sub => sub.Name));
        var help = command.Options.Contains(Content) && Directory.Exists(unknown) ? $"the archive's folder is given as --content {unknown}"
            : NearestName.Of(unknown, known) is { } near ? $"did you mean {near}"
            : $"{page} says what it takes";
        return new WrongCommandLineException($"{(command is RootCommand ? "asfound" : $"asfound {command.Name}")} knows nothing of {unknown}", help);
    }

    // The library sets what may be written on lines of their own.
    private static string Said(ParseError error)
    {
        if (error.SymbolResult is OptionResult { Option.Name: var name, Tokens: [] } && !error.Message.Contains('\n', StringComparison.Ordinal)) return $"{name} wants a value behind it";
        var words = string.Join(' ', error.Message.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).TrimEnd('.');
        return char.ToLowerInvariant(words[0]) + words[1..].Replace("' '", "', '", StringComparison.Ordinal);
    }

    private static Arguments Typed(ParseResult parsed)
    {
        return new Arguments
        {
            Content = Value(Content),
            Site = Value(Site),
            Cache = Value(Cache),
            Themes = Value(Themes),
            Format = Value(Format),
            Survey = Value(Survey),
            What = Word(What),
            Folder = Word(Folder),
            Write = Value(Write),
            Gap = Value(Gap),
            WithErrors = Value(WithErrors),
            Replace = Value(Replace),
            Port = Value(Port),
            Hall = Value(Hall),
            Display = Value(Display),
            PlanFormat = Value(PlanFormat),
            Sought = parsed.CommandResult.Command.Arguments.Contains(Sought) ? parsed.GetValue(Sought) ?? [] : [],
            Kind = Value(Kind),
            Module = Value(Module),
            Row = Value(Row),
            CableKind = Value(CableKind),
            Date = Value(Date),
            Person = Value(Person),
            Most = Value(Most),
            FindFormat = Value(FindFormat),
            Code = Word(Code),
            Plan = Word(PlanName),
            Path = Word(Path),
            Paper = Value(PaperName),
            Size = Value(Size),
            Distance = Value(Distance),
            By = Value(By),
            Of = Value(Of),
            Skip = Value(Skip),
            Svg = Value(Svg),
            Against = Value(Against),
            From = Word(From),
            Until = Word(Until),
            ChangeFormat = Value(ChangeFormat),
            To = Value(To),
            Zip = Value(Zip),
            Withheld = Value(Withheld),
        };

        string? Word(Argument<string> argument) => parsed.CommandResult.Command.Arguments.Contains(argument) ? parsed.GetValue(argument) : null;

        // An option that the command does not take was not typed.
        T? Value<T>(Option<T> option) => parsed.GetResult(option) is null ? default : parsed.GetValue(option);
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
            return (int)ExitCode.Well;
        }
    }
}
