using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Progress;
using Archive.Plans.Reconnecting;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Wording;
using Archive.Site.Layout;
using Archive.Site.PhotoPlaces;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;
using Archive.Wiring.Safety;

namespace Archive.Site.PlanPages;

/// <summary>Makes the pages of the re-connection lists.</summary>
/// <param name="plan">The lists.</param>
/// <param name="stepLists">Makes the document of all steps of a list.</param>
internal sealed class ReconnectionPages(
    ArchiveModel archive,
    CrossReferences references,
    PageFactory pageFactory,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    PhotoSequence sequence,
    ReconnectionPlan plan,
    StepListPages stepLists)
{
    private const int MostPhotos = 3;

    /// <summary>The list of lists, and each list.</summary>
    public IEnumerable<OutputFile> All() =>
        plan.Sets.SelectMany(set => ListOf(set.Display, plan.Within(set), plan.ListOf(set)))
            .Concat(plan.Frames.SelectMany(frame => ListOf(frame, plan.Order.At(frame.Id), plan.ListOf(frame))))
            .Concat(Indexes());

    /// <summary>Where the list of a frame or display stands.</summary>
    /// <param name="of">A frame with cables, or a display whose needs can be met.</param>
    public static string PathOf(ArchiveRecord of) => $"{FolderOf(of)}/index.html";

    private static string FolderOf(ArchiveRecord of) => $"{ReconnectionPlan.Kind.Folder}/{of.RecordKind.Folder()}/{of.Id}";

    private IEnumerable<OutputFile> Indexes()
    {
        var summary = plan.Summary;
        var sheets = new PagedList<Frame>([.. plan.Frames], ReconnectionPlan.Kind.Page, ReconnectionPlan.Kind.Folder, frame => frame.Id)
        {
            Key = frame => frame.Id,
        };
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(
                sheets.Path(sheet), location => new ReconnectionPage(pageFactory.PlanHead(ReconnectionPlan.Kind, location))
                {
                    Summary = summary,
                    Cautions = plan.Cautions,
                    Displays = sheet > 1 ? [] : [.. plan.Sets.Select(set => Line(set.Display, plan.Within(set), location))],
                    Frames = [.. sheets.RowsOf(sheet).Select(frame => Line(frame, plan.Order.At(frame.Id), location))],
                    Sheet = sheets.On(sheet, location),
                });
        }
    }

    private ListLine Line(ArchiveRecord of, ImmutableArray<RefittedCable> cables, PageLocation location)
    {
        var warnings = plan.Order.List(cables).Select(step => plan.Warnings.Of(step).Select(warning => warning.Kind).ToHashSet()).ToList();
        return new ListLine(
            RecordLink.To(of, location) with { Href = location.To(PathOf(of)) }, cables.Length,
            warnings.Count(kinds => kinds.Contains(WarningKind.TooShort)),
                warnings.Count(kinds => kinds.Contains(WarningKind.LabelDisagrees)),
                cables.Count(laid => laid.Cycle is not null),
                cables.Sum(laid => laid.Ends.Count(end => end.Photo is null && (of is not Frame || end.End.At.Frame == of.Id))));
    }

    private IEnumerable<OutputFile> ListOf(ArchiveRecord of, ImmutableArray<RefittedCable> cables, PuttingBackList list)
    {
        var shared = SharedBy(list.Steps);
        var progress = plan.Progress(list);
        var cautions = new Lazy<ImmutableArray<Caution>>(() => plan.CautionsOf(cables));
        var rows = new GroupedRows<PuttingBackStep>(
            [.. list.Steps.Select(step => (HeadingOf(step), step))],
            PathOf(of),
            FolderOf(of),
            row => $"step {row.Row.Number}",
            SheetSizes.Steps);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), location => new ReconnectionListPage(Head(of, location))
            {
                Of = RecordLink.To(of, location),
                IsFrames = of is Frame,
                Says = ReconnectionPlan.Says(list),
                Progress = progress,
                WaitFor = shared.IsEmpty
                    ? HtmlFragment.None
                    : TextPartWriter.Write(StateText.Parts(StepState.From(shared)), archive, location),
                Cautions = cautions.Value,
                Photos = [.. references.PhotosOf[of.Id]
                    .Where(photo => of is Frame && photo.View is { Value: PhotoView.Rear } && sequence.IsAsFound(photo))
                    .Take(MostPhotos)
                    .Select(photo => rowBuilder.Thumb(photo, location))],
                Groups = rows.On(sheet, step => RowOf(step, shared, location)),
                TooShort = sheet < rows.Sheets.Count ? [] : [.. list.TooShort.Select(each => new ShortLine(
                    RecordLink.To(each.Laid.Cable, location),
                    [.. plan.Warnings.Of(each).Select(warning => WarningLine.Create(warning, archive, location))]))],
                Whole = new Link("All steps, to print or one by one", location.To(StepListPages.PathOf(FolderOf(of)))),
                Sheet = rows.Sheet(sheet, location),
            });
        }

        foreach (var file in stepLists.All(Whole(of, list, cautions, progress))) yield return file;
    }

    private StepList<PuttingBackStep> Whole(
        ArchiveRecord of, PuttingBackList list, Lazy<ImmutableArray<Caution>> cautions, ImmutableArray<string> progress) => new(
        TitleOf(of), PathOf(of), FolderOf(of), location =>
            [
                new Link("Plans", location.To("plans/index.html")),
                new Link(ReconnectionPlan.Kind.Title, location.To(ReconnectionPlan.Kind.Page))
            ])
        {
            Says =
        [
            StepListPages.Left(list.Steps.Count(step => step.State.Status == StepStatus.Done), list.Steps.Length, "done"),
                .. ReconnectionPlan.Says(list),
                .. list.TooShort.IsEmpty
                    ? Array.Empty<string>()
                    : [$"Too short: {string.Join(", ", list.TooShort.Select(each => each.Laid.Cable.Id))}."],
                .. progress,
            ],
            Things = "Cable or frame",
            Steps = [.. list.Steps.Where(step => step.State.Status != StepStatus.Done).Select(step => (HeadingOf(step), step))],
            Row = (step, location) => new ListedStep(
                step.Number, LinkOf(step, location), step.Laid is { } laid ? RowBuilder.PrintOn(laid.Cable) : [], [.. Does(step, location)])
            {
                Action = Phrase.Heading(ActionText.DescribeAlone(step.Action)),
                Key = $"{step.Laid?.Cable.Id ?? step.Frame!.Id}:{step.Action.ToString().ToLowerInvariant()}{(step.Action == StepAction.Connect ? ":" + step.Ends[0].End.At : "")}",
            },
            Cautions = _ => cautions.Value,
            Warnings = plan.Warnings.Of,
            WaitsFor = step => step.State.WaitsFor,
        };

    private static RecordLink LinkOf(PuttingBackStep step, PageLocation location) =>
        step.Laid is { } laid ? RecordLink.To(laid.Cable, location) : RecordLink.To(step.Frame!, location);

    private IEnumerable<CrewText> Does(PuttingBackStep step, PageLocation location)
    {
        if (step.Laid is not { } laid)
        {
            yield return new CrewText(step.Action switch
            {
                StepAction.Fix => "Plumb it, pack it and bolt it down.",
                StepAction.TestEarth => "From its earth bar to the building's earth; write the value down.",
                StepAction.ProveSupply =>
                    "No unit in it. Polarity and voltage at its terminals; then isolated, discharged and proved dead again; sign on paper.",
                StepAction.FitUnits => "Each into its own slot, straps as found: the slot map is on the frame's page.",
                StepAction.Start => "Fuse by fuse, as the licensed person says; stop at anything odd.",
                _ => "Polarity, insulation, fuses drawn, nothing loose; sign on paper.",
            }, null);
            yield break;
        }

        for (var end = 0; end < step.Ends.Length; end++)
        {
            var isLaid = step.Action == StepAction.Lay;
            yield return new CrewText(end switch
            {
                0 => isLaid ? "From" : "At",
                1 => isLaid ? "to" : "and",
                _ => "and",
            }, rowBuilder.At(step.Ends[end].End, location))
            { Connector = step.Ends[end].End.Seen?.Connector?.Value ?? "" };
            if (step.Ends[end].StaysFast) yield return new CrewText("(left coiled here)", null);
        }

        if (step.Ends.Length < 2 && step.Lays)
            yield return new CrewText(step.Ends.IsEmpty ? "Neither end is recorded: ask" : "; the other end is not recorded: ask", null);
        yield return new CrewText(".", null);
        if (step.Lays && step.Run is { Trays: { IsEmpty: false } trays })
            yield return new CrewText($"Through {string.Join(", ", trays)}.", null);
        if (step.Lays) yield return new CrewText(
            laid.Cable.Length is { } length ? $"{Phrase.Heading(formatter.Text.Format(length.Value))} long." : "Length unknown.", null);
    }

    private static RowHeading HeadingOf(PuttingBackStep step) => step.Stage switch
    {
        PuttingBackStage.Frames => new RowHeading("Frames: level and anchor", "frames"),
        PuttingBackStage.Earth => new RowHeading("Earth: connect and test", "earth"),
        PuttingBackStage.Laying => new RowHeading("Lay signal and control, long runs first", "lay"),
        PuttingBackStage.LayingPower => new RowHeading("Lay feeders and outside lines, apart from the rest", "lay-power"),
        PuttingBackStage.Signal => new RowHeading("Connect signal and control", "signal"),
        PuttingBackStage.Feeders => new RowHeading("Connect feeders, dead and with fuses drawn", "feeders"),
        PuttingBackStage.OutsideLines => new RowHeading("Connect outside lines", "outside"),
        PuttingBackStage.Supply => new RowHeading("Prove the supply without units, then make it dead again", "supply"),
        PuttingBackStage.Units => new RowHeading("Units in, dead and with fuses drawn", "units"),
        PuttingBackStage.UnitFronts => new RowHeading("Connect what ends on the fronts of units", "unit-fronts"),
        PuttingBackStage.Start => new RowHeading("Start in stages", "start"),
        _ => new RowHeading("Before power", "before-power"),
    };

    private static string TitleOf(ArchiveRecord of) => $"{RecordNames.For(of)}: cables to reconnect";

    private PageHead Head(ArchiveRecord of, PageLocation location) => pageFactory.Head(
        "reconnection-list", location, TitleOf(of), $"The order in which to reconnect the cables of {of.Id}: {OrderRules.ConnectingOrder}.",
        new Link("Plans", location.To("plans/index.html")), new Link(ReconnectionPlan.Kind.Title, location.To(ReconnectionPlan.Kind.Page)));

    // What all ends wait for that are not connected is said once, above the steps.
    private static ImmutableArray<Precondition> SharedBy(ImmutableArray<PuttingBackStep> steps)
    {
        var left = steps.Where(step => step.State.Status != StepStatus.Done && step.Action == StepAction.Connect).ToList();
        return left.Count < 2
            ? []
            : [.. left[0].State.WaitsFor.Where(each => left.TrueForAll(step => step.State.WaitsFor.Any(other => IsSame(each, other))))];
    }

    private static bool IsSame(Precondition one, Precondition other) =>
        one.Kind == other.Kind && one.Frame == other.Frame && one.Count == other.Count && one.Cables.SequenceEqual(other.Cables);

    private HtmlFragment StateOf(StepState state, ImmutableArray<Precondition> shared, PageLocation location)
    {
        if (state.Status == StepStatus.Waiting)
        {
            ImmutableArray<Precondition> own = [.. state.WaitsFor.Where(each => !shared.Any(other => IsSame(each, other)))];
            if (own.IsEmpty) return HtmlFragment.None;
            state = state with { WaitsFor = own };
        }

        return TextPartWriter.Write(StateText.Parts(state), archive, location);
    }

    private ReconnectionRow RowOf(PuttingBackStep step, ImmutableArray<Precondition> shared, PageLocation location)
    {
        var row = new ReconnectionRow(step.Number, LinkOf(step, location), Phrase.Heading(ActionText.Describe(step.Action)))
        {
            IsDone = step.State.Status == StepStatus.Done,
            State = StateOf(step.State, step.Action == StepAction.Connect ? shared : [], location),
            Warnings = [.. plan.Warnings.Of(step).Select(warning => WarningLine.Create(warning, archive, location))],
        };
        if (step.Laid is not { } laid) return row;

        // An end that is connected first, then where the cable comes from; a cable that is laid from end to end.
        var ends = step.Ends.Take(
            1).Concat(laid.Ends.Where(end => step.Ends.IsEmpty || end != step.Ends[0])).Select(end => PlaceOf(end, location)).ToList();
        while (ends.Count < 2) ends.Add(new ReconnectionPlace(RowBuilder.NotKnown, "", null, false));
        return row with
        {
            IsCable = true,
            Lays = step.Lays,
            Prints = RowBuilder.PrintOn(laid.Cable),
            Kind = rowBuilder.KindOf(laid.Cable, location),
            Ends = [.. ends],
            Length = step.Lays ? formatter.Format(laid.Cable.Length) : null,
            Trays = step.Lays ? [.. (step.Run?.Trays ?? []).Select(tray => rowBuilder.Record(tray, location))] : [],
        };
    }

    private ReconnectionPlace PlaceOf(RefittedEnd end, PageLocation location) => new(
        rowBuilder.At(end.End, location),
        end.End.Seen?.Connector?.Value ?? "",
        end.Photo is { } photo ? RecordLink.To(photo, location) with { Name = "" } : null,
        end.StaysFast);
}
