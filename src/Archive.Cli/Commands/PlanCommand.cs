using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics;
using Archive.Plans;
using Archive.Plans.Catalog;
using Archive.Publishing.Building;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Cli.Commands;

/// <summary><c>asfound plan</c>: calculates a plan and writes it to standard output; without a name it lists the plans.</summary>
internal static class PlanCommand
{
    private const int MostNamed = 12;

    /// <summary>How a plan can be written.</summary>
    internal static readonly string[] Formats = ["text", "json", "csv"];

    private static readonly Option<string> HallOption =
        new("--hall") { HelpName = "ID", Description = "for plans of a hall: only this one (all of them)" };

    private static readonly Option<string> DisplayOption =
        new("--display") { HelpName = "ID", Description = "for plans of a display: only this one (all of them)" };

    private static readonly Option<string> FrameOption =
        new("--frame") { HelpName = "ID", Description = "for lists of steps: only what this frame needs (all frames)" };

    private static readonly Option<bool> WithErrorsOption =
        new("--with-errors") { Description = "calculate the plan although the record has errors" };

    private static readonly Option<string> FormatOption = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how the plan is written (text):
              text  for people: a summary, then a table
              json  for programs; the fields are stable
              csv   for spreadsheets
            """,
    }.AcceptOnlyFromAmong(Formats);

    private static readonly Argument<string> NameArgument =
        new("NAME") { Arity = ArgumentArity.ZeroOrOne, Description = "which plan; without it, the plans are listed" };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "plan",
        "calculate what the crew needs",
        Run,
        terminal,
        NameArgument,
        ArchiveOptions.Content,
        HallOption,
        DisplayOption,
        FrameOption,
        WithErrorsOption,
        FormatOption,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Get(NameArgument) is not { } name) return List(terminal);
        var kind = PlanCatalog.Find(name) ?? throw Unknown(name);
        RefuseUnheeded(kind, "hall", arguments.Get(HallOption));
        RefuseUnheeded(kind, "display", arguments.Get(DisplayOption));
        RefuseUnheeded(kind, "frame", arguments.Get(FrameOption));
        if ((arguments.Get(DisplayOption), arguments.Get(FrameOption)) is (not null, not null))
            throw new WrongCommandLineException("a plan is of one display or of one frame, not of both", "leave --display or --frame out");
        var options = CommandOptions.From(arguments, arguments.Get(WithErrorsOption));
        var units = default(UnitFormatter);
        var (outcome, plan) = ProgressDisplay.Over(terminal, progress => SiteBuild.Compute(
            options.Order,
            context =>
            {
                units = new UnitFormatter(context.Record.Statement.Units?.Value ?? default);
                return kind.Compute(context, Ask(arguments, context.Record));
            },
            progress,
            cancellation));
        if (plan is null)
            return ResultWriter.Refuse(
                terminal, outcome, "No plan is calculated while the record has errors; --with-errors calculates it anyway.");

        Write(terminal, arguments.Get(FormatOption) ?? "text", plan, units);
        return outcome.Counts.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Success;
    }

    private static ExitCode List(Terminal terminal)
    {
        var width = PlanCatalog.All.Max(kind => kind.Name.Length);
        foreach (var kind in PlanCatalog.All) terminal.Out.Write($"{kind.Name.PadRight(width)}  {kind.Means}\n");
        return ExitCode.Success;
    }

    private static void Write(Terminal terminal, string format, Plan plan, UnitFormatter units)
    {
        if (format == "text")
        {
            plan.WriteText(terminal.Out, units);
            return;
        }

        using var bytes = new MemoryStream();
        if (format == "csv") PlanText.WriteCsv(bytes, plan);
        else PlanText.WriteJson(bytes, plan);
        bytes.Position = 0;
        using var reader = new StreamReader(bytes);
        var buffer = new char[1 << 14];
        while (reader.Read(buffer) is > 0 and var read) terminal.Out.Write(buffer, 0, read);
    }

    private static PlanRequest Ask(Arguments arguments, ArchiveModel record) => new(
        Known(arguments.Get(HallOption), "hall", record.Halls.Where(hall => !hall.IsWithdrawn)),
        Known(arguments.Get(DisplayOption), "display", record.Displays.Where(display => !display.IsWithdrawn)),
        Known(arguments.Get(FrameOption), "frame", record.Frames.Where(frame => !frame.IsWithdrawn)));

    private static string? Known(string? id, string noun, IEnumerable<ArchiveRecord> records)
    {
        if (id is null) return null;
        var ids = records.Select(record => record.Id).ToList();
        if (ids.Contains(id, StringComparer.Ordinal)) return id;
        var near = NearestName.Find(id, ids);
        throw new WrongCommandLineException(
            $"the record has no {noun} {id}",
            near is not null
                ? $"did you mean {near}"
                : ids.Count == 0
                ? $"it has no {noun}s"
                : $"it has {string.Join(", ", ids.Take(MostNamed))}{(ids.Count > MostNamed ? " and others" : "")}");
    }

    private static void RefuseUnheeded(PlanKind kind, string option, string? typed)
    {
        if (typed is null || kind.Options.Contains(option)) return;
        throw new WrongCommandLineException($"the plan {kind.Name} has no option --{option}", $"leave --{option} out");
    }

    private static WrongCommandLineException Unknown(string name)
    {
        var near = NearestName.Find(name, PlanCatalog.All.Select(kind => kind.Name));
        return new WrongCommandLineException(
            $"there is no plan {name}",
            near is null ? "asfound plan lists all of them" : $"did you mean {near}; asfound plan lists all of them");
    }
}
