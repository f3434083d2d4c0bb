using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.PlanPages;

/// <summary>What is connected to what.</summary>
public sealed record WiringPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>Frame by frame, drawn; of very many frames, row by row; none where even those are too many.</summary>
    public required HtmlFragment Chart { get; init; }

    /// <summary>What lines and columns of the chart are: frames or rows.</summary>
    public required string ChartOf { get; init; }

    /// <summary>Module by module, drawn; none where there are too many.</summary>
    public required HtmlFragment ModuleChart { get; init; }

    /// <summary>Modules and the number of cables between them, most first.</summary>
    public required ImmutableArray<ModuleLine> Modules { get; init; }

    /// <summary>How many pairs of modules there are beyond those listed.</summary>
    public required int MoreModules { get; init; }

    /// <summary>The table that says the same as the chart of frames.</summary>
    public required Link Pairs { get; init; }

    /// <summary>Each frame with what it is connected to.</summary>
    public required Link Frames { get; init; }

    /// <summary>Cables of which an end is not known; of very many, the first.</summary>
    public required ImmutableArray<CableRow> Leaving { get; init; }

    /// <summary>How many there are beyond those listed.</summary>
    public required int MoreLeaving { get; init; }

    /// <summary>Frames that no cable is known to reach; of very many, the first.</summary>
    public required ImmutableArray<RecordLink> Unreached { get; init; }

    /// <summary>How many there are beyond those listed.</summary>
    public required int MoreUnreached { get; init; }
}

/// <summary>Two modules and the cables between them.</summary>
/// <param name="A">One module.</param>
/// <param name="B">The other; null for cables within one.</param>
/// <param name="Count">How many cables.</param>
public sealed record ModuleLine(string Anchor, Link A, Link? B, int Count);

/// <summary>Pairs of frames and the cables between them.</summary>
public sealed record WiringPairsPage(PageHead Head) : PageView(Head)
{
    /// <summary>The pairs of this sheet, in walking order.</summary>
    public required ImmutableArray<PairLine> Pairs { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>Two frames and the cables between them.</summary>
/// <param name="A">One frame.</param>
/// <param name="B">The other; null for cables within one.</param>
/// <param name="Cables">How many cables, leading to their list.</param>
public sealed record PairLine(RecordLink A, RecordLink? B, Link Cables);

/// <summary>Each frame with what it is connected to.</summary>
public sealed record WiringFramesPage(PageHead Head) : PageView(Head)
{
    /// <summary>The frames of this sheet, in walking order.</summary>
    public required ImmutableArray<FrameWiringLine> Frames { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A frame with what it is connected to.</summary>
/// <param name="Cables">Cables that are known to end there.</param>
/// <param name="Within">Those that stay within it.</param>
/// <param name="Leaving">Those whose other end is not known.</param>
/// <param name="Neighbours">Frames that cables run to from there, with their number, most first; of very many, the first.</param>
/// <param name="MoreNeighbours">How many there are beyond those listed.</param>
public sealed record FrameWiringLine(
    RecordLink Frame, int Cables, int Within, int Leaving, ImmutableArray<PairLine> Neighbours, int MoreNeighbours);
