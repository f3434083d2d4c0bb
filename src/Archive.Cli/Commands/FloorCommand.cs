using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Cli.Reviewing;
using Archive.Diagnostics.Rendering;
using Archive.Intake.FloorGrids;
using Archive.Proposals;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Terms;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary><c>asfound import --floor</c>: a sheet whose cells are squares of floor becomes proposals of halls, rows and frames.</summary>
internal static class FloorCommand
{
    internal static readonly Option<string> Floor = new("--floor")
    {
        HelpName = "SHEET",
        Description = "read this sheet as a floor: its cells are squares",
    };

    internal static readonly Option<string> Square = new("--square")
    {
        HelpName = "LENGTH",
        Description = "side of a square, such as 600mm (with --floor)",
    };

    internal static readonly Option<string> Hall = new("--hall")
    {
        HelpName = "ID",
        Description = "id of the hall (with --floor; the sheet's name)",
    };

    internal static readonly Option<string> Faces = new("--faces")
    {
        HelpName = "SIDES",
        Description = "where rows face that do not show it, such as row-1=south,row-2=north, or south for all (with --floor)",
    };

    internal static readonly Option<string> Height = new("--height")
    {
        HelpName = "LENGTH",
        Description = "height of new frames; without it, no sizes are proposed (with --floor)",
    };

    internal static readonly Option<string> Drawing = new("--drawing")
    {
        HelpName = "FILE",
        Description = "draw the sheet beside the plan into this file, .svg (with --floor)",
    };

    private const string Form = "asfound import FILE --floor SHEET --square 600mm";

    /// <param name="path">Full path of the spreadsheet.</param>
    /// <param name="typed">Its path, for messages.</param>
    internal static ExitCode Run(string path, string typed, Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var floor = new FloorOptions(
            arguments.Get(Floor)!,
            Length("--square", arguments.Get(Square) ?? throw new WrongCommandLineException("--square is missing", Form)),
            arguments.Get(Hall),
            Sides(arguments.Get(Faces)),
            arguments.Get(Height) is { } height && Length("--height", height) > 0 ? height.Trim() : null);
        if (floor.Hall is { } hall && !RecordId.IsValid(hall))
            throw new WrongCommandLineException($"{hall} is not an id", "use letters, figures and hyphens, such as origin");
        var drawing = DrawingTo(arguments.Get(Drawing));
        var options = CommandOptions.From(arguments);
        var folder = new ArchiveFolder(options.Order.Content);
        var (records, rejections, stops) = ImportCommand.ReadRecord(folder, cancellation);
        if (!stops.IsEmpty) return ImportCommand.RefuseRecord(terminal, stops, options);
        var import = FloorImport.Read(File.OpenRead(path), typed, records, floor, cancellation);
        var rendered = RenderedDiagnostic.FromAll(import.Diagnostics, "");
        if (import.Diagnostics.Any(ImportCommand.IsError))
            return ImportCommand.Refuse(terminal, rendered, "the sheet cannot be read as a floor");
        TextReport.Write(terminal.Error, rendered, terminal.ErrorStyle);
        if (arguments.Get(ReviewOptions.Format) != "json") Show(import, floor, terminal);
        ImportCommand.ShowLeftOut(import.LeftOut, terminal);
        var proposals = ProposalFinder.Find(new CurrentRecords(records), import.Facts, rejections.Has);
        var svg = new Lazy<byte[]>(() => Encoding.UTF8.GetBytes(FloorDrawing.Svg(import, folder, proposals, cancellation)));
        if (drawing is not null)
        {
            WholeFile.Replace(drawing, stream => stream.Write(svg.Value));
            terminal.Error.Write($"The sheet and the plan are drawn in {VisibleText.From(arguments.Get(Drawing)!)}.\n");
        }

        return ProposalReview.Run(
            arguments,
            terminal,
            folder,
            options.Order.Content,
            options.Order.Prefix,
            proposals,
            drawing: () => svg.Value,
            cancellation: cancellation);
    }

    /// <summary>Refuses options of a floor where none is imported.</summary>
    internal static void RequireNone(Arguments arguments)
    {
        foreach (var option in new[] { Square, Faces, Height, Drawing, Hall })
        {
            if (arguments.Get(option) is not null)
                throw new WrongCommandLineException($"{option.Name} is for floors", $"leave it out, or type {Form}");
        }
    }

    private static double Length(string option, string text) =>
        Dimensions.Length.Read(text).Value is { } length && length.Millimeters is > 0 and <= 100_000
            ? length.Millimeters
            : throw new WrongCommandLineException($"{option} {text} is no length", $"write a length with its unit, such as {option} 600mm");

    private static ImmutableDictionary<string, Compass> Sides(string? text)
    {
        var sides = ImmutableDictionary.CreateBuilder<string, Compass>(StringComparer.Ordinal);
        foreach (var part in (text ?? "").Split([',', ' '], StringSplitOptions.RemoveEmptyEntries))
        {
            var equals = part.LastIndexOf('=');
            var (row, word) = (equals < 0 ? "" : part[..equals], part[(equals + 1)..]);
            if (!Enum.TryParse<Compass>(word, ignoreCase: true, out var side) || !Enum.IsDefined(side) || char.IsDigit(word[0]))
            {
                throw new WrongCommandLineException(
                    $"--faces: {part} names no side", "write south for all rows, or row-1=south,row-2=north");
            }

            sides[row] = side;
        }

        return sides.ToImmutable();
    }

    private static string? DrawingTo(string? typed)
    {
        if (typed is null) return null;
        var path = Path.GetFullPath(typed.Length > 0 ? typed : "x");
        const string Help = "name a file outside the archive that ends in .svg, such as floor.svg";
        if (!path.EndsWith(".svg", StringComparison.OrdinalIgnoreCase) || Directory.Exists(path))
            throw new WrongCommandLineException($"--drawing cannot be {(typed.Length > 0 ? typed : "empty")}", Help);
        if (ArchiveLocation.Around(path) is { } archive)
            throw new WrongCommandLineException($"{typed} would be in the archive {archive}, where it is no part of the record", Help);
        return path;
    }

    private static void Show(FloorImport import, FloorOptions floor, Terminal terminal)
    {
        foreach (var hall in import.Halls)
        {
            var walls = hall.Outline.IsEmpty ? "no walls drawn" : $"{hall.Outline.Length} corners";
            terminal.Error.Write($"{VisibleText.From($"Hall {hall.Id}: {walls}")}\n");
            foreach (var row in hall.Rows)
            {
                var line = new StringBuilder();
                for (var at = 0; at < row.Frames.Length; at++)
                {
                    var gap = at == 0 ? 0 : row.GapBefore(at);
                    if (gap > 0) line.Append($" [{gap * floor.SquareMillimetres:0.###} mm]");
                    line.Append($" {row.Frames[at].Id}");
                }

                var faces = row.Faces.ToString()!.ToLowerInvariant();
                terminal.Error.Write($"{VisibleText.From($"  {row.Id}, faces {faces}:{line}")}\n");
            }
        }

        if (floor.Height is null)
            terminal.Error.Write("Sizes of frames are not proposed: --height says how high new frames are.\n");
    }
}
