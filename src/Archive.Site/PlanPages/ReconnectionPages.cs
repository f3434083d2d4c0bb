using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Progress;
using Archive.Plans.Reconnecting;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Wording;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;
using Archive.Wiring.Safety;

namespace Archive.Site.PlanPages;

/// <summary>Makes the pages of the re-connection lists.</summary>
/// <param name="plan">The lists.</param>
/// <param name="stepLists">Makes the document of all steps of a list.</param>
internal sealed class ReconnectionPages(ArchiveModel archive, CrossReferences references, PageFactory pageFactory, FactFormatter formatter, RowBuilder rowBuilder, ReconnectionPlan plan, StepListPages stepLists)
{
    private const int MostPhotos = 3;

    /// <summary>The list of lists, and each list.</summary>
    public IEnumerable<OutputFile> All() =>
        plan.Sets.SelectMany(set => ListOf(set.Display, plan.Within(set)))
            .Concat(plan.Frames.SelectMany(frame => ListOf(frame, plan.Order.At(frame.Id))))
            .Concat(Indexes());

    /// <summary>Where the list of a frame or display stands.</summary>
    /// <param name="of">A frame with cables, or a display whose needs can be met.</param>
    public static string PathOf(ArchiveRecord of) => $"{FolderOf(of)}/index.html";

    private static string FolderOf(ArchiveRecord of) => $"{ReconnectionPlan.Kind.Folder}/{of.RecordKind.Folder()}/{of.Id}";

    private IEnumerable<OutputFile> Indexes()
    {
        var summary = plan.Summary;
        var sheets = new PagedList<Frame>([.. plan.Frames], ReconnectionPlan.Kind.Page, ReconnectionPlan.Kind.Folder, frame => frame.Id);
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(sheets.Path(sheet), place => new ReconnectionPage(pageFactory.PlanHead(ReconnectionPlan.Kind, place))
            {
                Summary = summary,
                Cautions = plan.Cautions,
                Displays = sheet > 1 ? [] : [.. plan.Sets.Select(set => Line(set.Display, plan.Within(set), place))],
                Frames = [.. sheets.RowsOf(sheet).Select(frame => Line(frame, plan.Order.At(frame.Id), place))],
                Sheet = sheets.On(sheet, place),
            });
        }
    }

    private ListLine Line(ArchiveRecord of, ImmutableArray<RefittedCable> cables, PageLocation place)
    {
        var warnings = plan.Order.List(cables).Select(step => plan.Warnings.Of(step).Select(warning => warning.Kind).ToHashSet()).ToList();
        return new ListLine(
            RecordLink.To(of, place) with { Href = place.To(PathOf(of)) }, cables.Length,
            warnings.Count(kinds => kinds.Contains(WarningKind.TooShort)), warnings.Count(kinds => kinds.Contains(WarningKind.LabelDisagrees)), cables.Count(laid => laid.Cycle is not null),
            cables.Sum(laid => laid.Ends.Count(end => end.Photo is null && (of is not Frame || end.End.At.Frame == of.Id))));
    }

    private IEnumerable<OutputFile> ListOf(ArchiveRecord of, ImmutableArray<RefittedCable> cables)
    {
        var steps = plan.Order.List(cables);
        var shared = SharedBy(steps);
        var progress = plan.Progress(steps);
        var rows = new GroupedRows<ConnectionStep>([.. steps.Select(step => (HeadingOf(step), step))], PathOf(of), FolderOf(of), row => row.Row.Laid.Cable.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), place => new ReconnectionListPage(Head(of, place))
            {
                Of = RecordLink.To(of, place),
                IsFrames = of is Frame,
                Says = ReconnectionPlan.Says(cables),
                Progress = progress,
                WaitFor = shared.IsEmpty ? HtmlFragment.None : TextPartWriter.Write(StateText.Parts(StepState.From(shared)), archive, place),
                Cautions = plan.CautionsOf(cables),
                Photos = [.. references.PhotosOf[of.Id].Where(photo => of is Frame && photo.View is { Value: PhotoView.Rear }).Take(MostPhotos).Select(photo => rowBuilder.Thumb(photo, place))],
                Groups = rows.On(sheet, step => RowOf(step, of is Frame ? of.Id : null, shared, place)),
                Whole = new Link("All steps, to print or one by one", place.To(StepListPages.PathOf(FolderOf(of)))),
                Sheet = rows.Sheet(sheet, place),
            });
        }

        foreach (var file in stepLists.All(Whole(of, cables, steps, progress))) yield return file;
    }

    private StepList<ConnectionStep> Whole(ArchiveRecord of, ImmutableArray<RefittedCable> cables, ImmutableArray<ConnectionStep> steps, ImmutableArray<string> progress) => new(
        TitleOf(of), PathOf(of), FolderOf(of), place => [new Link("Plans", place.To("plans/index.html")), new Link(ReconnectionPlan.Kind.Title, place.To(ReconnectionPlan.Kind.Page))])
    {
        Says = [StepListPages.Left(steps.Count(step => step.State.Status == StepStatus.Done), steps.Length, "connected"), $"{Phrase.Sentence(Phrase.Heading(OrderRules.ConnectingOrder))}", .. progress],
        Things = "Cable",
        Steps = [.. steps.Where(step => step.State.Status != StepStatus.Done).Select(step => (HeadingOf(step), step))],
        Row = (step, place) => new ListedStep(step.Number, RecordLink.To(step.Laid.Cable, place), RowBuilder.PrintOn(step.Laid.Cable), [.. Does(step, of is Frame ? of.Id : null, place)]),
        Cautions = _ => plan.CautionsOf(cables),
        Warnings = plan.Warnings.Of,
        WaitsFor = step => step.State.WaitsFor,
    };

    private IEnumerable<CrewText> Does(ConnectionStep step, string? here, PageLocation place)
    {
        var ends = step.Laid.Ends.OrderByDescending(end => here is not null && end.End.At.Frame == here).ToList();
        for (var end = 0; end < ends.Count; end++)
        {
            yield return new CrewText(end == 0 ? "Connect at" : "and", rowBuilder.At(ends[end].End, place)) { Connector = ends[end].End.Seen?.Connector?.Value ?? "" };
            if (ends[end].StaysFast) yield return new CrewText("(left coiled here)", null);
        }

        if (ends.Count < 2) yield return new CrewText(ends.Count == 0 ? "Neither end is recorded: ask" : "; the other end is not recorded: ask", null);
        yield return new CrewText(".", null);
        yield return new CrewText(step.Laid.Cable.Length is { } length ? $"{Phrase.Heading(formatter.Text.Format(length.Value))} long." : "Length unknown.", null);
    }

    private static RowHeading HeadingOf(ConnectionStep step) => step.Laid.Role switch
    {
        CableRole.Earth => new RowHeading("Earth", "earth"),
        CableRole.Feeder => new RowHeading("Feeders", "feeders"),
        CableRole.Unknown => new RowHeading("Kind not recorded: may be feeders", "unknown"),
        _ => new RowHeading("Signal and control", "signal"),
    };

    private static string TitleOf(ArchiveRecord of) => $"{RecordNames.For(of)}: cables to reconnect";

    private PageHead Head(ArchiveRecord of, PageLocation place) => pageFactory.Head(
        "reconnection-list", place, TitleOf(of), $"The order in which to reconnect the cables of {of.Id}: {OrderRules.ConnectingOrder}.",
        new Link("Plans", place.To("plans/index.html")), new Link(ReconnectionPlan.Kind.Title, place.To(ReconnectionPlan.Kind.Page)));

    // What all steps but earths wait for that were not done is said once, above them.
    private static ImmutableArray<Precondition> SharedBy(ImmutableArray<ConnectionStep> steps)
    {
        var left = steps.Where(step => step.State.Status != StepStatus.Done && step.Laid.Role != CableRole.Earth).ToList();
        return left.Count < 2 ? [] : [.. left[0].State.WaitsFor.Where(each => left.TrueForAll(step => step.State.WaitsFor.Any(other => IsSame(each, other))))];
    }

    private static bool IsSame(Precondition one, Precondition other) => one.Kind == other.Kind && one.Frame == other.Frame && one.Count == other.Count && one.Cables.SequenceEqual(other.Cables);

    private HtmlFragment StateOf(StepState state, ImmutableArray<Precondition> shared, PageLocation place)
    {
        if (state.Status == StepStatus.Waiting)
        {
            ImmutableArray<Precondition> own = [.. state.WaitsFor.Where(each => !shared.Any(other => IsSame(each, other)))];
            if (own.IsEmpty) return HtmlFragment.None;
            state = state with { WaitsFor = own };
        }

        return TextPartWriter.Write(StateText.Parts(state), archive, place);
    }

    private ReconnectionRow RowOf(ConnectionStep step, string? here, ImmutableArray<Precondition> shared, PageLocation place)
    {
        var cable = step.Laid.Cable;
        var ends = step.Laid.Ends.OrderByDescending(end => here is not null && end.End.At.Frame == here).Select(end => PlaceOf(end, place)).ToList();
        while (ends.Count < 2) ends.Add(new ReconnectionPlace(RowBuilder.NotKnown, "", null, false));
        return new ReconnectionRow(step.Number, RecordLink.To(cable, place), RowBuilder.PrintOn(cable), rowBuilder.KindOf(cable, place), [.. ends], formatter.Format(cable.Length))
        {
            IsDone = step.State.Status == StepStatus.Done,
            State = StateOf(step.State, step.Laid.Role == CableRole.Earth ? [] : shared, place),
            Warnings = [.. plan.Warnings.Of(step).Select(warning => WarningLine.Create(warning, archive, place))],
        };
    }

    private ReconnectionPlace PlaceOf(RefittedEnd end, PageLocation place) => new(
        rowBuilder.At(end.End, place), end.End.Seen?.Connector?.Value ?? "", end.Photo is { } photo ? RecordLink.To(photo, place) with { Name = "" } : null, end.StaysFast);
}
