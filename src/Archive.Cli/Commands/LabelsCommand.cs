using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.LabelSheets;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary><c>asfound labels</c>: QR labels of frames, on sheets that print to size or one by one.</summary>
internal static class LabelsCommand
{
    internal static readonly string[] Papers = ["A4", "letter"];

    internal static readonly string[] Batches = ["row", "module", "display"];

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var options = CommandOptions.From(arguments);
        var stock = LabelStock.Find(arguments.Size ?? "63.5x38.1", arguments.Paper == "letter" ? PaperSize.Letter : PaperSize.A4)
            ?? throw new WrongCommandLineException($"{arguments.Size} is not a label size that fits this paper", "write width and height in millimetres, at least 10, such as 63.5x38.1");
        if (arguments.Svg is "") throw new WrongCommandLineException("--svg is empty", "name a folder with --svg");
        if (arguments.Svg is { } labels) CommandOptions.RequireNoForeignLink("--svg", labels, options.Order.Content);
        if ((arguments.Distance ?? 250) is not (> 0 and <= 5000) and var wrong) throw new WrongCommandLineException($"{wrong} is not a reading distance", "write it in millimetres, up to 5000");
        if ((arguments.Skip ?? 0) is var skip && (skip < 0 || skip >= stock.PerSheet)) throw new WrongCommandLineException($"cannot leave {skip} places free on a sheet of {stock.PerSheet} labels", $"write how many are already used, up to {stock.PerSheet - 1}");
        var draft = RecordReader.Read(new ArchiveFolder(options.Order.Content), cancellation);
        var record = ArchiveModel.From(draft);
        var outcome = LabelSheetSet.Create(record, Chosen(record, arguments), stock, arguments.Distance ?? 250, skip);
        switch (outcome)
        {
            case LabelResult.NoAddress:
                return terminal.Complain(ExitCode.RecordHasErrors, "the archive does not say where it is published, so a code would open nothing", "write `base: https://…/` into archive.yaml");
            case LabelResult.TooSmall small:
                throw new WrongCommandLineException(
                    string.Create(CultureInfo.InvariantCulture, $"a label of {stock.Width}x{stock.Height} mm is too small to read {small.Address} from {arguments.Distance ?? 250} mm"),
                    string.Create(CultureInfo.InvariantCulture, $"use --size with a height of at least {small.Height:0} mm and a width one and a half times that, or a shorter --distance"));
            default:
                Write(((LabelResult.Done)outcome).Sheets, arguments, terminal);
                return ExitCode.Success;
        }
    }

    private static void Write(LabelSheetSet sheets, Arguments arguments, Terminal terminal)
    {
        var design = sheets.Design;
        var set = string.Create(
            CultureInfo.InvariantCulture, $"level {design.Level}, QR squares of {design.Module:0.00} mm, readable from up to {design.Distance:0} mm");
        if (arguments.Svg is { } folder)
        {
            Directory.CreateDirectory(folder);
            var count = 0;
            foreach (var label in sheets.Labels)
            {
                WholeFile.Replace(Path.GetFullPath(Path.Combine(folder, $"{label.Id}.svg")), stream => stream.Write(Encoding.UTF8.GetBytes(sheets.Svg(label) + "\n")));
                count++;
            }

            terminal.Error.Write($"{ResultWriter.Number(count, "label")} in {folder}: {set}.\n");
            return;
        }

        sheets.Write(terminal.Out);
        terminal.Error.Write($"{ResultWriter.Number(sheets.Labels.Count(), "label")} on {ResultWriter.Number(sheets.Count, "sheet")}: {set}. Print at 100 %, without scaling.\n");
    }

    private static ImmutableArray<LabelBatch> Chosen(ArchiveModel record, Arguments arguments)
    {
        var all = LabelBatch.Create(record, (BatchBy)Array.IndexOf(Batches, arguments.By ?? "row"));
        if (arguments.Of is not { } id) return all;
        ImmutableArray<LabelBatch> chosen = [.. all.Where(batch => batch.Id == id)];
        return chosen.IsEmpty ? throw new WrongCommandLineException($"there is no {arguments.By ?? "row"} {id} with frames", $"there are {string.Join(", ", all.Select(batch => batch.Id).Where(each => each.Length > 0))}") : chosen;
    }
}
