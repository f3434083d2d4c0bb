using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
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

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Plan is not { } name) return List(terminal);
        var kind = PlanCatalog.Find(name) ?? throw Unknown(name);
        RefuseUnheeded(kind, "hall", arguments.Hall);
        RefuseUnheeded(kind, "display", arguments.Display);
        RefuseUnheeded(kind, "frame", arguments.Frame);
        if (arguments is { Display: not null, Frame: not null })
            throw new WrongCommandLineException("a plan is of one display or of one frame, not of both", "leave --display or --frame out");
        var options = CommandOptions.From(arguments);
        var units = default(UnitFormatter);
        var (outcome, plan) = ProgressDisplay.Over(terminal, progress => SiteBuild.Plan(
            options.Order,
            context =>
            {
                units = new UnitFormatter(context.Record.Statement.Units?.Value ?? default);
                return kind.Compute(context, Ask(arguments, context.Record));
            },
            progress,
            cancellation));
        if (plan is null)
        {
            TextReport.Write(terminal.Error, outcome.Diagnostics, terminal.ErrorStyle);
            terminal.Error.Write(
                $"{ResultWriter.Closing(outcome)}\nNo plan is calculated while the record has errors; --with-errors calculates it anyway.\n");
            return ExitCode.RecordHasErrors;
        }

        Write(terminal, arguments.PlanFormat ?? "text", plan, units);
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
        Known(arguments.Hall, "hall", record.Halls.Where(hall => !hall.IsWithdrawn)),
        Known(arguments.Display, "display", record.Displays.Where(display => !display.IsWithdrawn)),
        Known(arguments.Frame, "frame", record.Frames.Where(frame => !frame.IsWithdrawn)));

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
