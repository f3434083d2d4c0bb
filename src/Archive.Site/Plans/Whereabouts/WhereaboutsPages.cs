using System.Collections.Immutable;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>Where things are now.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record WhereaboutsPage(PageHead Head) : PageView(Head)
{
    /// <summary>What comes of it, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>The things of this sheet that something happened to: what is missing first, then place by place.</summary>
    public required ImmutableArray<RowGroup<WhereaboutsRow>> Groups { get; init; }

    /// <summary>Which sheet this is.</summary>
    public required Sheet Sheet { get; init; }
}

/// <summary>A thing and where it is.</summary>
/// <param name="Of">The thing.</param>
/// <param name="Stands">How it stands, in words.</param>
/// <param name="Place">Its place in words; empty where none is recorded.</param>
/// <param name="Journey">What happened to it, in order.</param>
public sealed record WhereaboutsRow(RecordLink Of, string Stands, string Place, ImmutableArray<EventLine> Journey);

/// <summary>Makes the pages of whereabouts.</summary>
/// <param name="desk">What every page is written at.</param>
/// <param name="kind">The plan.</param>
/// <param name="summary">What comes of it.</param>
internal sealed class WhereaboutsPages(Desk desk, PlanKind kind, ImmutableArray<string> summary)
{
    /// <summary>The sheets.</summary>
    /// <param name="all">All journeys.</param>
    public IEnumerable<SiteFile> All(ImmutableArray<Journey> all)
    {
        var rows = new GroupedRows<Journey>(
            [.. all.Where(journey => journey.Events.Length > 0).Select(journey => (Heading: HeadingOf(journey), journey)).GroupBy(each => each.Heading).OrderBy(group => RankOf(group.First().journey)).ThenBy(group => group.Key.Anchor, StringComparer.Ordinal).SelectMany(group => group)],
            kind.Page, kind.Folder, row => row.Row.Of.Id, size: 200);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return desk.Page(rows.Sheets.Path(sheet), place => new WhereaboutsPage(desk.PlanHead(kind, place))
            {
                Summary = sheet == 1 ? summary : [],
                Groups = rows.On(sheet, journey => RowOf(journey, place)),
                Sheet = rows.Sheets.On(sheet, place),
            });
        }
    }

    private WhereaboutsRow RowOf(Journey journey, PagePlace place) => new(
        RecordLink.To(journey.Of, place),
        WordsOf(journey.Situation) + (journey.IsDamaged ? ", harmed" : ""),
        journey.Place ?? "",
        [.. journey.Events.Select(happened => desk.Rows.Event(happened, place) with { Of = [], More = 0 })]);

    private static int RankOf(Journey journey) => journey switch
    {
        { NeverArrived: true } => 0,
        { Situation: Situation.Missing } => 1,
        { NeverLoaded.Length: > 0 } => 2,
        { Hall: not null } => 3,
        _ => 4,
    };

    private RowHeading HeadingOf(Journey journey) => RankOf(journey) switch
    {
        0 => new RowHeading("Loaded and never arrived", "never-arrived"),
        1 => new RowHeading("Looked for and not found", "missing"),
        2 => new RowHeading("Arrived and never loaded", "never-loaded"),
        3 => new RowHeading($"In {desk.Record.Find(journey.Hall!)?.Title ?? journey.Hall}", "in-" + PagePaths.Anchor(journey.Hall!)),
        _ => new RowHeading("At no recorded place", "nowhere"),
    };

    private static string WordsOf(Situation stand) => stand switch
    {
        Situation.AsFound => "as found",
        Situation.OnTheRoad => "on the road",
        _ => stand.ToString().ToLowerInvariant(),
    };
}
