using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Preservation.Sealing;

namespace Archive.Cli.Commands;

/// <summary><c>asfound seal</c>: puts record, originals and site into a bag.</summary>
internal static class SealCommand
{
    /// <summary>The names of <see cref="Withholding"/>, in its order.</summary>
    internal static readonly string[] Withholdings = ["include", "leave-out", "apart"];

    private static readonly Option<string> ToOption =
        new("--to") { HelpName = "DIR", Description = "the bag's folder; it must not exist yet" };

    private static readonly Option<bool> ZipOption = new("--zip") { Description = "pack the bag into one uncompressed file, DIR.zip" };

    private static readonly Option<string> WithheldOption = new Option<string>("--withheld")
    {
        HelpName = "HOW",
        Description = """
            what happens to originals that show what `redact` hides:
              leave-out  they are not in the bag, and the bag says so
              apart      they go into a second bag, DIR-withheld
              include    they are in the bag like everything else
            """,
    }.AcceptOnlyFromAmong(Withholdings);

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "seal",
        "put the record into a bag that can be verified in thirty years",
        Run,
        terminal,
        ArchiveOptions.Content,
        ToOption,
        ZipOption,
        WithheldOption,
        ArchiveOptions.Format,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Get(ToOption) is not { Length: > 0 } to) throw new WrongCommandLineException(
            arguments.Get(ToOption) is null ? "--to is missing: where should the bag go?" : "--to is empty",
            "name a folder that does not exist yet with --to");
        var options = CommandOptions.From(arguments);
        var order = Order(arguments, options, to);
        var watch = Stopwatch.StartNew();
        SealResult outcome;
        try
        {
            outcome = ProgressDisplay.Over(terminal, progress => Sealer.Run(order, progress, cancellation));
        }
        catch (Exception given) when (Interruption.IsBehind(given))
        {
            return terminal.Complain(
                ExitCode.Interrupted, "interrupted; there is no bag yet", "run the same command again: it resumes from here");
        }

        ResultWriter.WriteDiagnostics(terminal, options.Format, outcome.Faults);
        switch (outcome)
        {
            case SealResult.Refused refused:
                TextReport.Write(terminal.Error, [RenderedDiagnostic.From(refused.Why, "")], terminal.ErrorStyle);
                return ExitCode.OutsideFailed;
            case SealResult.Done done:
                terminal.Error.Write(
                    $"Sealed in {string.Join(" and ", done.Targets.Select(target => VisibleText.From(Shown(target))))}: {ResultWriter.Number(done.Files, "file")}, {ResultWriter.Size(done.Bytes)}"
                    + $"{(done.Kept > 0 ? $", {ResultWriter.Number(done.Kept, "file")} of them already done by the previous run" : "")}. ({watch.Elapsed.TotalSeconds:0.0} s)\n"
                    + (arguments.Get(ZipOption) ? "" : $"asfound audit {Shown(done.Targets[0])} verifies every byte of it.\n"));
                return ExitCode.Success;
            default:
                terminal.Error.Write("Nothing was sealed.\n");
                return ExitCode.RecordHasErrors;
        }
    }

    private static SealOptions Order(Arguments arguments, CommandOptions options, string to)
    {
        var full = Path.TrimEndingDirectorySeparator(
            Path.GetFullPath(to.EndsWith(".zip", StringComparison.OrdinalIgnoreCase) && arguments.Get(ZipOption) ? to[..^4] : to));
        if ((full + Path.DirectorySeparatorChar).StartsWith(options.Order.Content + Path.DirectorySeparatorChar, StringComparison.Ordinal))
        {
            throw new WrongCommandLineException(
                $"the bag {to} would be inside the archive", "name a place outside the archive's folder with --to");
        }

        CommandOptions.RequireNoForeignLink("--to", full, options.Order.Content);
        return new SealOptions(options.Order, full, $"asfound {HelpPage.Version}")
        {
            Zip = arguments.Get(ZipOption),
            Withheld = arguments.Get(WithheldOption) is { } how ? (Withholding)Array.IndexOf(Withholdings, how) : null,
            Now = Epoch() ?? TimeProvider.System.GetUtcNow(),
        };
    }

    // https://reproducible-builds.org/specs/source-date-epoch/: whole seconds since 1970, for anyone who needs the same bytes twice.
    private static DateTimeOffset? Epoch() => long.TryParse(
        Environment.GetEnvironmentVariable("SOURCE_DATE_EPOCH"), NumberStyles.None, CultureInfo.InvariantCulture, out var seconds)
        && seconds <= 253402300799 ? DateTimeOffset.FromUnixTimeSeconds(seconds) : null;

    private static string Shown(string target)
    {
        var relative = Path.GetRelativePath(Environment.CurrentDirectory, target);
        return relative.StartsWith("..", StringComparison.Ordinal) ? target : relative;
    }
}
