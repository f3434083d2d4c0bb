using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Plans;
using Archive.Plans.Progress;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Journeys;

namespace Archive.Site.PlanPages;

/// <summary>Where things are now.</summary>
public sealed record WhereaboutsPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>How many are where; leading to where they are listed. None on further sheets.</summary>
    public required ImmutableArray<FactLine> Counts { get; init; }

    /// <summary>The things of this sheet that something happened to: what is missing first, then place by place.</summary>
    public required ImmutableArray<RowGroup<WhereaboutsRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>Things that went the same way together, and where they are.</summary>
/// <param name="Of">The things.</param>
/// <param name="Stands">How they stand, in words.</param>
/// <param name="Place">Their place in words; empty where none is recorded.</param>
/// <param name="Journey">What happened to them, in order.</param>
public sealed record WhereaboutsRow(ImmutableArray<RecordLink> Of, string Stands, string Place, ImmutableArray<EventLine> Journey);

/// <summary>Makes the pages of whereabouts.</summary>
internal sealed class WhereaboutsPages(
    ArchiveModel archive, PageFactory pageFactory, RowBuilder rowBuilder, PlanKind kind, ImmutableArray<string> summary)
{
    public IEnumerable<OutputFile> All(ImmutableArray<Journey> all)
    {
        var headed = all.Where(journey => journey.Events.Length > 0)
            .Select(journey => (Heading: HeadingOf(journey), Journey: journey))
            .GroupBy(each => each.Heading)
            .OrderBy(group => RankOf(group.First().Journey))
            .ThenBy(group => group.Key.Anchor, StringComparer.Ordinal)
            .ToList();
        var rows = new GroupedRows<Journey>(
            [.. headed.SelectMany(group => group.GroupBy(each => each.Journey, SameWay.Instance).SelectMany(same => same))],
            kind.Page, kind.Folder, row => $"{row.Heading.Heading}: {row.Row.Of.Id}", key: row => row.Of.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), location => new WhereaboutsPage(pageFactory.PlanHead(kind, location))
            {
                Summary = sheet == 1 ? [summary[0]] : [],
                Counts = sheet == 1 ? [.. headed.Select(group =>
                    new FactLine(group.Key.Heading, new FactText(Phrase.Count(group.Count())), rows.To(group.Key, location)))] : [],
                Groups = [.. rows.On(sheet, journey => journey).Select(group => Together(group, location))],
                Sheet = rows.Sheets.On(sheet, location),
            });
        }
    }

    private RowGroup<WhereaboutsRow> Together(RowGroup<Journey> group, PageLocation location) => new(
        group.Heading,
        group.Anchor,
        group.IsContinued,
        [.. group.Rows.GroupBy(journey => journey, SameWay.Instance).Select(same => RowOf(same, location))]);

    private WhereaboutsRow RowOf(IGrouping<Journey, Journey> same, PageLocation location) => new(
        [.. same.Select(journey => RecordLink.To(journey.Of, location))],
        SituationText.Describe(same.Key.Situation) + (same.Key.IsDamaged ? ", damaged" : ""),
        same.Key.Place ?? "",
        [.. same.Key.Events.Select(archiveEvent => rowBuilder.Event(archiveEvent, location) with { Of = [], More = 0 })]);

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
        0 => new RowHeading("Loaded, but never arrived", "never-arrived"),
        1 => new RowHeading("Searched for, not found", "missing"),
        2 => new RowHeading("Arrived, but never loaded", "never-loaded"),
        3 => new RowHeading($"In {archive.Find(journey.Hall!)?.Title ?? journey.Hall}", "in-" + PagePaths.Anchor(journey.Hall!)),
        _ => new RowHeading("Place not recorded", "nowhere"),
    };

    // Things of which the same is recorded: the same events brought them to the same place.
    private sealed class SameWay : IEqualityComparer<Journey>
    {
        public static SameWay Instance { get; } = new();

        public bool Equals(Journey? one, Journey? other) =>
            one is null || other is null ? one is null && other is null
            : one.Situation == other.Situation
                && one.Hall == other.Hall
                && one.Place == other.Place
                && one.Events.AsSpan().SequenceEqual(other.Events.AsSpan(), ReferenceEqualityComparer.Instance);

        public int GetHashCode(Journey journey)
        {
            var hash = default(HashCode);
            hash.Add(journey.Situation);
            foreach (var archiveEvent in journey.Events) hash.Add(archiveEvent.Id, StringComparer.Ordinal);
            return hash.ToHashCode();
        }
    }
}
