using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Building;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary><c>asfound export</c>: the record and its plans as a spreadsheet.</summary>
internal static class ExportCommand
{
    private static readonly Option<bool> ReplaceOption = new("--replace") { Description = "replace a file of that name" };

    private static readonly Option<bool> WithErrorsOption = new("--with-errors") { Description = "export although the record has errors" };

    private static readonly Argument<string> FileArgument = new("FILE")
    {
        Arity = ArgumentArity.ExactlyOne,
        Description = "the new spreadsheet, whose name ends in .xlsx",
    };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "export",
        "the record and its plans as a spreadsheet",
        Run,
        terminal,
        FileArgument,
        ArchiveOptions.Content,
        ReplaceOption,
        WithErrorsOption,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        const string Help = "name a file that ends in .xlsx, such as station.xlsx";
        var typed = arguments.Get(FileArgument)!;
        var path = Path.GetFullPath(typed.Length > 0 ? typed : "x");
        if (!path.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase))
            throw new WrongCommandLineException($"{(typed.Length > 0 ? typed : "FILE")} does not end in .xlsx", Help);
        if (Directory.Exists(path)) throw new WrongCommandLineException($"{typed} is a folder", Help);
        var options = CommandOptions.From(arguments, arguments.Get(WithErrorsOption));
        CommandOptions.RequireNoForeignLink("FILE", typed, options.Order.Content);
        if (ArchiveLocation.Around(path) is { } archive)
        {
            throw new WrongCommandLineException(
                $"{typed} would be in the archive {archive}, where it is no part of the record",
                "name a file outside the archive's folder");
        }

        if (Path.Exists(path) && !arguments.Get(ReplaceOption))
            throw new WrongCommandLineException($"{typed} exists", "name another file, or replace it with --replace");
        using var bytes = new MemoryStream();
        var (outcome, sheets) = ProgressDisplay.Over(terminal, progress =>
            SiteBuild.Export(options.Order, bytes, progress, cancellation));
        if (sheets is not { } count)
            return ResultWriter.Refuse(
                terminal, outcome, "Nothing is exported while the record has errors; --with-errors does it anyway.");

        WholeFile.Replace(path, bytes.WriteTo);
        terminal.Error.Write(
            $"{VisibleText.From(typed)}: {ResultWriter.Number(count, "sheet")}, {ResultWriter.Size(bytes.Length)}. It is a copy: edits in it do not change the record.\n");
        return outcome.Counts.Errors > 0 ? ExitCode.RecordHasErrors : ExitCode.Success;
    }
}
