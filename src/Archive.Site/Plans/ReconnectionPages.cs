using System.Collections.Immutable;
using Archive.Records;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>Makes the pages of the re-connection lists.</summary>
/// <param name="archive">The archive.</param>
/// <param name="references">What refers to what.</param>
/// <param name="pageFactory">Makes pages and their heads.</param>
/// <param name="formatter">Writes facts with their units and evidence.</param>
/// <param name="rowBuilder">Makes rows of tables.</param>
/// <param name="plan">The lists.</param>
internal sealed class ReconnectionPages(AsFound archive, CrossReferences references, PageFactory pageFactory, Figures formatter, RowMaker rowBuilder, ReconnectionPlan plan)
{
    private const int MostNamed = 12;
    private const int MostPhotos = 3;

    /// <summary>The list of lists, and each list.</summary>
    public IEnumerable<SiteFile> All() =>
        plan.Sets.SelectMany(set => ListOf(set.Display, plan.Within(set)))
            .Concat(plan.Frames.SelectMany(frame => ListOf(frame, plan.Order.At(frame.Id))))
            .Concat(Indexes());

    /// <summary>Where the list of a frame or display stands.</summary>
    /// <param name="of">A frame with cables, or a display whose needs can be met.</param>
    public static string PathOf(ArchiveRecord of) => $"{FolderOf(of)}/index.html";

    private static string FolderOf(ArchiveRecord of) => $"{ReconnectionPlan.Kind.Folder}/{of.RecordKind.Folder()}/{of.Id}";

    private IEnumerable<SiteFile> Indexes()
    {
        var summary = plan.Summary;
        var sheets = new Sheets<Frame>([.. plan.Frames], ReconnectionPlan.Kind.Page, ReconnectionPlan.Kind.Folder, frame => frame.Id);
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(sheets.Path(sheet), place => new ReconnectionPage(pageFactory.PlanHead(ReconnectionPlan.Kind, place))
            {
                Summary = summary,
                Cautions = [Cautions.EarthFirst, Cautions.DirectCurrent, Cautions.Overhead],
                Displays = sheet > 1 ? [] : [.. plan.Sets.Select(set => Line(set.Display, plan.Within(set), place))],
                Frames = [.. sheets.RowsOf(sheet).Select(frame => Line(frame, plan.Order.At(frame.Id), place))],
                Sheet = sheets.On(sheet, place),
            });
        }
    }

    private static ListLine Line(ArchiveRecord of, ImmutableArray<Relaid> cables, PagePlace place) => new(
        RecordLink.To(of, place) with { Href = place.To(PathOf(of)) }, cables.Length, cables.Count(laid => laid.Knot is not null),
        cables.Sum(laid => laid.Ends.Count(end => end.Photo is null && (of is not Frame || end.End.At.Frame == of.Id))));

    private IEnumerable<SiteFile> ListOf(ArchiveRecord of, ImmutableArray<Relaid> cables)
    {
        var sheets = new Sheets<Relaid>(cables, PathOf(of), FolderOf(of), laid => laid.Cable.Id);
        var listed = new Lazy<HashSet<string>>(() => [.. cables.Select(laid => laid.Cable.Id)]);
        for (var number = 1; number <= sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(sheets.Path(sheet), place => new ReconnectionListPage(Head(of, place))
            {
                Of = RecordLink.To(of, place),
                IsFrames = of is Frame,
                Says = $"{Words.Count(cables.Length, "cable")}, the lowest first.",
                Cautions = CautionsOf(cables),
                Photos = [.. references.PhotosOf[of.Id].Where(photo => of is Frame && photo.View is { Value: PhotoView.Rear }).Take(MostPhotos).Select(photo => rowBuilder.Thumb(photo, place))],
                Rows = [.. sheets.RowsOf(sheet).Select((laid, index) => RowOf(laid, ((sheet - 1) * sheets.Size) + index + 1, of is Frame ? of.Id : null, listed.Value, place))],
                Sheet = sheets.On(sheet, place),
            });
        }
    }

    private PageHead Head(ArchiveRecord of, PagePlace place) => pageFactory.Head(
        "reconnection-list", place, $"{Naming.Of(of)}: cables to lay back", $"The order to lay the cables of {of.Id} back, the lowest first.",
        new Link("Plans", place.To("plans/index.html")), new Link(ReconnectionPlan.Kind.Title, place.To(ReconnectionPlan.Kind.Page)));

    private ImmutableArray<Caution> CautionsOf(IEnumerable<Relaid> cables) =>
    [
        .. cables.Select(laid => laid.Cable.Kind is { } kind ? archive.Find<CableKind>(kind.Value)?.Family?.Value : null).Distinct().Order()
            .Select(family => family == CableFamily.Earth ? Cautions.EarthFirst : Cautions.For(family)).OfType<Caution>(),
        Cautions.Overhead,
    ];

    private RelaidRow RowOf(Relaid laid, int step, string? here, HashSet<string> listed, PagePlace place)
    {
        var cable = laid.Cable;
        var ends = laid.Ends.OrderByDescending(end => here is not null && end.End.At.Frame == here).Select(end => PlaceOf(end, place)).ToList();
        while (ends.Count < 2) ends.Add(new RelaidPlace(RowMaker.NotKnown, "", null, false));
        return new RelaidRow(step, RecordLink.To(cable, place), cable.Label?.Value ?? "", rowBuilder.KindOf(cable, place), [.. ends], formatter.Of(cable.Length))
        {
            Knot = [.. (laid.Knot?.Cables ?? []).Where(other => other.Id != cable.Id).Take(MostNamed).Select(other => RecordLink.To(other, place))],
            After = [.. cable.LiesOver.Select(under => archive.Find<Cable>(under.Value)).OfType<Cable>().Where(under => !under.IsWithdrawn && !listed.Contains(under.Id)).DistinctBy(under => under.Id).Take(MostNamed).Select(under => RecordLink.To(under, place))],
            Hitch = cable.Fate?.Value switch { Fate.Sever => "It was cut: mend or replace it.", Fate.Leave => "It was left behind: another is needed.", _ => "" },
        };
    }

    private RelaidPlace PlaceOf(RelaidEnd end, PagePlace place) => new(
        rowBuilder.At(end.End, place), end.End.Seen?.Connector?.Value ?? "", end.Photo is { } photo ? RecordLink.To(photo, place) with { Name = "" } : null, end.StaysFast);
}
