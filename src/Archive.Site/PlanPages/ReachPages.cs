using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Drawings.Halls;
using Archive.Halls.Reach;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans;
using Archive.Plans.Reach;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.PlanPages;

/// <summary>Makes the pages of the plan of reach.</summary>
internal sealed class ReachPages(
    SiteContents site,
    PageFactory pageFactory,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    PageDrawings drawings,
    PlanKind kind,
    ImmutableArray<string> summary)
{
    private const int MostStretches = 12;

    private UnitFormatter Text => formatter.Text;

    /// <summary>The page of all halls, and for each hall those of its cables and of its frames.</summary>
    public IEnumerable<OutputFile> All(ImmutableArray<HallReach> halls)
    {
        yield return pageFactory.Page(kind.Page, location => new ReachPage(pageFactory.PlanHead(kind, location))
        {
            Summary = summary,
            Halls = [.. halls.Select(reach => new ReachHall(
                RecordLink.To(reach.Layout.Hall, location),
                CableByCable(reach, location),
                FrameByFrame(reach, location),
                Counts(reach),
                PlanOf(reach, location),
                KeyOf(reach)))],
        });
        foreach (var page in halls.SelectMany(reach => Cables(reach).Concat(Frames(reach)))) yield return page;
    }

    private string CablesOf(HallReach reach) => $"{kind.Folder}/{reach.Layout.Hall.Id}/index.html";

    private string FramesOf(HallReach reach) => $"{kind.Folder}/{reach.Layout.Hall.Id}/frames/index.html";

    private Link CableByCable(HallReach reach, PageLocation location) =>
        new("Cable by cable, worst first", location.To(CablesOf(reach)));

    private Link FrameByFrame(HallReach reach, PageLocation location) =>
        new("Frame by frame, and what a metre would change", location.To(FramesOf(reach)));

    private IEnumerable<OutputFile> Cables(HallReach reach)
    {
        var says = ReachSentences.Sentence(reach, site.Basis);
        var rows = new GroupedRows<CableReach>(
            [.. reach.Cables.Select(cable => (HeadingOf(cable), cable))], CablesOf(reach), $"{kind.Folder}/{reach.Layout.Hall.Id}", row =>
                BeginsWith(row.Row), SheetSizes.Cables, row => row.Cable.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(
                rows.Sheets.Path(sheet), location => new ReachHallPage(Head("reach-hall", reach, says, location, "Which cables reach"))
                {
                    Hall = RecordLink.To(reach.Layout.Hall, location),
                    Summary = says,
                    Frames = FrameByFrame(reach, location),
                    Plan = sheet == 1 ? PlanOf(reach, location) : HtmlFragment.None,
                    Ways = sheet == 1 ? drawings.WaysIn(reach.Layout, location) : null,
                    Key = sheet == 1 ? KeyOf(reach) : [],
                    Stretches = sheet == 1 ? StretchesOf(reach, location) : [],
                    MoreStretches = sheet == 1 ? Math.Max(0, reach.ShortStretches.Length - MostStretches) : 0,
                    Groups = rows.On(sheet, cable => new ReachRow(
                        rowBuilder.Cable(cable.Cable, location),
                        ReachSentences.Margin(cable, Text),
                        cable.Needed is { } needed ? Text.FormatComputed(needed) : "")),
                    Sheet = rows.Sheet(sheet, location),
                });
        }
    }

    private IEnumerable<OutputFile> Frames(HallReach reach)
    {
        var says = ReachSentences.Sentence(reach, site.Basis);
        var rows = new GroupedRows<FrameReach>(
            [.. reach.Frames.Select(frame =>
                (new RowHeading(Phrase.NameOf(frame.Placed.Row), "row-" + PagePaths.Anchor(frame.Placed.Row.Id.Value)), frame))],
            FramesOf(reach),
            $"{kind.Folder}/{reach.Layout.Hall.Id}/frames",
            row => row.Row.Placed.Frame.Id,
            key: row => row.Placed.Frame.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), location =>
                new ReachFramesPage(Head("reach-frames", reach, says, location, "Which frames have cables that do not reach"))
                {
                    Hall = RecordLink.To(reach.Layout.Hall, location),
                    Cables = CableByCable(reach, location),
                    Groups = rows.On(sheet, frame => RowOf(reach, frame, location)),
                    Sheet = rows.Sheet(sheet, location),
                });
        }
    }

    private PageHead Head(string template, HallReach reach, string says, PageLocation location, string title) => pageFactory.Head(
        template, location, $"{title}: {reach.Layout.Hall.Title}", says,
        new Link("Plans", location.To("plans/index.html")), new Link(kind.Title, location.To(kind.Page)));

    private static RowHeading HeadingOf(CableReach cable) =>
        cable.IsHere ? new RowHeading(ReachSentences.Heading(cable.Verdict), cable.Verdict.Word())
        : cable.First is null ? new RowHeading("Both ends unknown", "no-end")
        : new RowHeading("At a frame that is not in this hall", "elsewhere");

    // By its margin a reader knows which sheet to open; where there is none, by its heading.
    private string BeginsWith(CableReach cable) =>
        $"{cable.Cable.Id}, {(cable.Margin is null && cable.AtLeast is null ? HeadingOf(cable).Heading.ToLowerInvariant() : ReachSentences.Margin(cable, Text))}";

    private static ImmutableArray<FactLine> Counts(HallReach reach) =>
        [.. Enum.GetValues<ReachVerdict>()
            .Select(verdict => new FactLine(ReachSentences.Heading(verdict), new FactText(Phrase.Count(reach.Count(verdict), "cable"))))];

    private ReachFrameRow RowOf(HallReach reach, FrameReach frame, PageLocation location)
    {
        var served = frame.Drops is not { } drops ? "size or place not recorded"
            : drops.IsServed ? string.Join(
                ", ",
                drops.Serving.Select(serving => $"{serving.Tray.Id}, {Text.Format(UnitsNet.Length.FromMillimeters(serving.Across))} away"))
            : "no tray near enough";
        var worst = ReachShapes.Worst(frame);
        return new ReachFrameRow(
            RecordLink.To(frame.Placed.Frame, location),
            served,
            frame.DoNotReach,
            frame.Shortage > UnitsNet.Length.Zero ? Text.FormatComputed(frame.Shortage) : "",
            ReachSentences.Shift(frame, reach.BestShiftOf(frame), Text),
            frame.Count(ReachVerdict.Unknown),
            frame.Count(ReachVerdict.Reaches),
            worst is null ? null : RecordLink.To(worst.Cable, location),
            worst is null ? "" : ReachSentences.Margin(worst, Text));
    }

    private HtmlFragment PlanOf(HallReach reach, PageLocation location)
    {
        var layer = drawings.LayersOf(reach.Layout).FirstOrDefault(layer => layer.Name == "reach")?.Layer;
        var helped = reach.Frames.Select(frame => (frame.Placed.Frame.Id, Shift: reach.BestShiftOf(frame)))
            .Where(each => each.Shift is not null);
        return drawings.Plan(reach.Layout, location, options => options with
        {
            Layer = layer,
            Stretches = [.. reach.ShortStretches.Select(stretch => new PlanStretch(stretch.Line, stretch.Cables))],
            StretchesAs = "short cables, how many",
            Arrows = helped.ToFrozenDictionary(each => each.Id, each => each.Shift!.To, StringComparer.Ordinal),
            ArrowsAs = $"better off {Text.Format(FrameShift.Step)} that way",
            Says = ReachSentences.Worst(
                [.. reach.Cables.Where(cable => cable is { IsHere: true, Verdict: ReachVerdict.TooShort or ReachVerdict.NoWay })], Text),
        });
    }

    // Only what the plan shows.
    private ImmutableArray<LayerKey> KeyOf(HallReach reach)
    {
        if (drawings.LayersOf(reach.Layout).FirstOrDefault(layer => layer.Name == "reach")?.Layer is not { } layer) return [];
        var shown = layer.Marks.Values.Select(mark => mark.Class).ToHashSet();
        return [.. layer.Classes.Where((_, i) => shown.Contains(i))
            .Select(one => new LayerKey(PlanPatterns.Sample(one.Pattern), one.Says))];
    }

    // The fullest; all are in the data.
    private ImmutableArray<StretchRow> StretchesOf(HallReach reach, PageLocation location) =>
    [
        .. reach.ShortStretches
            .OrderByDescending(stretch => stretch.Cables)
            .ThenByDescending(stretch => stretch.Shortage)
            .Take(MostStretches)
            .Select(stretch => new StretchRow(
                RecordLink.To(stretch.Tray, location),
                $"{Text.FormatComputed(stretch.From)} to {Text.FormatComputed(stretch.To)}",
                stretch.Cables,
                Text.FormatComputed(stretch.Shortage))),
    ];
}
