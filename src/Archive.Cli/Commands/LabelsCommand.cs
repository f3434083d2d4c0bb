using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics;
using Archive.LabelSheets;
using Archive.Plans;
using Archive.Plans.HandTags;
using Archive.Publishing.Building;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary>
/// <c>asfound labels</c>: QR labels of frames, cables, coils, trays, doors, units, boxes and pieces, on sheets that print to size or
/// one by one.
/// </summary>
internal static class LabelsCommand
{
    internal static readonly string[] Papers = ["A4", "letter"];

    internal static readonly string[] Batches = ["row", "module", "display"];

    internal static readonly string[] Subjects = ["frames", "cables", "hand-tags", "coils", "trays", "doors", "units", "boxes", "pieces"];

    internal static readonly string[] Forms = ["tag", "flag", "wrap"];

    private static readonly Option<string> ForOption = new Option<string>("--for")
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
              units      plug-in units, by the frame that they were found in
              boxes      boxes, crates and pallets
              pieces     pieces that were taken off, by what they came off
            """,
    }.AcceptOnlyFromAmong(Subjects);

    private static readonly Option<string> IdsOption =
        new("--ids") { HelpName = "ID,ID", Description = "only these records, in this order; of a cable both ends" };

    private static readonly Option<string> ByOption = new Option<string>("--by")
    {
        HelpName = "HOW",
        Description = """
            each group starts on a new sheet (row):
              row      rows of the as-found hall
              module   functional groups
              display  working sets, with everything they may need
            """,
    }.AcceptOnlyFromAmong(Batches);

    private static readonly Option<string> OfOption = new("--of")
    {
        HelpName = "ID",
        Description = "only this row, module or display; of coils only this frame, of trays only this hall"
    };

    private static readonly Option<string> FormOption = new Option<string>("--form")
    {
        HelpName = "FORM",
        Description = """
            how a label is put on (flag for cables, else tag):
              tag   hung up or stuck on as it is
              flag  folded around a cable at its middle; both halves say the same
              wrap  wound around a cable, a clear or blank tail over what is printed
            """,
    }.AcceptOnlyFromAmong(Forms);

    private static readonly Option<double?> AroundOption = new("--around")
    {
        HelpName = "MM",
        Description = "width left blank, in millimetres: the middle of a flag (12), the tail of a wrap (25)"
    };

    private static readonly Option<string> SizeOption = new("--size")
    {
        HelpName = "WxH",
        Description = "width and height of a label in millimetres (tag 63.5x38.1, flag 96x25, wrap 45x50)"
    };

    private static readonly Option<string> PaperOption = new Option<string>("--paper")
    {
        HelpName = "PAPER",
        Description = "A4 or letter (A4)"
    }.AcceptOnlyFromAmong(Papers);

    private static readonly Option<double?> DistanceOption = new("--distance")
    {
        HelpName = "MM",
        Description = "how far away codes are read from, in millimetres (tag 250, flag and wrap 100)"
    };

    private static readonly Option<int?> SkipOption = new("--skip")
    {
        HelpName = "NUMBER",
        Description = "leave this many places free at the top of the first sheet, for a sheet that is partly used"
    };

    private static readonly Option<string> SvgOption =
        new("--svg") { HelpName = "DIR", Description = "write each label to a file of its own, DIR/ID.svg" };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "labels",
        "QR labels and cable flags, on sheets that print to size",
        Run,
        terminal,
        ArchiveOptions.Content,
        ForOption,
        IdsOption,
        ByOption,
        OfOption,
        FormOption,
        AroundOption,
        SizeOption,
        PaperOption,
        DistanceOption,
        SkipOption,
        SvgOption);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var options = CommandOptions.From(arguments);
        var subject = (LabelSubject)Array.IndexOf(Subjects, arguments.Get(ForOption) ?? "frames");
        var part = arguments.Get(ForOption) ?? arguments.Get(ByOption) ?? arguments.Get(OfOption);
        if (arguments.Get(IdsOption) is not null && part is not null)
            throw new WrongCommandLineException("--ids names the labels already", "leave out --for, --by and --of");
        if (arguments.Get(ByOption) is not null && subject != LabelSubject.Frames) throw new WrongCommandLineException(
            $"--by is for frames, not for {arguments.Get(ForOption)}", "leave it out; --of chooses a part of the labels");
        var stock = StockOf(arguments, subject);
        var distance = arguments.Get(DistanceOption) ?? (IsOnCables(FormOf(arguments, subject)) ? 100 : 250);
        var svg = arguments.Get(SvgOption);
        if (svg is "") throw new WrongCommandLineException("--svg is empty", "name a folder with --svg");
        if (svg is { } labels) CommandOptions.RequireNoForeignLink("--svg", labels, options.Order.Content);
        if (distance is not (> 0 and <= 5000) and var wrong)
            throw new WrongCommandLineException($"{wrong} is not a reading distance", "write it in millimetres, up to 5000");
        if ((arguments.Get(SkipOption) ?? 0) is var skip && (skip < 0 || skip >= stock.PerSheet)) throw new WrongCommandLineException(
            $"cannot leave {skip} places free on a sheet of {stock.PerSheet} labels",
            $"write how many are already used, up to {stock.PerSheet - 1}");
        var (record, written) = Labels(options, subject, arguments, terminal, cancellation);
        if (written is null) return terminal.Complain(ExitCode.RecordHasErrors, NoAddress, HowToSayAddress);
        var outcome = LabelSheetSet.Create(record, written.Batches, stock, distance, skip);
        switch (outcome)
        {
            case LabelResult.NoAddress:
                return terminal.Complain(ExitCode.RecordHasErrors, NoAddress, HowToSayAddress);
            case LabelResult.TooSmall small:
                throw new WrongCommandLineException(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{(stock.Form == LabelForm.Tag ? "a label" : "what is printed on a label")} of {stock.Panel.Width}x{stock.Panel.Height} mm is too small to read {small.Address} from {distance} mm"),
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"use --size so that it is at least {small.Height:0} mm high and one and a half times that wide, or a shorter --distance"));
            default:
                Write(((LabelResult.Done)outcome).Sheets, arguments, terminal);
                foreach (var missing in written.Missing) terminal.Error.Write($"{missing}\n");
                return ExitCode.Success;
        }
    }

    private static void Write(LabelSheetSet sheets, Arguments arguments, Terminal terminal)
    {
        var design = sheets.Design;
        var set = string.Create(
            CultureInfo.InvariantCulture,
            $"level {design.Level}, QR squares of {design.Module:0.00} mm, readable from up to {design.Distance:0} mm");
        if (arguments.Get(SvgOption) is { } folder)
        {
            Directory.CreateDirectory(folder);
            var count = 0;
            foreach (var label in sheets.Labels)
            {
                WholeFile.Replace(Path.GetFullPath(Path.Combine(folder, $"{label.Key}.svg")), stream =>
                    stream.Write(Encoding.UTF8.GetBytes(sheets.Svg(label) + "\n")));
                count++;
            }

            terminal.Error.Write($"{ResultWriter.Number(count, "label")} in {folder}: {set}.\n");
            return;
        }

        sheets.Write(terminal.Out);
        terminal.Error.Write(
            $"{ResultWriter.Number(sheets.Labels.Count(), "label")} on {ResultWriter.Number(sheets.Count, "sheet")}: {set}. Print at 100 %, without scaling.\n");
    }

    private const string NoAddress = "the archive does not say where it is published, so a code would open nothing";

    private const string HowToSayAddress = "write `base: https://…/` into archive.yaml";

    private static LabelForm FormOf(Arguments arguments, LabelSubject subject) => arguments.Get(FormOption) is { } form
        ? (LabelForm)Array.IndexOf(Forms, form)
        : subject is LabelSubject.Cables or LabelSubject.HandTags ? LabelForm.Flag : LabelForm.Tag;

    private static bool IsOnCables(LabelForm form) => form != LabelForm.Tag;

    private static LabelStock StockOf(Arguments arguments, LabelSubject subject)
    {
        var form = FormOf(arguments, subject);
        var (usual, room) = PreparedLabels.Usual(form);
        var around = arguments.Get(AroundOption);
        if (around is not null && form == LabelForm.Tag)
            throw new WrongCommandLineException("--around is for flags and wraps", "add --form flag or --form wrap, or leave it out");
        if (around is { } wrong && wrong is not (>= 0 and <= 200)) throw new WrongCommandLineException(
            FormattableString.Invariant($"{wrong} mm cannot go around a cable"), "write a length in millimetres, up to 200");
        var size = arguments.Get(SizeOption) ?? usual;
        var paper = arguments.Get(PaperOption) == "letter" ? PaperSize.Letter : PaperSize.A4;
        return LabelStock.Find(size, paper, form, around ?? room)
            ?? throw new WrongCommandLineException(
                $"{size} is not a label size that fits this paper{(form == LabelForm.Tag ? "" : " and leaves 10 mm to print on")}",
                "write width and height in millimetres, at least 10, such as 63.5x38.1");
    }

    // Frames need nothing but the record; what says where cables end is calculated as for a plan. Null where the record does not say where
    // it is published.
    private static (ArchiveModel Record, WrittenLabels? Labels) Labels(
        CommandOptions options, LabelSubject subject, Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (subject == LabelSubject.Frames && arguments.Get(IdsOption) is null)
        {
            var frames = ArchiveModel.From(RecordReader.Read(new ArchiveFolder(options.Order.Content), cancellation));
            return (
                frames,
                frames.Statement.Base is null ? null : new WrittenLabels(BatchLabels.Create(frames, Chosen(frames, arguments)), []));
        }

        PlanContext? context = null;
        var (_, plan) = ProgressDisplay.Over(terminal, progress => SiteBuild.Compute(
            options.Order with { WithErrors = true },
            each =>
            {
                context = each;
                return HandTagsPlan.Kind.Compute(each, new PlanRequest());
            },
            progress, cancellation));
        var record = context!.Record;
        if (record.Statement.Base is null) return (record, null);
        var writer = new LabelWriter(record, context.Readings, ((HandTagsPlan)plan!).Tags);
        return (record, arguments.Get(IdsOption) is { } ids ? writer.Write(Known(record, ids)) : Chosen(writer.Write(subject), arguments));
    }

    private static List<string> Known(ArchiveModel record, string ids)
    {
        List<string> all = [.. ids.Split([',', ' ', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries)];
        if (all.Count == 0) throw new WrongCommandLineException("--ids is empty", "write ids with commas between them");
        if (all.Find(id => record.Find(id) is not { IsWithdrawn: false }) is not { } unknown) return all;
        throw new WrongCommandLineException(
            $"there is no record {unknown}",
            NearestName.Find(unknown, record.ById.Keys) is { } near ? $"did you mean {near}?" : "ids are exactly as in the record");
    }

    private static WrittenLabels Chosen(WrittenLabels written, Arguments arguments)
    {
        if (arguments.Get(OfOption) is not { } id) return written;
        ImmutableArray<BatchLabels> chosen = [.. written.Batches.Where(batch => batch.Id == id)];
        return chosen.IsEmpty
            ? throw new WrongCommandLineException(
                $"there are no {arguments.Get(ForOption)} of {id}",
                $"there are {string.Join(", ", written.Batches.Select(batch => batch.Id).Where(each => each.Length > 0))}")
            : written with { Batches = chosen };
    }

    private static ImmutableArray<LabelBatch> Chosen(ArchiveModel record, Arguments arguments)
    {
        var all = LabelBatch.Create(record, (BatchBy)Array.IndexOf(Batches, arguments.Get(ByOption) ?? "row"));
        if (arguments.Get(OfOption) is not { } id) return all;
        ImmutableArray<LabelBatch> chosen = [.. all.Where(batch => batch.Id == id)];
        return chosen.IsEmpty ? throw new WrongCommandLineException(
            $"there is no {arguments.Get(ByOption) ?? "row"} {id} with frames",
            $"there are {string.Join(", ", all.Select(batch => batch.Id).Where(each => each.Length > 0))}") : chosen;
    }
}
