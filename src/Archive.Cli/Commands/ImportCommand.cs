using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Cli.Preview;
using Archive.Cli.Reviewing;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.Intake.Spreadsheets;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary><c>asfound import</c>: the rows of a spreadsheet become proposals.</summary>
internal static class ImportCommand
{
    private const long Largest = 64L << 20;
    private const int MostLeftOut = 20;

    private static readonly Option<string> MappingOption = new("--mapping")
    {
        HelpName = "FILE",
        Description = "which column says what, in YAML (proposed and shown)",
    };

    private static readonly Option<string> SaveMappingOption = new("--save-mapping")
    {
        HelpName = "FILE",
        Description = "write the proposed mapping to this new file, to edit and keep",
    };

    private static readonly Argument<string> FileArgument = new("FILE")
    {
        Arity = ArgumentArity.ExactlyOne,
        Description = "the spreadsheet: .xlsx, .ods or .csv",
    };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "import",
        "take spreadsheets of cables, photos or work into the record",
        Run,
        terminal,
        FileArgument,
        ArchiveOptions.Content,
        MappingOption,
        SaveMappingOption,
        FloorCommand.Floor,
        FloorCommand.Square,
        FloorCommand.Hall,
        FloorCommand.Faces,
        FloorCommand.Height,
        FloorCommand.Drawing,
        ReviewOptions.Accept,
        ReviewOptions.Reject,
        ReviewOptions.Review,
        ReviewOptions.Page,
        PreviewRun.Port,
        ReviewOptions.Format,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var typed = arguments.Get(FileArgument)!;
        var path = InputFile.Require(typed, Largest, "name a spreadsheet: .xlsx, .ods or .csv");
        if (arguments.Get(FloorCommand.Floor) is not null)
        {
            if ((arguments.Get(MappingOption) ?? arguments.Get(SaveMappingOption)) is not null)
            {
                throw new WrongCommandLineException(
                    "a floor has no columns, so it has no mapping", "leave out --mapping and --save-mapping");
            }

            return FloorCommand.Run(path, typed.Replace('\\', '/'), arguments, terminal, cancellation);
        }

        FloorCommand.RequireNone(arguments);
        var save = SaveTo(arguments);
        var options = CommandOptions.From(arguments);
        ImmutableArray<SheetMapping>? mapping = null;
        if (arguments.Get(MappingOption) is { } file)
        {
            var bytes = File.ReadAllBytes(InputFile.Require(file, SheetMappingFile.Largest, "name the mapping, a YAML file"));
            var (sheets, diagnostics) = SheetMappingFile.Read(file.Replace('\\', '/'), bytes);
            if (diagnostics.Any(IsError)) return Refuse(terminal, RenderedDiagnostic.FromAll(diagnostics, ""), "the mapping has errors");
            mapping = sheets;
        }

        var folder = new ArchiveFolder(options.Order.Content);
        var (records, rejections, stops) = ReadRecord(folder, cancellation);
        if (!stops.IsEmpty) return RefuseRecord(terminal, stops, options);
        var schemes = RecordReader.Read(folder, cancellation).Records.OfType<LabelScheme>();
        var import = SpreadsheetImport.Read(
            File.OpenRead(path), typed.Replace('\\', '/'), records, schemes, mapping, rejections, cancellation: cancellation);
        var rendered = RenderedDiagnostic.FromAll(import.Diagnostics, "");
        if (import.Diagnostics.Any(IsError)) return Refuse(terminal, rendered, "the spreadsheet cannot be read as it is mapped");

        TextReport.Write(terminal.Error, rendered, terminal.ErrorStyle);
        if (mapping is null) Show(import, save, typed, terminal);
        var proposals = ProposalFinder.Find(new CurrentRecords(records), import.Facts, rejections.Has);
        return ProposalReview.Run(
            arguments, terminal, folder, options.Order.Content, options.Order.Prefix, proposals, cancellation: cancellation);
    }

    private static string? SaveTo(Arguments arguments)
    {
        if (arguments.Get(SaveMappingOption) is not { } save) return null;
        const string Help = "name a new file outside the archive, such as cables-mapping.yaml";
        if (arguments.Get(MappingOption) is not null)
            throw new WrongCommandLineException("--save-mapping saves a proposed mapping, --mapping gives one", "leave one of them out");
        if (save.Length == 0) throw new WrongCommandLineException("--save-mapping is empty", Help);
        var path = Path.GetFullPath(save);
        if (Path.Exists(path) || new FileInfo(path).LinkTarget is not null) throw new WrongCommandLineException($"{save} exists", Help);
        if (ArchiveLocation.Around(path) is { } archive)
            throw new WrongCommandLineException($"{save} would be in the archive {archive}, where it is no part of the record", Help);
        return path;
    }

    // Comments of a proposed mapping say how sure it is. Standard output is for the proposals.
    private static void Show(SpreadsheetImport import, string? save, string typed, Terminal terminal)
    {
        var yaml = $"# How asfound import reads {VisibleText.From(Path.GetFileName(typed))}.\n"
            + "# Edit and keep it: asfound import FILE --mapping THIS\n"
            + SheetMappingFile.Write(import.Sheets);
        if (save is not null)
        {
            WholeFile.Replace(save, stream => stream.Write(Encoding.UTF8.GetBytes(yaml)));
            terminal.Error.Write($"The mapping was written to {VisibleText.From(save)}.\n");
        }
        else
        {
            foreach (var line in yaml.TrimEnd('\n').Split('\n')) terminal.Error.Write($"{VisibleText.From(line)}\n");
        }

        foreach (var (kind, key) in new[]
        {
            (RecordKind.Cable, "kind"), (RecordKind.Frame, "name"),
            (RecordKind.Event, "on"), (RecordKind.Event, "what"), (RecordKind.Event, "of"),
        })
        {
            if (import.Sheets.Any(sheet => sheet.Kind == kind && sheet.Columns.All(column => column.Key != key)))
            {
                terminal.Error.Write(
                    $"No column says `{key}`, which a new {kind.Noun()} needs: add `{key}: {{value: …}}` to the mapping.\n");
            }
        }

        ShowLeftOut(import.LeftOut, terminal);
    }

    internal static void ShowLeftOut(ImmutableArray<string> leftOut, Terminal terminal)
    {
        foreach (var left in leftOut.Take(MostLeftOut)) terminal.Error.Write($"Left out: {VisibleText.From(left)}\n");
        if (leftOut.Length > MostLeftOut) terminal.Error.Write($"Left out: {leftOut.Length - MostLeftOut} more\n");
    }

    /// <summary>Reads what is recorded and what was rejected, and why one of them cannot be read.</summary>
    internal static (ImmutableArray<RawRecord> Records, Rejections Rejections, ImmutableArray<Diagnostic> Stops) ReadRecord(
        IArchiveFolder folder, CancellationToken cancellation)
    {
        var (records, unread) = RawRecord.All(folder, cancellation);
        var (rejections, wrong) = Rejections.Read(folder);
        return (records, rejections, [.. unread, .. wrong.Where(IsError)]);
    }

    internal static ExitCode RefuseRecord(Terminal terminal, ImmutableArray<Diagnostic> stops, CommandOptions options) =>
        Refuse(terminal, RenderedDiagnostic.FromAll(stops, options.Order.PrefixFor), "files of the record cannot be read");

    internal static ExitCode Refuse(Terminal terminal, ImmutableArray<RenderedDiagnostic> diagnostics, string why)
    {
        TextReport.Write(terminal.Out, diagnostics, terminal.Style);
        terminal.Error.Write($"Nothing is proposed: {why}.\n");
        return ExitCode.RecordHasErrors;
    }

    internal static bool IsError(Diagnostic diagnostic) => diagnostic.Severity == Severity.Error;
}
