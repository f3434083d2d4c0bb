using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.PlanPages;

/// <summary>Which cables reach: the halls.</summary>
public sealed record ReachPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>The halls that are judged.</summary>
    public required ImmutableArray<ReachHall> Halls { get; init; }
}

/// <summary>A hall on the page of all.</summary>
/// <param name="Cables">The page of its cables.</param>
/// <param name="Frames">The page of its frames.</param>
/// <param name="Counts">How many cables there are of each verdict.</param>
/// <param name="Plan">Its floor plan: which frames have short cables, and where those run.</param>
/// <param name="Key">What the patterns of its frames mean.</param>
public sealed record ReachHall(
    RecordLink Hall, Link Cables, Link Frames, ImmutableArray<FactLine> Counts, HtmlFragment Plan, ImmutableArray<LayerKey> Key);

/// <summary>A line of the key of a plan's layer.</summary>
/// <param name="Sample">The pattern.</param>
public sealed record LayerKey(HtmlFragment Sample, string Says);

/// <summary>A stretch of a tray that short cables would run through.</summary>
/// <param name="Where">Where it begins and ends along the tray.</param>
/// <param name="Count">How many of them are too short.</param>
/// <param name="By">By how much, in total.</param>
public sealed record StretchRow(RecordLink Tray, string Where, int Count, string By);

/// <summary>Which cables reach in one hall.</summary>
public sealed record ReachHallPage(PageHead Head) : PageView(Head)
{
    public required RecordLink Hall { get; init; }

    public required string Summary { get; init; }

    /// <summary>The same frame by frame.</summary>
    public required Link Frames { get; init; }

    /// <summary>The floor plan with the short cables marked; none on further sheets.</summary>
    public required HtmlFragment Plan { get; init; }

    /// <summary>The script that knows the ways of its cables; null where there is none.</summary>
    public required Href? Ways { get; init; }

    /// <summary>What the patterns of its frames mean.</summary>
    public required ImmutableArray<LayerKey> Key { get; init; }

    /// <summary>Where short cables would run, the fullest stretches first; none on further sheets.</summary>
    public required ImmutableArray<StretchRow> Stretches { get; init; }

    /// <summary>How many more stretches there are.</summary>
    public required int MoreStretches { get; init; }

    /// <summary>The cables of this sheet by verdict, the worst first.</summary>
    public required ImmutableArray<RowGroup<ReachRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A cable in a hall.</summary>
/// <param name="Margin">What is left over or missing; where that is not known, why.</param>
/// <param name="Needed">How long it must be.</param>
public sealed record ReachRow(CableRow Row, string Margin, string Needed);

/// <summary>Which frames of a hall have cables that do not reach.</summary>
public sealed record ReachFramesPage(PageHead Head) : PageView(Head)
{
    public required RecordLink Hall { get; init; }

    /// <summary>The same cable by cable.</summary>
    public required Link Cables { get; init; }

    /// <summary>The frames of this sheet, row by row as they stand.</summary>
    public required ImmutableArray<RowGroup<ReachFrameRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A frame in a hall.</summary>
/// <param name="Served">The trays that serve it and how far across they are, in words.</param>
/// <param name="DoNot">Cables that are too short or have no route.</param>
/// <param name="ShortBy">By how much the short ones are short in total; empty where none is.</param>
/// <param name="Metre">What moving it by a metre to the best side would change; empty where no side helps.</param>
/// <param name="Unknown">Cables of which it is not known.</param>
/// <param name="Reach">Cables that reach.</param>
/// <param name="Worst">The cable that is worst off, or null.</param>
/// <param name="By">How it stands with that one.</param>
public sealed record ReachFrameRow(
    RecordLink Frame, string Served, int DoNot, string ShortBy, string Metre, int Unknown, int Reach, RecordLink? Worst, string By);
