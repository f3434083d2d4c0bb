using Archive.Diagnostics;
using Archive.Records;
using Archive.Site;

namespace Archive.Cli;

/// <summary><c>asfound plan</c>: works a plan out and writes it to standard output; without a name it lists the plans.</summary>
internal static class PlanCommand
{
    /// <summary>How a plan can be written.</summary>
    internal static readonly string[] Formats = ["text", "json", "csv"];

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Plan is not { } name) return List(terminal);
        var kind = PlanKinds.Of(name) ?? throw Unknown(name);
        RefuseUnheeded(kind, "hall", arguments.Hall);
        RefuseUnheeded(kind, "display", arguments.Display);
        var options = Options.From(arguments);
        var (outcome, plan) = Watch.Over(terminal, progress => SiteBuild.Plan(options.Order, basis => kind.Work(basis, Ask(arguments, basis.Record)), progress, cancellation));
        if (plan is null)
        {
            TextReport.Write(terminal.Error, outcome.Faults, terminal.ErrorStyle);
            terminal.Error.Write($"{Report.Closing(outcome)}\nNo plan is calculated while the record has errors; --with-errors calculates it anyway.\n");
            return ExitCode.RecordHasErrors;
        }

        Write(terminal, arguments.PlanFormat ?? "text", plan);
        return outcome.Tally.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Well;
    }

    private static ExitCode List(Terminal terminal)
    {
        var width = PlanKinds.All.Max(kind => kind.Name.Length);
        foreach (var kind in PlanKinds.All) terminal.Out.Write($"{kind.Name.PadRight(width)}  {kind.Means}\n");
        return ExitCode.Well;
    }

    private static void Write(Terminal terminal, string format, Plan plan)
    {
        if (format == "text")
        {
            plan.WriteText(terminal.Out);
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

    private static PlanQuestion Ask(Arguments arguments, AsFound record) => new(
        Known(arguments.Hall, "hall", record.Halls.Where(hall => !hall.IsWithdrawn)),
        Known(arguments.Display, "display", record.Displays.Where(display => !display.IsWithdrawn)));

    private static string? Known(string? id, string noun, IEnumerable<ArchiveRecord> records)
    {
        if (id is null) return null;
        var ids = records.Select(record => record.Id).ToList();
        if (ids.Contains(id, StringComparer.Ordinal)) return id;
        var near = NearestName.Of(id, ids);
        throw new WrongCommandLineException($"the record has no {noun} {id}", near is not null ? $"did you mean {near}" : ids.Count == 0 ? $"it has no {noun}s" : $"it has {string.Join(", ", ids)}");
    }

    private static void RefuseUnheeded(PlanKind kind, string option, string? typed)
    {
        if (typed is null || kind.Heeds.Contains(option)) return;
        throw new WrongCommandLineException($"the plan {kind.Name} has no option --{option}", $"leave --{option} out");
    }

    private static WrongCommandLineException Unknown(string name)
    {
        var near = NearestName.Of(name, PlanKinds.All.Select(kind => kind.Name));
        return new WrongCommandLineException($"there is no plan {name}", near is null ? "asfound plan lists all of them" : $"did you mean {near}; asfound plan lists all of them");
    }
}
