using System.Collections.Immutable;
using Archive.Records;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>The cables that print alone cannot rebuild, frame by frame as one walks past them: each is tagged by hand before it is pulled.</summary>
internal sealed class HandTagsPlan : Plan
{
    /// <summary>What it is.</summary>
    public static new PlanKind Kind { get; } = new(
        "hand-tags", "Hand-tag list", "Cables to tag by hand before they are pulled, frame by frame in walking order.", (basis, _) => new HandTagsPlan(basis));

    private static readonly DataShape<HandTag> Shape = new DataShape<HandTag>()
        .Text("frame", "id of the frame at which it is tagged; empty where no end is known", tag => tag.At?.Frame)
        .Text("at", "address of the end that is tagged", tag => tag.At?.ToString())
        .Text("cable", "id of the cable", tag => tag.Reading.Cable.Id)
        .Text("label", "its label, letter for letter", tag => tag.Reading.Cable.Label?.Value)
        .Text("verdict", "contradicts, misread, unlabelled or unknown", tag => tag.Reading.Verdict.Word())
        .Text("why", "why print does not do", tag => tag.Reading.Why);

    private readonly PlanBasis _basis;
    private readonly ImmutableArray<HandTag> _tags;

    private HandTagsPlan(PlanBasis basis)
        : base(Kind)
    {
        _basis = basis;
        var walk = (basis.Standings.AsFound?.Standing ?? []).Select((standing, index) => (standing.Frame.Id, index))
            .DistinctBy(pair => pair.Id).ToDictionary(pair => pair.Id, pair => pair.index, StringComparer.Ordinal);
        _tags =
        [
            .. basis.Readings.Cables.Where(reading => !reading.IsRebuildable).Select(reading => new HandTag(reading, reading.Ends.IsEmpty ? null : reading.Ends[0].At))
                .OrderBy(tag => tag.At is null ? int.MaxValue : walk.GetValueOrDefault(tag.At.Value.Frame, int.MaxValue - 1))
                .ThenBy(tag => tag.At?.Frame, StringComparer.Ordinal)
                .ThenBy(tag => tag.Reading.Cable.Id, StringComparer.Ordinal),
        ];
    }

    public override ImmutableArray<string> Summary =>
        [$"{Words.Count(_tags.Length)} of {Words.Count(_basis.Readings.Cables.Length, "cable")} are to be tagged by hand; {Words.Count(_basis.Readings.Rebuildable)} can be rebuilt from their print."];

    internal override ImmutableArray<DataTable> Tables => [new DataTable<HandTag>("plans/hand-tags", "a cable to tag by hand before it is pulled, in walking order", Shape, _tags)];

    internal override ImmutableArray<string> Shown => ["at", "cable", "label", "verdict", "why"];

    internal override IEnumerable<SiteFile> Pages(Desk desk)
    {
        var rows = _tags.Select(tag => (HeadingOf(tag), tag)).ToImmutableArray();
        var grouped = new GroupedRows<HandTag>(rows, Kind.Page, Kind.Folder, row => row.Heading.Heading);
        for (var number = 1; number <= grouped.Sheets.Count; number++)
        {
            var sheet = number;
            yield return desk.Page(grouped.Sheets.Path(sheet), place => new HandTagsPage(desk.PlanHead(Kind, place))
            {
                Summary = Summary,
                Groups = grouped.On(sheet, tag => new HandTagRow(desk.Rows.Cable(tag.Reading.Cable, place), tag.Reading.Why)),
                Sheet = grouped.Sheets.On(sheet, place),
            });
        }
    }

    private RowHeading HeadingOf(HandTag tag) => tag.At is not { } at
        ? new RowHeading("At no known frame", "nowhere")
        : new RowHeading(_basis.Record.FrameAt(at) is { } frame && frame.Title != frame.Id ? $"{frame.Id}: {frame.Title}" : at.Frame, "at-" + PagePaths.Anchor(at.Frame));

    private sealed record HandTag(CableReading Reading, Address? At);
}

/// <summary>The hand-tag list.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record HandTagsPage(PageHead Head) : PageView(Head)
{
    /// <summary>What comes of it, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>The cables of this sheet, by frame in walking order.</summary>
    public required ImmutableArray<RowGroup<HandTagRow>> Groups { get; init; }

    /// <summary>Which sheet this is.</summary>
    public required Sheet Sheet { get; init; }
}

/// <summary>A cable to tag by hand.</summary>
/// <param name="Row">The cable.</param>
/// <param name="Why">Why its print does not do.</param>
public sealed record HandTagRow(CableRow Row, string Why);
