using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using Archive.Cli.Commands;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics;

namespace Archive.Cli;

/// <summary>The commands and what each takes. Help shows these descriptions between the words of <c>Help/</c>.</summary>
internal static class CommandLine
{
    private static readonly Option<string> Content = new("--content")
    {
        HelpName = "DIR",
        Description = "the archive's folder, which holds archive.yaml (content, or the archive that you are in)",
    };
    private static readonly Option<string> Site = new("--site")
    {
        HelpName = "DIR",
        Description =
            "the folder that the site replaces (site-output beside the archive): new, empty, or a site published before whose files still match its checksums. Any other is refused; names in it that begin with a dot are kept",
    };

    private static readonly Option<string> Cache = new("--cache")
    {
        HelpName = "DIR",
        Description = "where work is kept between runs (.asfound beside the archive, or your own cache folder if that cannot be written)",
    };

    private static readonly Option<string> Themes = new("--themes")
    {
        HelpName = "DIR",
        Description = "where themes are (themes beside the archive, then those that come with asfound)",
    };

    private static readonly Option<string> Format = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how errors and warnings are written to standard output (text):
              text    for people; in colour on a terminal, unless NO_COLOR is set
              json    for programs; the fields are stable
              sarif   SARIF 2.1.0
              github  annotations on a GitHub build
            """,
    }.AcceptOnlyFromAmong(CommandOptions.Formats);

    private static readonly Option<bool> Survey = new("--survey")
    {
        Description =
            "also list what is still to be recorded, frame by frame in walking order, while the machine is still there: missing views, photos to take again "
                + "(too dark, burnt out, or less than a quarter as sharp as half of that camera's photos), photos that look the same, missing ends, lengths and weights. Decodes each photo once",
    };

    private static readonly Option<string> Against = new("--against")
    {
        HelpName = "REVISION",
        Description =
            "also compare with an earlier git revision, a bag or a folder: changing or removing a fact of the as-found state without a note is an error "
                + "(see asfound explain AF1401; guarded.txt lists such facts)",
    };

    private static readonly Option<bool> Replace =
        new("--replace") { Description = "replace the site although its files were changed by hand" };
    private static readonly Option<bool> PublishWithErrors =
        new("--with-errors") { Description = "publish although the record has errors; every page says so" };
    private static readonly Option<bool> PlanWithErrors =
        new("--with-errors") { Description = "calculate the plan although the record has errors" };
    private static readonly Option<int?> Port =
        new("--port") { HelpName = "NUMBER", Description = "the port to serve on, or 0 for any free one (the first free one from 8400)" };
    private static readonly Option<string> PlanFormat = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how the plan is written (text):
              text  for people: a summary, then a table
              json  for programs; the fields are stable
              csv   for spreadsheets
            """,
    }.AcceptOnlyFromAmong(PlanCommand.Formats);

    private static readonly Option<string> Hall =
        new("--hall") { HelpName = "ID", Description = "for plans of a hall: only this one (all of them)" };
    private static readonly Option<string> Display =
        new("--display") { HelpName = "ID", Description = "for plans of a display: only this one (all of them)" };
    private static readonly Option<string> Frame =
        new("--frame") { HelpName = "ID", Description = "for lists of steps: only what this frame needs (all frames)" };
    private static readonly Argument<string> PlanName =
        new("NAME") { Arity = ArgumentArity.ZeroOrOne, Description = "which plan; without it, the plans are listed" };
    private static readonly Option<string> To = new("--to") { HelpName = "DIR", Description = "the bag's folder; it must not exist yet" };
    private static readonly Option<bool> WriteAddresses =
        new("--write") { Description = "add the new addresses to addresses.txt; no line is ever removed" };
    private static readonly Option<bool> WriteSidecars =
        new("--write") { Description = "write the records; without it, nothing is written" };
    private static readonly Option<bool> Zip = new("--zip") { Description = "pack the bag into one uncompressed file, DIR.zip" };
    private static readonly Option<string> Withheld = new Option<string>("--withheld")
    {
        HelpName = "HOW",
        Description = """
            what happens to originals that show what `redact` hides:
              leave-out  they are not in the bag, and the bag says so
              apart      they go into a second bag, DIR-withheld
              include    they are in the bag like everything else
            """,
    }.AcceptOnlyFromAmong(SealCommand.Withholdings);

    private static readonly Option<string> PaperName = new Option<string>("--paper")
    {
        HelpName = "PAPER",
        Description = "A4 or letter (A4)"
    }.AcceptOnlyFromAmong(LabelsCommand.Papers);
    private static readonly Option<string> Size = new("--size")
    {
        HelpName = "WxH",
        Description = "width and height of a label in millimetres (tag 63.5x38.1, flag 96x25, wrap 45x50)"
    };
    private static readonly Option<double?> Distance = new("--distance")
    {
        HelpName = "MM",
        Description = "how far away codes are read from, in millimetres (tag 250, flag and wrap 100)"
    };
    private static readonly Option<string> By = new Option<string>("--by")
    {
        HelpName = "HOW",
        Description = """
            each group starts on a new sheet (row):
              row      rows of the as-found hall
              module   functional groups
              display  working sets, with everything they may need
            """,
    }.AcceptOnlyFromAmong(LabelsCommand.Batches);

    private static readonly Option<string> Of = new("--of")
    {
        HelpName = "ID",
        Description = "only this row, module or display; of coils only this frame, of trays only this hall"
    };
    private static readonly Option<string> For = new Option<string>("--for")
    {
        HelpName = "WHAT",
        Description = """
            what the labels are for (frames):
              frames     frames, by row, module or display
              cables     both ends of every cable, in pairs, the hand-tag list first
              hand-tags  both ends of the cables on the hand-tag list, in its order
              coils      coiled cables, by the frame that they are lashed to
              trays      trays, by hall
              doors      doors and covers that come off, as many as are recorded
            """,
    }.AcceptOnlyFromAmong(LabelsCommand.Subjects);

    private static readonly Option<string> Ids =
        new("--ids") { HelpName = "ID,ID", Description = "only these records, in this order; of a cable both ends" };
    private static readonly Option<string> Form = new Option<string>("--form")
    {
        HelpName = "FORM",
        Description = """
            how a label is put on (flag for cables, else tag):
              tag   hung up or stuck on as it is
              flag  folded around a cable at its middle; both halves say the same
              wrap  wound around a cable, a clear or blank tail over what is printed
            """,
    }.AcceptOnlyFromAmong(LabelsCommand.Forms);

    private static readonly Option<double?> Around = new("--around")
    {
        HelpName = "MM",
        Description = "width left blank, in millimetres: the middle of a flag (12), the tail of a wrap (25)"
    };
    private static readonly Option<string> Svg =
        new("--svg") { HelpName = "DIR", Description = "write each label to a file of its own, DIR/ID.svg" };
    private static readonly Option<int?> Skip = new("--skip")
    {
        HelpName = "NUMBER",
        Description = "leave this many places free at the top of the first sheet, for a sheet that is partly used"
    };
    private static readonly Option<string> ChangeFormat = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how changes are written to standard output (text):
              text  for people
              json  for programs; the fields are stable
              page  "Changes to this record", one self-contained HTML page
            """,
    }.AcceptOnlyFromAmong(CompareCommand.Formats);

    private static readonly Argument<string> From =
        new("A") { Arity = ArgumentArity.ExactlyOne, Description = "the earlier state: a git revision, a bag, or an archive's folder" };
    private static readonly Argument<string> Until =
        new("B") { Arity = ArgumentArity.ZeroOrOne, Description = "the later state (the archive as it is now)" };
    private static readonly Argument<string> Path = new("PATH")
    {
        Arity = ArgumentArity.ExactlyOne,
        Description = "a bag's folder, a packed bag, a published site, or an archive's folder"
    };
    private static readonly Argument<string[]> Sought = new("WORDS")
    {
        Arity = ArgumentArity.OneOrMore,
        Description =
            "what to look for; \"in quotes\" for words that belong together, -word for words that must be absent (put it all in single quotes, or the shell removes them)",
    };

    private static readonly Option<string> Kind = new Option<string>("--kind")
    {
        HelpName = "NOUN",
        Description = "only this kind of record: frame, cable, \"cable kind\", tray, hall, scheme, display, photo, event or story",
    }.AcceptOnlyFromAmong(FindCommand.Kinds);

    private static readonly Option<string> Module =
        new("--module") { HelpName = "NAME", Description = "only frames of this module, and what ends at them or shows them" };
    private static readonly Option<string> Row =
        new("--row") { HelpName = "ID", Description = "only frames of this row, and what ends at them or shows them" };
    private static readonly Option<string> CableKind = new("--cable-kind") { HelpName = "NAME", Description = "only cables of this kind" };
    private static readonly Option<string> Date = new("--date") { HelpName = "MONTH", Description = "only this month, such as 2026-05" };
    private static readonly Option<string> Person =
        new("--person") { HelpName = "NAME", Description = "only what this person recorded, photographed or did" };
    private static readonly Option<int?> Most = new("--most") { HelpName = "NUMBER", Description = "how many to show (20)" };
    private static readonly Option<string> FindFormat = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how they are written (text):
              text  a line each: file:line: id, name, what it is
              json  for programs; the fields are stable
            """,
    }.AcceptOnlyFromAmong(FindCommand.Formats);

    private static readonly Option<int?> Gap =
        new("--gap") { HelpName = "MINUTES", Description = "a longer pause starts a new group (10)" };
    private static readonly Argument<string> What =
        new("photos") { Arity = ArgumentArity.ExactlyOne, Description = "the word photos: nothing else can be taken in yet" };
    private static readonly Argument<string> Folder = new("FOLDER")
    {
        Arity = ArgumentArity.ExactlyOne,
        Description =
            "in the archive's photos folder: records are written beside the pictures. Anywhere else, such as a camera's card: the pictures are first copied to a folder of that name in photos",
    };

    private static readonly Argument<string> Code =
        new("CODE") { Arity = ArgumentArity.ZeroOrOne, Description = "which code; without it, all codes are listed" };

    private static readonly Argument<string> Described = new("KIND[.KEY]")
    {
        Arity = ArgumentArity.ZeroOrOne,
        Description = "a folder or archive.yaml, or a key of it, such as cables.ends.at; without it, the kinds are listed",
    };

    private static readonly Option<string> Schema = new("--schema")
    {
        HelpName = "DIR",
        Description =
            "write a JSON Schema (2020-12) for each kind to this folder; by them editors complete keys and check values, but not ids of other records",
    };

    private static readonly Option<string> DescriptionFormat = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how the kind is described (text):
              text  for people, in Markdown
              json  its JSON Schema
            """,
    }.AcceptOnlyFromAmong(FormatCommand.Formats);

    /// <summary>All commands, speaking to a terminal.</summary>
    internal static RootCommand Make(Terminal terminal)
    {
        var root = new RootCommand("check, plan, publish and preserve the record of a machine");
        root.Add(Command("check", "report every error in the record", CheckCommand.Run, Content, Survey, Against, Format, Cache, Themes));
        root.Add(Command(
            "publish",
            "check the record and publish its site",
            PublishCommand.Run,
            Content,
            Site,
            Replace,
            PublishWithErrors,
            Format,
            Cache,
            Themes));
        root.Add(Command("preview", "see the site while you edit the record", PreviewCommand.Run, Content, Port, Cache, Themes));
        var plan = Command(
            "plan",
            "calculate what the crew needs",
            PlanCommand.Run,
            Content,
            Hall,
            Display,
            Frame,
            PlanWithErrors,
            PlanFormat,
            Cache,
            Themes);
        plan.Add(PlanName);
        root.Add(plan);
        var find = Command(
            "find",
            "find records by words or codes, with file and line",
            FindCommand.Run,
            Content,
            Kind,
            Module,
            Row,
            CableKind,
            Date,
            Person,
            Most,
            FindFormat,
            Cache,
            Themes);
        find.Add(Sought);
        root.Add(find);
        root.Add(Command(
            "addresses", "keep the list of addresses that must always work", AddressesCommand.Run, Content, WriteAddresses, Format));
        var intake = Command("intake", "take new photos into the record", IntakeCommand.Run, Content, WriteSidecars, Gap, Cache);
        intake.Add(What);
        intake.Add(Folder);
        root.Add(intake);
        root.Add(Command(
            "seal",
            "put the record into a bag that can be verified in thirty years",
            SealCommand.Run,
            Content,
            To,
            Zip,
            Withheld,
            Format,
            Cache,
            Themes));
        root.Add(Command(
            "labels",
            "QR labels and cable flags, on sheets that print to size",
            LabelsCommand.Run,
            Content,
            For,
            Ids,
            By,
            Of,
            Form,
            Around,
            Size,
            PaperName,
            Distance,
            Skip,
            Svg));
        var compare = Command("compare", "what was added, changed and withdrawn, fact by fact", CompareCommand.Run, Content, ChangeFormat);
        compare.Add(From);
        compare.Add(Until);
        root.Add(compare);
        var audit = Command("audit", "verify files against their recorded checksums", AuditCommand.Run, Format);
        audit.Add(Path);
        root.Add(audit);
        var explain = Command("explain", "what a code means and how to fix it", ExplainCommand.Run);
        explain.Add(Code);
        root.Add(explain);
        var format = Command(
            "format", "how records are written: kinds, keys, schemas for editors", FormatCommand.Run, Schema, DescriptionFormat);
        format.Add(Described);
        root.Add(format);
        root.SetAction(parsed => HelpPage.Write(terminal, parsed));
        foreach (var help in root.Options.OfType<HelpOption>()) help.Action = new ShowHelp(terminal);
        foreach (var version in root.Options.OfType<VersionOption>()) version.Action = new ShowVersion(terminal);
        return root;

        Command Command(
            string name, string description, Func<Arguments, Terminal, CancellationToken, ExitCode> run, params Option[] options)
        {
            var command = new Command(name, description);
            foreach (var option in options) command.Add(option);
            command.SetAction((parsed, cancellation) =>
                Task.Run(() => (int)run(Typed(parsed), terminal, cancellation), CancellationToken.None));
            return command;
        }
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
        var help = command.Options.Contains(Content) && Directory.Exists(unknown) ? $"the archive's folder is given as --content {unknown}"
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
            Write = Value(WriteAddresses) || Value(WriteSidecars),
            Gap = Value(Gap),
            Replace = Value(Replace),
            WithErrors = Value(PublishWithErrors) || Value(PlanWithErrors),
            Port = Value(Port),
            Hall = Value(Hall),
            Display = Value(Display),
            Frame = Value(Frame),
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
            Described = Word(Described),
            DescriptionFormat = Value(DescriptionFormat),
            Schema = Value(Schema),
            Plan = Word(PlanName),
            Path = Word(Path),
            Paper = Value(PaperName),
            Size = Value(Size),
            Distance = Value(Distance),
            By = Value(By),
            For = Value(For),
            Ids = Value(Ids),
            Form = Value(Form),
            Around = Value(Around),
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

        string? Word(Argument<string> argument) =>
            parsed.CommandResult.Command.Arguments.Contains(argument) ? parsed.GetValue(argument) : null;

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
            return (int)ExitCode.Success;
        }
    }
}
