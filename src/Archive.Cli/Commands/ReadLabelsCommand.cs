using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Cli.Preview;
using Archive.Cli.Reviewing;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.PhotoLabels;
using Archive.PhotoLabels.Proposing;
using Archive.PhotoLabels.Reading;
using Archive.Proposals;
using Archive.Records.Model;

namespace Archive.Cli.Commands;

/// <summary>
/// <c>asfound read-labels</c>: what labels in photos say, with probabilities, and what of it is accepted into the record.
/// </summary>
internal static class ReadLabelsCommand
{
    /// <summary>How it can be written.</summary>
    internal static readonly string[] Formats = ["text", "json", "yaml"];

    private static readonly JsonSerializerOptions Json = new() { WriteIndented = true, NewLine = "\n", Encoder = JsonText.Alone };

    private static readonly Option<string> PhotosOption =
        new("--photos") { HelpName = "ID,ID", Description = "only these photos, whatever they show, each as a whole" };

    private static readonly Option<bool> DetailOption =
        new("--detail") { Description = "also read photos with view detail as a whole, not only their regions" };

    private static readonly Option<string> ModelsOption = new("--models")
    {
        HelpName = "DIR",
        Description = "the folder label-reading of the package of that name (beside asfound, or in your own folder for programs' data)",
    };

    private static readonly Option<string> FormatOption = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how readings are written (text):
              text  for people
              json  for programs; the fields are stable
              yaml  as regions, to edit and to copy into the records of the photos
            """,
    }.AcceptOnlyFromAmong(Formats);

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "read-labels",
        "read the labels in photos, and propose them to the record",
        Run,
        terminal,
        ArchiveOptions.Content,
        PhotosOption,
        DetailOption,
        ModelsOption,
        ReviewOptions.Accept,
        ReviewOptions.Reject,
        ReviewOptions.Review,
        ReviewOptions.Page,
        PreviewRun.Port,
        FormatOption,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var options = CommandOptions.From(arguments);
        if (LabelReadingFolder.Find(arguments.Get(ModelsOption), out var missing) is not { } models)
            return terminal.Complain(ExitCode.OutsideFailed, missing.What, missing.Help);
        var named = arguments.Get(PhotosOption);
        string[] photos = named?.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries) ?? [];
        if (named is not null && photos.Length == 0)
            throw new WrongCommandLineException("--photos is empty", "name photos, such as --photos P-0012,P-0013");
        var result = ProgressDisplay.Over(terminal, progress => PhotoLabelReader.Read(
            options.Order, new ReadingRequest(models, photos, arguments.Get(DetailOption)), progress, cancellation));
        if (result.Check.Counts.Errors > 0)
        {
            TextReport.Write(terminal.Error, result.Check.Diagnostics, terminal.ErrorStyle);
            terminal.Error.Write($"{ResultWriter.Closing(result.Check)}\nNo labels are read while the record has errors.\n");
            return ExitCode.RecordHasErrors;
        }

        if (result.Problem is { } problem)
            return terminal.Complain(ExitCode.OutsideFailed, $"labels cannot be read: {problem}", LabelReadingFolder.HowToGet);
        if (photos.FirstOrDefault(id => !result.Known.Contains(id)) is { } unknown) throw Unknown(unknown, result);
        if (!result.Unreadable.IsEmpty)
        {
            TextReport.Write(terminal.Error, result.Unreadable, terminal.ErrorStyle);
            terminal.Error.Write("Nothing is proposed while it cannot be read what was rejected before.\n");
            return ExitCode.RecordHasErrors;
        }

        var isDecided = ReviewOptions.AreUsed(arguments);
        if (!isDecided) Show(arguments, terminal, options, result);
        return ProposalReview.Run(
            arguments,
            terminal,
            result.Folder!,
            options.Order.Content,
            options.Order.Prefix,
            result.Proposals,
            pictureOf: origin => Path.Combine(options.Order.Content, origin.File),
            cutoutOf: origin => ReadingPictures.Cutout(Path.Combine(options.Order.Content, origin.File), origin),
            isQuiet: true,
            cancellation: cancellation);
    }

    private static void Show(Arguments arguments, Terminal terminal, CommandOptions options, PhotoLabelResult result)
    {
        if (arguments.Get(FormatOption) == "json") WriteJson(terminal.Out, result);
        else if (arguments.Get(FormatOption) == "yaml") terminal.Out.Write(RegionsText.Write(result, options.Order.Prefix));
        else WriteText(terminal.Out, result);
        terminal.Out.Flush();
        foreach (var (scheme, why) in result.Unread)
        {
            terminal.Error.Write(VisibleText.From(
                $"Scheme {scheme} cannot guide the reading: {why}. Its labels are read freely and judged afterwards.") + "\n");
        }

        foreach (var photo in result.Skipped) terminal.Error.Write($"{VisibleText.From($"{photo.Photo} {photo.Why}")}\n");
        terminal.Error.Write($"{Closing(result)}\n");
    }

    // What a label proposes, in all photos that it was read in.
    private static Func<ReadLabel, IEnumerable<Proposal>> ProposalsOf(PhotoLabelResult result)
    {
        var byOrigin = result.Proposals.SelectMany(proposal => proposal.Origins.Select(origin => (origin, proposal)))
            .ToLookup(pair => pair.origin, pair => pair.proposal);
        return label => label.Places.SelectMany(place => byOrigin[ReadingProposals.OriginOf(label, place)])
            .DistinctBy(proposal => proposal.Id);
    }

    private static string State(Proposal proposal) => proposal switch
    {
        { IsRejected: true } => "rejected before",
        { Why: { } why } => why,
        { IsOpen: true } => "to accept or reject",
        _ => "recorded",
    };

    private static WrongCommandLineException Unknown(string id, PhotoLabelResult result) => new(
        $"the record has no photo {id} whose picture is there",
        NearestName.Find(id, result.Known) is { } near
            ? $"did you mean {near}"
            : "asfound find --kind photo finds photos by what they show");

    private static void WriteText(TextWriter output, PhotoLabelResult result)
    {
        var proposalsOf = ProposalsOf(result);
        foreach (var label in result.Labels)
        {
            output.Write($"{VisibleText.From($"{label.Label}  {Percent(label.Probability)}  ({label.Scheme})")}\n");
            Line("ends", string.Join(", ", label.Means));
            if (label.RunnerUp is { } other) Line("runner-up", $"{other.Label}  {Percent(other.Probability)}");
            if (label.Cable is { } cable) Line("cable", label.Witness is { } witness ? $"{cable}: {witness.Why}" : cable);
            foreach (var place in label.Places)
            {
                var turned = place.Angle == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $", at {place.Angle}°");
                Line("photo", $"{place.Photo} {place.File} {BoxText(place.Box)}{turned}");
            }

            foreach (var proposal in proposalsOf(label)) Line("proposal", $"{proposal.Id}: {State(proposal)}");
            output.Write("\n");
        }

        void Line(string name, string value) => output.Write($"  {name,-9}  {VisibleText.From(value)}\n");
    }

    private static string Percent(double probability) => ReadingProposals.Percent(probability);

    private static string BoxText(ImageBox box) =>
        string.Create(CultureInfo.InvariantCulture, $"[{box.Left:0.####}, {box.Top:0.####}, {box.Width:0.####}, {box.Height:0.####}]");

    private static void WriteJson(TextWriter output, PhotoLabelResult result) =>
        output.Write(JsonSerializer.Serialize(Shape(result, ProposalsOf(result)), Json) + "\n");

    private static object Shape(PhotoLabelResult result, Func<ReadLabel, IEnumerable<Proposal>> proposalsOf) =>
        new
        {
            labels = result.Labels.Select(label => new
            {
                label = label.Label,
                scheme = label.Scheme,
                ends = label.Means.Select(address => address.ToString()),
                probability = Rounded(label.Probability),
                alone = Rounded(label.Alone),
                runner_up = label.RunnerUp is { } other
                    ? new { label = other.Label, scheme = other.Scheme, probability = Rounded(other.Probability) }
                    : null,
                cable = label.Cable,
                verdict = label.Witness is { } witness ? JsonNamingPolicy.SnakeCaseLower.ConvertName($"{witness.Verdict}") : null,
                why = label.Witness?.Why,
                photos = label.Places.Select(place => new
                {
                    photo = place.Photo,
                    file = place.File,
                    box = new[] { place.Box.Left, place.Box.Top, place.Box.Width, place.Box.Height }.Select(Rounded),
                    angle = place.Angle,
                    probability = Rounded(place.Probability),
                }),
                proposals = proposalsOf(label).Select(proposal => new
                {
                    id = proposal.Id,
                    kind = proposal.Kind.ToString().ToLowerInvariant(),
                    changes_record = proposal.IsChange,
                    rejected_before = proposal.IsRejected,
                    why = proposal.Why,
                }),
            }),
            photos = result.Photos,
            decoded = result.Decoded,
            other_lines = result.Other,
            skipped = result.Skipped.Select(photo => new { photo = photo.Photo, why = photo.Why }),
            unread_schemes = result.Unread.Select(scheme => new { scheme = scheme.Scheme, why = scheme.Why }),
        };

    private static double Rounded(double number) => Math.Round(number, 6);

    private static string Closing(PhotoLabelResult result)
    {
        var contradictions = result.Labels.Count(label => label.Witness is { IsContradiction: true });
        return $"{ResultWriter.Number(result.Labels.Length, "label")} in {ResultWriter.Number(result.Photos, "photo")} "
            + $"({ResultWriter.Number(result.Decoded, "photo")} decoded), "
            + $"{ResultWriter.Number(result.Other, "line")} of other print"
            + (contradictions == 0 ? "." : $", {ResultWriter.Number(contradictions, "label")} that contradict the record.")
            + " Compare each with its photo.";
    }
}
