using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Cli.Reviewing;
using Archive.Diagnostics.Rendering;
using Archive.Intake.Labels;
using Archive.Publishing.Building;
using Archive.Records.Terms;
using Archive.SchemeSearch.Proposals;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary><c>asfound scheme</c>: proposes how the labels of a machine are to be read.</summary>
internal static class SchemeCommand
{
    private const long Largest = 4 << 20; // bytes: far above 2,000 labels
    private const string UsualId = "typed-labels";

    private static readonly JsonSerializerOptions Json = new() { WriteIndented = true, NewLine = "\n", Encoder = JsonText.Alone };

    private static readonly Option<int?> TakeOption =
        new("--take") { HelpName = "NUMBER", Description = "write this proposal as the record of a scheme, in YAML, and nothing else" };

    private static readonly Option<string> SaveOption = new("--save")
    {
        HelpName = "FILE",
        Description = "write it to this new file, whose name becomes the id of the scheme",
    };

    private static readonly Option<int?> EndsOption =
        new("--ends") { HelpName = "NUMBER", Description = "how many ends would be tagged by hand (those of the hand-tag list)" };

    private static readonly Option<bool> WithErrorsOption =
        new("--with-errors") { Description = "propose schemes although the record has errors" };

    private static readonly Argument<string> FileArgument = new("FILE")
    {
        Arity = ArgumentArity.ExactlyOne,
        Description = "the labels that were typed: a text file, or a table (.csv, .tsv)",
    };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "scheme",
        "propose how labels are read, from fifty that you type",
        Run,
        terminal,
        FileArgument,
        ArchiveOptions.Content,
        TakeOption,
        SaveOption,
        EndsOption,
        WithErrorsOption,
        ReviewOptions.Format,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var take = arguments.Get(TakeOption);
        if (take is < 1) throw new WrongCommandLineException($"there is no proposal {take}", "use --take with a number from 1");
        if (arguments.Get(EndsOption) is < 0)
            throw new WrongCommandLineException($"there are no {arguments.Get(EndsOption)} ends", "use --ends with a number from 0");
        if (take is null && arguments.Get(SaveOption) is not null)
            throw new WrongCommandLineException("--save needs --take", "say which proposal is saved, such as --take 1");
        if (take is not null && arguments.Get(ReviewOptions.Format) == "json")
            throw new WrongCommandLineException("--take writes YAML", "leave --format out");
        var file = InputFile.Require(arguments.Get(FileArgument)!, Largest, "name a text file with a label on each line, or a CSV table");
        var options = CommandOptions.From(arguments, arguments.Get(WithErrorsOption));
        var bytes = File.ReadAllBytes(file);
        var ids = ImmutableHashSet<string>.Empty;
        var (outcome, found) = ProgressDisplay.Over(terminal, progress => SiteBuild.Compute(
            options.Order,
            context =>
            {
                ids = [.. context.Record.Schemes.Select(scheme => scheme.Id)];
                return SchemeProposals.Find(context, arguments.Get(FileArgument)!.Replace('\\', '/'), bytes, arguments.Get(EndsOption));
            },
            progress,
            cancellation));
        if (found is null)
            return ResultWriter.Refuse(
                terminal, outcome, "No scheme is proposed while the record has errors; --with-errors does it anyway.");

        var diagnostics = RenderedDiagnostic.FromAll(found.File.Diagnostics, "");
        if (found.Answer is not { } answer)
        {
            TextReport.Write(terminal.Out, diagnostics, terminal.Style);
            terminal.Error.Write("No scheme is proposed while labels cannot be read.\n");
            return ExitCode.RecordHasErrors;
        }

        TextReport.Write(terminal.Error, diagnostics, terminal.ErrorStyle);
        if (arguments.Get(TakeOption) is { } number) return Take(number, answer, arguments, ids, terminal);
        if (arguments.Get(ReviewOptions.Format) == "json") terminal.Out.Write(JsonSerializer.Serialize(Shape(found, answer), Json) + "\n");
        else WriteText(terminal.Out, found, answer);
        if (!answer.Proposals.IsEmpty)
            terminal.Error.Write("Nothing was written. --take 1 --save content/schemes/NAME.yaml writes the first proposal as a scheme.\n");
        return ExitCode.Success;
    }

    private static ExitCode Take(
        int number, SchemeAnswer answer, Arguments arguments, ImmutableHashSet<string> ids, Terminal terminal)
    {
        if (number > answer.Proposals.Length)
        {
            throw new WrongCommandLineException(
                $"there is no proposal {number}",
                answer.Proposals.IsEmpty
                    ? answer.Summary
                    : $"{ResultWriter.Number(answer.Proposals.Length, "proposal")} found: see them without --take");
        }

        var proposal = answer.Proposals[number - 1];
        if (arguments.Get(SaveOption) is not { } save)
        {
            terminal.Out.Write(Yaml(UsualId, proposal));
            return ExitCode.Success;
        }

        var path = Path.GetFullPath(save);
        var id = Path.GetFileNameWithoutExtension(save);
        const string Help = "name a new file such as content/schemes/sleeves.yaml; its name becomes the id of the scheme";
        if (!path.EndsWith(".yaml", StringComparison.Ordinal)) throw new WrongCommandLineException($"{save} does not end in .yaml", Help);
        if (Path.Exists(path) || new FileInfo(path).LinkTarget is not null) throw new WrongCommandLineException($"{save} exists", Help);
        if (!RecordId.IsValid(id)) throw new WrongCommandLineException($"{id} cannot be the id of a scheme", Help);
        if (ids.Contains(id)) throw new WrongCommandLineException($"the record has a scheme {id} already", Help);
        if (ArchiveLocation.Around(path) is { } archive
            && !Path.GetRelativePath(archive, path).Replace('\\', '/').StartsWith("schemes/", StringComparison.Ordinal))
            throw new WrongCommandLineException($"{save} is not in the folder schemes of the archive", Help);
        WholeFile.Replace(path, stream => stream.Write(Encoding.UTF8.GetBytes(Yaml(id, proposal))));
        terminal.Error.Write($"{VisibleText.From(save)} was written. Run asfound check, and add examples that you have looked at.\n");
        return ExitCode.Success;
    }

    private static string Yaml(string id, SchemeProposal proposal) =>
        $"# Proposed by asfound scheme from {Explained(proposal)}. Look at a few cables before you trust it.\n{proposal.ToYaml(id)}";

    private static string Explained(SchemeProposal proposal) =>
        $"{proposal.Labels.Count(label => !label.Means.IsEmpty)} of {ResultWriter.Number(proposal.Labels.Length, "label")}";

    private static void WriteText(TextWriter to, SchemeProposals found, SchemeAnswer answer)
    {
        var seen = found.File.Labels.Count(label => !label.SeenEnds.IsEmpty);
        to.Write($"{ResultWriter.Number(found.File.Labels.Length, "label")}, {seen} with ends that were seen; ");
        to.Write($"{ResultWriter.Number(found.Ports, "port")} in the record.\n");
        to.Write($"{char.ToUpperInvariant(answer.Summary[0])}{OneLine(answer.Summary[1..])}.\n");
        if (!answer.IsWhole) to.Write("There are more schemes than are tried. Give labels of one sort at a time, and all are.\n");
        for (var at = 0; at < answer.Proposals.Length; at++) Write(to, at + 1, answer.Proposals[at], found.PerEnd);
        if (answer.LookAt.IsEmpty) return;
        to.Write("\nCables to look at, and what each proposal expects there\n");
        foreach (var cable in answer.LookAt)
        {
            to.Write($"  {OneLine(cable.Label)}\n");
            foreach (var same in cable.Predictions.Select((means, at) => (Means: Ends(means), Number: at + 1)).GroupBy(one => one.Means))
                to.Write($"    {string.Join(", ", same.Select(one => one.Number))}: {same.Key}\n");
        }
    }

    private static void Write(TextWriter to, int number, SchemeProposal proposal, TimeSpan perEnd)
    {
        to.Write($"\nProposal {number}: {proposal.Layout}\n");
        Line("reads", proposal.Reads);
        Line("means", string.Join(", ", proposal.Means));
        foreach (var (name, lines) in proposal.Tables)
            Line($"table {name}", string.Join(", ", lines.Select(line => $"{line.Key} is {line.Value}")));
        if (!proposal.Confusions.IsEmpty) Line("confusions", string.Join(", ", proposal.Confusions));
        Line("explains", string.Create(
            CultureInfo.InvariantCulture,
            $"{Explained(proposal)} ({proposal.Share:P0}); {proposal.SavedBits:0} bits shorter than the labels letter by letter"));
        if (proposal.Order is var (first, second) && first + second > 0)
        {
            Line(
                "first end",
                $"the place named first is the end recorded first on {first} of {first + second} labels with ends that were seen");
        }


        if (proposal.EndsSaved > 0)
        {
            Line("saves", string.Create(
                CultureInfo.InvariantCulture,
                $"{ResultWriter.Number(proposal.EndsSaved, "end")} to tag by hand: {proposal.TimeSaved.TotalHours:0.#} hours, "
                    + $"at {perEnd.TotalMinutes:0.##} minutes an end (half of what the archive takes to disconnect a cable)"));
        }

        if (proposal.CounterExamples.IsEmpty) return;
        to.Write("  not explained\n");
        foreach (var counter in proposal.CounterExamples) to.Write($"    {OneLine(counter.Label)}: {counter.Why}\n");

        void Line(string name, string text) => to.Write($"  {name,-10}  {OneLine(text)}\n");
    }

    private static string Ends(ImmutableArray<string> means) => means.IsEmpty ? "not this cable" : string.Join(" and ", means);

    private static string OneLine(string text) => VisibleText.From(text.Replace("\n", " | ", StringComparison.Ordinal));

    private static object Shape(SchemeProposals found, SchemeAnswer answer) => new
    {
        labels = found.File.Labels.Length,
        ports = found.Ports,
        summary = answer.Summary,
        undecided = answer.Undecided,
        whole = answer.IsWhole,
        schemes = answer.Schemes,
        minutes_per_end = found.PerEnd.TotalMinutes,
        proposals = answer.Proposals.Select(proposal => new
        {
            layout = proposal.Layout,
            reads = proposal.Reads,
            means = proposal.Means,
            tables = proposal.Tables,
            confusions = proposal.Confusions,
            share = proposal.Share,
            saved_bits = Math.Round(proposal.SavedBits, 3),
            first_end_first = proposal.Order.First,
            first_end_second = proposal.Order.Second,
            ends_saved = proposal.EndsSaved,
            hours_saved = Math.Round(proposal.TimeSaved.TotalHours, 3),
            not_explained = proposal.CounterExamples.Select(counter => new { label = counter.Label, why = counter.Why }),
            labels = proposal.Labels.Select(label => new { label = label.Label, means = label.Means }),
        }),
        look_at = answer.LookAt.Select(cable => new
        {
            label = cable.Label,
            bits = Math.Round(cable.Bits, 3),
            expected = cable.Predictions,
        }),
    };
}
