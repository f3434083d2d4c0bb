using System.Collections.Immutable;
using Archive.Drawings.Charts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Connections;
using Archive.Records.Wording;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Graph;

namespace Archive.Site.PlanPages;

/// <summary>Makes the pages of what is connected to what.</summary>
/// <param name="lists">The lists that pages link into.</param>
internal sealed class WiringPages(PageFactory pageFactory, RowBuilder rowBuilder, SharedIndexes lists, WiringPlan plan)
{
    private const int MostListed = 200;
    private const int MostNeighbours = 24;
    private const string Nowhere = "elsewhere";

    private readonly PagedList<FramePair> _pairs = new(
        PairsInOrder(plan),
        $"{WiringPlan.Kind.Folder}/pairs/index.html",
        $"{WiringPlan.Kind.Folder}/pairs",
        pair => $"{pair.A} and {pair.B}")
    {
        Key = pair => $"{pair.A} {pair.B}",
    };

    private readonly PagedList<FrameWiring> _frames = new(
        plan.Frames, $"{WiringPlan.Kind.Folder}/frames/index.html", $"{WiringPlan.Kind.Folder}/frames", of => of.Frame.Id)
    {
        Key = of => of.Frame.Id,
    };

    /// <summary>The charts, the pairs, the frames.</summary>
    public IEnumerable<OutputFile> All()
    {
        yield return pageFactory.Page(WiringPlan.Kind.Page, View);
        for (var number = 1; number <= _pairs.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(
                _pairs.Path(sheet), location => new WiringPairsPage(Head("wiring-pairs", "Frame to frame", location))
                {
                    Pairs = [.. _pairs.RowsOf(sheet).Select(pair => Line(pair.A, pair.B, pair.Cables.Length, location))],
                    Sheet = _pairs.On(sheet, location),
                });
        }

        for (var number = 1; number <= _frames.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(
                _frames.Path(sheet), location => new WiringFramesPage(Head("wiring-frames", "Frame by frame", location))
                {
                    Frames = [.. _frames.RowsOf(sheet).Select(of => Line(of, location))],
                    Sheet = _frames.On(sheet, location),
                });
        }
    }

    private WiringPage View(PageLocation location)
    {
        var modules = plan.Graph.ModulePairs.OrderByDescending(pair => pair.Count).ThenBy(
            pair => pair.A, StringComparer.Ordinal).ThenBy(pair => pair.B, StringComparer.Ordinal).ToList();
        var isByFrame = plan.Frames.Count(of => of.Cables > 0) <= ConnectionMatrix.Most;
        return new WiringPage(pageFactory.PlanHead(WiringPlan.Kind, location))
        {
            Summary = plan.Summary,
            Chart = isByFrame ? FrameChart(location) : RowChart(location),
            ChartOf = isByFrame ? "frames" : "rows",
            ModuleChart = ModuleChart(modules, location),
            Modules = [.. modules.Take(MostListed).Select((pair, index) => Line(pair, index, location))],
            MoreModules = Math.Max(0, modules.Count - MostListed),
            Pairs = new Link("The same as a table, pair by pair", location.To(_pairs.First)),
            Frames = new Link("Frame by frame", location.To(_frames.First)),
            Leaving = [.. plan.Graph.Leaving.Take(MostListed).Select(reading => rowBuilder.Cable(reading.Cable, location))],
            MoreLeaving = Math.Max(0, plan.Graph.Leaving.Length - MostListed),
            Unreached = [.. plan.Graph.Unreached.Take(MostListed).Select(frame => RecordLink.To(frame, location))],
            MoreUnreached = Math.Max(0, plan.Graph.Unreached.Length - MostListed),
        };
    }

    private PageHead Head(string template, string title, PageLocation location) => pageFactory.Head(
        template, location, $"{WiringPlan.Kind.Title}: {title.ToLowerInvariant()}", $"{title}: how many cables run where.",
        new Link("Plans", location.To("plans/index.html")), new Link(WiringPlan.Kind.Title, location.To(WiringPlan.Kind.Page)));

    private HtmlFragment FrameChart(PageLocation location)
    {
        var shown = plan.Frames.Where(of => of.Cables > 0).Select(of => of.Frame).ToList();
        var numbers = shown.Select((frame, index) => (frame.Id, index))
            .ToDictionary(pair => pair.Id, pair => pair.index, StringComparer.Ordinal);
        var cells = plan.Graph.FramePairs.Where(pair => numbers.ContainsKey(pair.A) && numbers.ContainsKey(pair.B))
            .Select(pair =>
                Cell(numbers[pair.A], numbers[pair.B], pair.Cables.Length, lists.Cables.PairHref(pair.A, pair.B, location)?.Value));
        return ConnectionMatrix.Draw(
            [.. shown.Select(frame => new MatrixItem(
                frame.Id, frame.Title == frame.Id ? frame.Id : $"{frame.Id}, {frame.Title}", location.To(frame).Value, RowOf(frame.Id)))],
            InOrder(cells), "Cables between frames, in walking order");
    }

    private HtmlFragment RowChart(PageLocation location)
    {
        var rows = plan.Frames.Where(of => of.Cables > 0).Select(of => RowOf(of.Frame.Id)).Distinct(StringComparer.Ordinal).ToList();
        var numbers = rows.Select((row, index) => (row, index)).ToDictionary(pair => pair.row, pair => pair.index, StringComparer.Ordinal);
        var hall = plan.HallLayouts.AsFound is { } layout ? location.To(layout.Hall).Value : null;
        var cells = plan.Graph.FramePairs.Where(pair => numbers.ContainsKey(RowOf(pair.A)) && numbers.ContainsKey(RowOf(pair.B)))
            .GroupBy(pair => Pair(numbers[RowOf(pair.A)], numbers[RowOf(pair.B)]))
            .Select(pairs => Cell(pairs.Key.A, pairs.Key.B, pairs.Sum(pair => pair.Cables.Length), null));
        return ConnectionMatrix.Draw(
            [.. rows.Select(row => new MatrixItem(row, row, row == Nowhere ? null : hall, row))],
            InOrder(cells),
            "Cables between rows of frames");
    }

    private HtmlFragment ModuleChart(List<ModulePair> pairs, PageLocation location)
    {
        var modules = pairs.SelectMany(pair => new[] { pair.A ?? "", pair.B ?? "" }).Distinct().Order(StringComparer.Ordinal).ToList();
        if (modules.Count < 2) return HtmlFragment.None;
        var numbers = modules
            .Select((module, index) => (module, index))
            .ToDictionary(pair => pair.module, pair => pair.index, StringComparer.Ordinal);
        var cells = pairs.Select((pair, index) => Cell(
            numbers[pair.A ?? ""],
            numbers[pair.B ?? ""],
            pair.Count,
            index < MostListed ? location.To(location.Path, AnchorOf(index)).Value : null));
        return ConnectionMatrix.Draw(
            [.. modules.Select(module => new MatrixItem(
                NameOf(module), NameOf(module), module.Length == 0 ? null : lists.Frames.ModuleHref(module, location)?.Value, module))],
            InOrder(cells), "Cables between modules");
    }

    private static ImmutableArray<MatrixCell> InOrder(IEnumerable<MatrixCell> cells) =>
        [.. cells.OrderBy(cell => cell.A).ThenBy(cell => cell.B)];

    private static MatrixCell Cell(int one, int other, int count, string? href) =>
        new(Math.Min(one, other), Math.Max(one, other), count, href);

    private static (int A, int B) Pair(int one, int other) => (Math.Min(one, other), Math.Max(one, other));

    private static string AnchorOf(int pair) => $"modules-{Phrase.Number(pair + 1)}";

    private static string NameOf(string? module) => string.IsNullOrEmpty(module) ? "no module" : module;

    private string RowOf(string frame) => plan.HallLayouts.AsFound is { } hall && plan.HallLayouts
        .PlacementsOf(frame)
        .FirstOrDefault(placement => placement.Layout == hall) is { } stands ? stands.Row.Row.Id.Value : Nowhere;

    private ModuleLine Line(ModulePair pair, int index, PageLocation location)
    {
        return new ModuleLine(AnchorOf(index), LinkTo(pair.A), pair.A == pair.B ? null : LinkTo(pair.B), pair.Count);

        Link LinkTo(string? module) => new(NameOf(module), module is null ? null : lists.Frames.ModuleHref(module, location));
    }

    private PairLine Line(string one, string other, int count, PageLocation location) => new(
        rowBuilder.Record(one, location),
        one == other ? null : rowBuilder.Record(other, location),
        new Link(Phrase.Count(count), lists.Cables.PairHref(one, other, location)));

    private FrameWiringLine Line(FrameWiring of, PageLocation location) => new(
        RecordLink.To(of.Frame, location), of.Cables, of.Within, of.Leaving,
        [.. of.Neighbours.Take(MostNeighbours).Select(pair => Line(of.Frame.Id, pair.Other, pair.Count, location))],
            Math.Max(0, of.Neighbours.Length - MostNeighbours));

    // As one walks past the frames; an id that no frame has comes last.
    private static List<FramePair> PairsInOrder(WiringPlan plan)
    {
        var turns = plan.Frames
            .Select((of, index) => (of.Frame.Id, index))
            .ToDictionary(pair => pair.Id, pair => pair.index, StringComparer.Ordinal);
        return
        [
            .. plan.Graph.FramePairs.Select(pair => Turn(pair.A) <= Turn(pair.B) ? pair : pair with { A = pair.B, B = pair.A })
                .OrderBy(pair => Turn(pair.A))
                .ThenBy(pair => Turn(pair.B))
                .ThenBy(pair => pair.A, StringComparer.Ordinal)
                .ThenBy(pair => pair.B, StringComparer.Ordinal),
        ];

        int Turn(string frame) => turns.GetValueOrDefault(frame, int.MaxValue);
    }
}
