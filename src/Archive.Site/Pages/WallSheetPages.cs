using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Drawings.Sheets;
using Archive.Halls.Layout;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Storage.Output;
using UnitsNet;

namespace Archive.Site.Pages;

/// <summary>The wall sheets of a hall.</summary>
public sealed record WallSheetsPage(PageHead Head) : PageView(Head)
{
    public required RecordLink Hall { get; init; }

    /// <summary>The sheets, in the order of their numbers.</summary>
    public required ImmutableArray<WallSheetLine> Sheets { get; init; }
}

/// <summary>A wall sheet in the list of all.</summary>
/// <param name="Sheet">What it shows.</param>
/// <param name="Paper">The paper that it is printed on.</param>
/// <param name="Scale">Its scale, such as <c>1:50</c>.</param>
public sealed record WallSheetLine(string Number, Link Sheet, string Paper, string Scale);

/// <summary>A wall sheet.</summary>
public sealed record WallSheetPage(PageHead Head) : PageView(Head)
{
    /// <summary>What it shows.</summary>
    public required string Title { get; init; }

    /// <summary>The paper that it is printed on.</summary>
    public required string Paper { get; init; }

    /// <summary>Its scale, such as <c>1:50</c>.</summary>
    public required string Scale { get; init; }

    /// <summary>The list of all sheets of its hall.</summary>
    public required Link All { get; init; }

    /// <summary>The sheet.</summary>
    public required HtmlFragment Drawing { get; init; }

    /// <summary>The frames that it shows; of very many, the first.</summary>
    public required ImmutableArray<RecordLink> Frames { get; init; }

    /// <summary>The trays that it shows; of very many, the first.</summary>
    public required ImmutableArray<RecordLink> Trays { get; init; }
}

/// <summary>Makes the sheets of halls that hang on a wall: the plan, each row, the trays of each height; at a true scale.</summary>
internal sealed class WallSheetPages(SiteContents site, PageFactory pageFactory, FactFormatter formatter, PageDrawings drawings)
{
    // A hall whose trays hang at more heights than this has sheets for the fullest of them.
    private const int MostLevels = 12;
    private const int MostListed = 500;

    /// <summary>The list of a hall's sheets, and the sheets; none for a hall of which nothing can be drawn.</summary>
    public IEnumerable<OutputFile> Create(HallLayout layout)
    {
        var sheets = Sheets(layout);
        if (sheets.IsEmpty) yield break;
        yield return pageFactory.Page(ListOf(layout.Hall), location => new WallSheetsPage(pageFactory.Head(
            "wall-sheets",
            location,
            $"Wall sheets: {layout.Hall.Title}",
            $"{Phrase.Count(sheets.Length, "drawing")} of {layout.Hall.Title} at a true scale, on A3 and A1.",
            Trail(layout.Hall, location)))
        {
            Hall = RecordLink.To(layout.Hall, location),
            Sheets =
            [
                .. sheets.Select((sheet, i) => new WallSheetLine(
                    Phrase.Number(i + 1),
                    new Link(sheet.Of.Title, location.To(PathOf(layout.Hall, sheet))),
                    sheet.Paper.Name,
                    $"1:{Phrase.Number(sheet.Scale)}")),
            ],
        });
        for (var i = 0; i < sheets.Length; i++)
        {
            var (sheet, number) = (sheets[i], $"{Phrase.Number(i + 1)} of {Phrase.Count(sheets.Length)}");
            yield return pageFactory.Page(PathOf(layout.Hall, sheet), location => View(layout, sheet, number, location));
        }
    }

    /// <summary>The way to the list of a hall's sheets; null where it has none.</summary>
    public Link? LinkTo(HallLayout layout, PageLocation location) =>
        Sheets(layout).IsEmpty
            ? null
            : new Link("Wall sheets: drawings to print at a true scale, on A3 and A1", location.To(ListOf(layout.Hall)));

    private static string ListOf(Hall hall) => $"halls/{hall.Id}/sheets/index.html";

    private static string PathOf(Hall hall, Sheet sheet) =>
        $"halls/{hall.Id}/sheets/{sheet.Paper.Name.ToLowerInvariant()}-{sheet.Of.Name}/index.html";

    private static ImmutableArray<Link> Trail(Hall hall, PageLocation location) =>
    [
        new Link("Halls", location.To(PagePaths.Index(RecordKind.Hall))),
        new Link(hall.Title, location.To(hall)),
    ];

    private WallSheetPage View(HallLayout layout, Sheet sheet, string number, PageLocation location)
    {
        var statement = site.Record.Statement;
        var text = new WallSheetText(
            Phrase.OneLine(statement.Title?.Value ?? ""),
            Phrase.OneLine(statement.Custodian?.Value ?? ""),
            Phrase.OneLine(layout.Hall.Title),
            sheet.Of.Title,
            number);
        return new WallSheetPage(pageFactory.Head(
            "wall-sheet",
            location,
            $"{sheet.Of.Title}, {sheet.Paper.Name}: {layout.Hall.Title}",
            $"{sheet.Of.Title} of {layout.Hall.Title} at 1:{Phrase.Number(sheet.Scale)} on {sheet.Paper.Name}.",
            [.. Trail(layout.Hall, location), new Link("Wall sheets", location.To(ListOf(layout.Hall)))]))
        {
            Title = sheet.Of.Title,
            Paper = sheet.Paper.Name,
            Scale = $"1:{Phrase.Number(sheet.Scale)}",
            All = new Link($"All sheets of {layout.Hall.Title}", location.To(ListOf(layout.Hall))),
            Drawing = sheet.Draw(text, location),
            Frames = [.. sheet.Of.Frames.Take(MostListed).Select(frame => RecordLink.To(frame, location))],
            Trays = [.. sheet.Of.Trays.Take(MostListed).Select(tray => RecordLink.To(tray, location))],
        };
    }

    // On A1 only what is larger there than on A3.
    private ImmutableArray<Sheet> Sheets(HallLayout layout) =>
    [
        .. Subjects(layout).SelectMany(subject => PaperFormat.All
            .Select(paper => (Paper: paper, Scale: subject.ScaleOn(paper)))
            .Where(each => each.Scale is not null)
            .DistinctBy(each => each.Scale)
            .Select(each => new Sheet(
                subject, each.Paper, each.Scale!.Value, (text, location) => subject.Draw(each.Paper, text, location)))),
    ];

    private IEnumerable<Subject> Subjects(HallLayout layout)
    {
        yield return PlanOf(layout, "plan", "Floor plan", null);
        foreach (var row in layout.RowsById.Values.OrderBy(row => layout.Rows.IndexOf(row)))
        {
            yield return new Subject(
                "fronts-" + PagePaths.Anchor(row.Row.Id.Value),
                $"{Phrase.NameOf(row.Row)}, fronts",
                [.. row.Frames.Select(placed => placed.Frame)],
                [],
                paper => RowSheet.ScaleOf(row, paper),
                (paper, text, location) => RowSheet.Draw(row, paper, text, formatter.Text.Units, frame => location.To(frame).Value));
        }

        foreach (var level in Levels(layout))
        {
            yield return PlanOf(
                layout,
                $"trays-{Phrase.Number((int)Math.Round(level.Key.Millimeters))}",
                $"Trays at {formatter.Text.Format(level.Key)}",
                level.Select(tray => tray.Id).ToFrozenSet(StringComparer.Ordinal));
        }
    }

    private static IEnumerable<IGrouping<Length, Tray>> Levels(HallLayout layout) => layout.Trays
        .Where(tray => tray.Height is { Value.Millimeters: > 0 and < 1e6 })
        .GroupBy(tray => Length.FromMillimeters(Math.Round(tray.Height!.Value.Value.Millimeters)))
        .OrderByDescending(level => level.Count())
        .ThenBy(level => level.Key)
        .Take(MostLevels)
        .OrderBy(level => level.Key);

    private Subject PlanOf(HallLayout layout, string name, string title, FrozenSet<string>? trays) => new(
        name,
        title,
        [.. layout.ByFrame.Values.Select(placed => placed.Frame).OrderBy(frame => frame.Id, StringComparer.Ordinal)],
        [.. layout.Trays.Where(tray => trays?.Contains(tray.Id) != false)],
        paper => HallSheet.ScaleOf(layout, paper),
        (paper, text, location) => drawings.OnWall(layout, paper, text, trays, location));

    private sealed record Subject(
        string Name,
        string Title,
        ImmutableArray<Frame> Frames,
        ImmutableArray<Tray> Trays,
        Func<PaperFormat, int?> ScaleOn,
        Func<PaperFormat, WallSheetText, PageLocation, HtmlFragment> Draw);

    private sealed record Sheet(Subject Of, PaperFormat Paper, int Scale, Func<WallSheetText, PageLocation, HtmlFragment> Draw);
}
