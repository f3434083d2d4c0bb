using System.Collections.Immutable;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>The cables that print alone cannot rebuild, frame by frame as one walks past them: each is tagged by hand before it is pulled.</summary>
internal sealed class HandTagsPlan : Plan
{
    /// <summary>What it is.</summary>
    public static new PlanKind Kind { get; } = new(
        "hand-tags", "Hand-tag list", "Cables to tag by hand before they are pulled, frame by frame in walking order.", (basis, _) => new HandTagsPlan(basis));

    private static readonly DataShape<HandTag> Shape = new DataShape<HandTag>()
        .Text("frame", "id of the frame at which one comes by it first; empty where no end is known", tag => tag.At?.Frame)
        .Text("at", "address of its end there", tag => tag.At?.ToString())
        .List("others", "addresses of its other known ends", tag => tag.Others.Select(at => at.ToString()))
        .Text("cable", "id of the cable", tag => tag.Reading.Cable.Id)
        .Text("label", "its label, letter for letter", tag => tag.Reading.Cable.Label?.Value)
        .Text("verdict", "contradicts, misread, unlabelled or unknown", tag => tag.Reading.Verdict.Word())
        .Text("why", "why print does not do", tag => tag.Reading.Why)
        .Text("perhaps", "the likeliest label or tag that misread print may have been; empty where nothing near would do", tag => tag.Best?.Reading.Label)
        .List("perhaps_means", "the addresses that it would mean", tag => (tag.Best?.Means ?? []).Select(at => at.ToString()))
        .Text("perhaps_why", "how it differs from what was recorded, and how it stands to what was seen", tag => tag.Best?.Why)
        .Count("candidates", "how many such labels there are", tag => tag.Reading.Verdict == Verdict.Misread ? tag.Reading.Candidates.Length + tag.Reading.MoreCandidates : null)
        .Text("fate", "what becomes of the cable: coil, remove, sever, leave", tag => tag.Reading.Cable.Fate is { } fate ? Words.Of(fate.Value) : null);

    private readonly PlanBasis _basis;
    private readonly ImmutableArray<HandTag> _tags;

    private HandTagsPlan(PlanBasis basis)
        : base(Kind)
    {
        _basis = basis;
        var walk = (basis.Standings.AsFound?.Standing ?? []).Select(standing => standing.Frame.Id);
        _tags = HandTagList.Of(basis.Record, basis.Readings, walk).Tags;
    }

    public override ImmutableArray<string> Summary =>
    [
        $"{Words.Count(_tags.Length)} of {Words.Count(_basis.Readings.Cables.Length, "cable")} are to be tagged by hand before they are pulled; {Words.Count(_basis.Readings.Rebuildable)} can be rebuilt from their print.",
        .. _tags.Count(tag => tag.Best is not null) is var near and > 0
            ? [$"For {Words.Count(near, "label that was", "labels that were")} misread the likeliest reading is given: look again before you write the tag."]
            : ImmutableArray<string>.Empty,
    ];

    internal override ImmutableArray<DataTable> Tables => [new DataTable<HandTag>("plans/hand-tags", "a cable to tag by hand before it is pulled, in walking order", Shape, _tags)];

    internal override ImmutableArray<string> Shown => ["at", "cable", "label", "why", "perhaps"];

    internal override IEnumerable<SiteFile> Pages(Desk desk)
    {
        var summary = Summary;
        var rows = _tags.Select(tag => (HeadingOf(tag), tag)).ToImmutableArray();
        var grouped = new GroupedRows<HandTag>(rows, Kind.Page, Kind.Folder, row => row.Heading.Heading);
        for (var number = 1; number <= grouped.Sheets.Count; number++)
        {
            var sheet = number;
            yield return desk.Page(grouped.Sheets.Path(sheet), place => new HandTagsPage(desk.PlanHead(Kind, place))
            {
                Summary = summary,
                Groups = grouped.On(sheet, tag => RowOf(tag, desk, place)),
                Sheet = grouped.Sheet(sheet, place),
            });
        }
    }

    // The end here first. What both ends were seen to be need not be said again.
    private static HandTagRow RowOf(HandTag tag, Desk desk, PagePlace place)
    {
        var row = desk.Rows.Cable(tag.Reading.Cable, place);
        var ends = row.Ends.OrderByDescending(end => tag.At is { } at && end.Text == at.ToString()).ToImmutableArray();
        var perhaps = tag.Best is { } best ? desk.Labels.Candidate(best, place) : null;
        return new HandTagRow(
            row with { Ends = ends }, desk.Prose.Line(Words.Sentence(tag.Reading.Why), place), tag.Best?.Fit == CandidateFit.AllEnds ? perhaps! with { Means = [] } : perhaps);
    }

    private RowHeading HeadingOf(HandTag tag) => tag.At is not { } at
        ? new RowHeading("At no known frame", "nowhere")
        : new RowHeading(_basis.Record.FrameAt(at) is { } frame && frame.Title != frame.Id ? $"{frame.Id}: {frame.Title}" : at.Frame, "at-" + PagePaths.Anchor(at.Frame)) { Short = at.Frame };
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
/// <param name="Perhaps">What its misread print may have been, the likeliest; null where nothing near would do.</param>
public sealed record HandTagRow(CableRow Row, Markup Why, CandidateView? Perhaps);
