using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Decabling;
using Archive.Plans.Safety;
using Archive.Records.Model;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Decabling;
using Archive.Wiring.Progress;

namespace Archive.Site.PlanPages;

/// <summary>The crew's sheet.</summary>
public sealed record CrewSheetPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences; on further sheets none.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>What can hurt on this page.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The steps of this sheet, stage by stage.</summary>
    public required ImmutableArray<RowGroup<CrewStep>> Stages { get; init; }

    /// <summary>When frames are free to go, on the first sheet; empty on the others.</summary>
    public required ImmutableArray<ReleaseLine> Releases { get; init; }

    /// <summary>Cables that stay, on the first sheet; empty on the others.</summary>
    public required ImmutableArray<RecordLink> Left { get; init; }

    /// <summary>Number of steps on all sheets.</summary>
    public required int Steps { get; init; }

    /// <summary>What the ticks of steps are kept under that are done by the record, on all sheets.</summary>
    public required ImmutableArray<string> Recorded { get; init; }

    /// <summary>The document of all steps.</summary>
    public required Link Whole { get; init; }

    /// <summary>What the ticks of this archive's sheet are kept under.</summary>
    public required string Ticks { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A step as the crew reads it.</summary>
/// <param name="Cable">The cable, or the frame.</param>
/// <param name="Prints">What is to be read on it: its label, else the tags at its ends; empty where there is nothing.</param>
/// <param name="Kind">What it is, in words: its kind and length.</param>
public sealed record CrewStep(int Number, RecordLink Cable, ImmutableArray<string> Prints, string Kind)
{
    /// <summary>What its tick is kept under: the cable's id, and before it is pulled what is done to it.</summary>
    public required string Tick { get; init; }

    /// <summary>Whether it is a step on a cable; else on a frame.</summary>
    public required bool IsCable { get; init; }

    /// <summary>What is done, in a word or two.</summary>
    public required string Action { get; init; }

    /// <summary>Whether the record says that it was done.</summary>
    public required bool IsDone { get; init; }

    /// <summary>When it was done, or what it waits for.</summary>
    public required HtmlFragment State { get; init; }

    /// <summary>What to watch out for at this cable, the worst first.</summary>
    public required ImmutableArray<WarningLine> Warnings { get; init; }

    /// <summary>The tangle that begins with it: its other cables; empty for none.</summary>
    public required ImmutableArray<RecordLink> Knot { get; init; }

    /// <summary>The tangle drawn; nothing where none begins here.</summary>
    public required HtmlFragment KnotDrawn { get; init; }

    /// <summary>What to do, in order.</summary>
    public required ImmutableArray<CrewText> Does { get; init; }

    /// <summary>How long it takes.</summary>
    public required string Minutes { get; init; }

    /// <summary>How much has passed when it is out.</summary>
    public required string Elapsed { get; init; }

    /// <summary>Frames that are free to go after it.</summary>
    public required ImmutableArray<ReleaseLine> Released { get; init; }
}

/// <summary>Some words of an instruction, and the place that they end with.</summary>
/// <param name="Text">The words.</param>
/// <param name="End">The place; null for none.</param>
public sealed record CrewText(HtmlFragment Text, EndPlace? End)
{
    /// <summary>Words that are text.</summary>
    /// <param name="end">The place; null for none.</param>
    public CrewText(string text, EndPlace? end)
        : this(UnbrokenIds.In(text), end) => IsStop = text == ".";

    /// <summary>Whether it is the full stop alone, which stands close to what is before it.</summary>
    public bool IsStop { get; }

    /// <summary>The connector there; empty where it is not recorded.</summary>
    public string Connector { get; init; } = "";
}

/// <summary>A frame that is free to go.</summary>
/// <param name="When">How much has passed until then.</param>
/// <param name="Step">Where its last step stands; null where no known cable holds it.</param>
/// <param name="Staying">Cables that stay, and which are disconnected before it goes.</param>
public sealed record ReleaseLine(RecordLink Frame, string When, Link? Step, ImmutableArray<RecordLink> Staying)
{
    /// <summary>The steps that this frame alone needs; null where they are not listed.</summary>
    public Link? Alone { get; init; }
}

/// <summary>Makes the crew's sheets.</summary>
/// <param name="plan">The plan.</param>
/// <param name="stepLists">Makes the document of all steps.</param>
internal sealed class CrewSheetPages(
    ArchiveModel archive,
    PageFactory pageFactory,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    DecablingPlan plan,
    StepListPages stepLists)
{
    // So many steps are a long day's work, and a page that a phone scrolls without trouble.
    private const int StepsOnSheet = 60;

    // Lists of what is free when are read whole in a hall; of a great record they are in the data.
    private const int MostReleases = 400;

    /// <summary>The sheets.</summary>
    public IEnumerable<OutputFile> All()
    {
        var (order, summary) = (plan.Order, plan.Summary);
        var rows = new GroupedRows<DecablingStep>(
            [.. order.Steps.Select(step => Under(order, step))],
            DecablingPlan.Kind.Page, DecablingPlan.Kind.Folder, row => $"step {row.Row.Number}", StepsOnSheet);
        ImmutableArray<string> recorded = [.. order.Steps
            .Where(step => step.State.Status == StepStatus.Done)
            .Select(CrewStepWriter.TickOf)];
        var writer =
            new CrewStepWriter(archive, formatter, rowBuilder, order, plan.Warnings, frame => ReleaseOf(frame, rows.Sheets, order));
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(
                rows.Sheets.Path(sheet), location => new CrewSheetPage(pageFactory.PlanHead(DecablingPlan.Kind, location))
                {
                    Summary = sheet == 1 ? summary : [],
                    Cautions = plan.CautionsOf([.. rows.Sheets.RowsOf(sheet).Select(row => row.Row)]),
                    Stages = rows.On(sheet, step => writer.Write(step, location)),
                    Releases = sheet == 1 && order.Releases.Length <= MostReleases
                        ? [.. order.Releases.Select(release => Line(release, rows.Sheets, location))]
                        : [],
                    Left = sheet == 1 ? [.. order.Left.Take(MostReleases).Select(cable => RecordLink.To(cable, location))] : [],
                    Steps = order.Steps.Length,
                    Recorded = recorded,
                    Ticks = StepListPages.TicksOf(archive, DecablingPlan.Kind.Folder),
                    Whole = new Link("All steps, to print or one by one", location.To(StepListPages.PathOf(DecablingPlan.Kind.Folder))),
                    Sheet = rows.Sheet(sheet, location),
                });
        }

        foreach (var file in stepLists.All(Whole(
            DecablingPlan.Kind.Title, DecablingPlan.Kind.Folder, order, rows.Sheets.Rows, writer, summary))) yield return file;
        foreach (var (_, part) in plan.Frames)
        {
            foreach (var file in stepLists.All(OfFrame(part, rows.Sheets))) yield return file;
        }
    }

    /// <summary>Where the steps are that one frame needs, in one document.</summary>
    /// <param name="frame">Id of a frame that <see cref="DecablingPlan.Frames"/> has.</param>
    public static string PathOf(string frame) => StepListPages.PathOf(FolderOf(frame));

    private static string FolderOf(string frame) => $"{DecablingPlan.Kind.Folder}/{RecordKind.Frame.Folder()}/{frame}";

    private static (RowHeading Heading, DecablingStep Row) Under(DecablingOrder order, DecablingStep step) =>
        (new RowHeading(DecablingSentences.Describe(step.Stage, order.Wanted.Count > 0), "stage-" + (int)step.Stage), step);

    private StepList<DecablingStep> OfFrame(DecablingOrder part, PagedList<(RowHeading Heading, DecablingStep Row)> sheets) => Whole(
        $"{RecordNames.For(archive.Find<Frame>(part.OnlyFor!)!)}: cables to take out",
        FolderOf(part.OnlyFor!),
        part,
        [.. part.Steps.Select(step => Under(part, step))],
        new CrewStepWriter(archive, formatter, rowBuilder, part, plan.Warnings, frame => location =>
            Line(plan.Order.ReleaseOf(frame)!, sheets, location)),
        DecablingSentences.Describe(part, plan.Basis, null));

    private StepList<DecablingStep> Whole(
        string title,
        string folder,
        DecablingOrder order,
        IReadOnlyList<(RowHeading Heading, DecablingStep Row)> rows,
        CrewStepWriter writer,
        ImmutableArray<string> summary) => new(
        title, DecablingPlan.Kind.Page, folder, location => [new Link("Plans", location.To("plans/index.html"))])
        {
            ListTitle = DecablingPlan.Kind.Title,
            TicksFolder = DecablingPlan.Kind.Folder,
            Says =
            [
                StepListPages.Left(order.Steps.Count(step => step.State.Status == StepStatus.Done), order.Steps.Length, "done"),
                "The person on the floor holds this sheet and reads each step aloud, hazards first. The person on the ladder holds the ladder and the cable, and nothing else. If a cable does not come out by hand, stop and look for what holds it: never pull harder, never cut.",
                .. summary,
            ],
            Things = order.OnlyFor is null ? "Cable" : "Cable or frame",
            Steps = [.. rows.Where(row => row.Row.State.Status != StepStatus.Done)],
            Row = (step, location) => Listed(writer.WriteWork(step, location)),
            Cautions = plan.CautionsOf,
            Warnings = plan.Warnings.Of,
            WaitsFor = step => step.State.WaitsFor,
        };

    private static ListedStep Listed(CrewStep step) => new(step.Number, step.Cable, step.Prints,
    [
        .. step.Knot.IsEmpty
            ? Array.Empty<CrewText>()
            : [new CrewText(
                $"Tangle with {string.Join(", ", step.Knot.Select(other => other.Id))}: disconnect all, loosen them together, then take them out in this order.",
                null)],
        .. step.Does,
        .. step.Released.Select(line =>
            new CrewText(
                $"Then {line.Frame.Id} is free to go; {(line.Staying.IsEmpty ? "" : $"check first that nothing holds it that stays ({string.Join(", ", line.Staying.Select(cable => cable.Id))}): ")}only its bolts hold it.",
                null)),
    ])
    {
        Action = step.Action,
        Key = step.Tick,
    };

    private Func<PageLocation, ReleaseLine> ReleaseOf(
        string frame, PagedList<(RowHeading Heading, DecablingStep Row)> sheets, DecablingOrder order) =>
        location => Line(order.ReleaseOf(frame)!, sheets, location);

    private ReleaseLine Line(FrameRelease release, PagedList<(RowHeading Heading, DecablingStep Row)> sheets, PageLocation location) => new(
        rowBuilder.Record(release.Frame, location),
        release.Step == 0 ? "" : DecablingSentences.Lasts(release.Minutes),
        release.Step == 0
            ? null
            : new Link($"step {release.Step}", location.To(sheets.Path(sheets.SheetOf(release.Step - 1)), $"step-{release.Step}")),
        [.. release.Staying.Select(cable => rowBuilder.Record(cable, location))])
    {
        Alone = plan.Frames.ContainsKey(release.Frame)
            ? new Link("the steps for this frame alone", location.To(PathOf(release.Frame)))
            : null,
    };
}
