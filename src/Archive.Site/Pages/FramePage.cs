using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Safety;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.Pages;

/// <summary>The page of a frame.</summary>
public sealed record FramePage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people call it.</summary>
    public required string Name { get; init; }

    /// <summary>Its module, leading to the module's frames; null where it has none.</summary>
    public required Link? Module { get; init; }

    /// <summary>Size, weight, power and the like.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>What can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>Where it is, how it is, and what comes next.</summary>
    public required HtmlFragment Status { get; init; }

    /// <summary>Where it stood and may stand; the as-found hall first.</summary>
    public required ImmutableArray<FramePlaceView> Stands { get; init; }

    /// <summary>Its face with its positions, drawn; none without positions.</summary>
    public required HtmlFragment Elevation { get; init; }

    /// <summary>Its front with units, ports and far ends, as large as the page allows; none where sizes or heights are not
    /// recorded.</summary>
    public required HtmlFragment Front { get; init; }

    /// <summary>The same from behind.</summary>
    public required HtmlFragment Rear { get; init; }

    /// <summary>Photos that show it, by view.</summary>
    public required ImmutableArray<PhotoGroup> Photos { get; init; }

    /// <summary>The photos of the frames to either side in its row.</summary>
    public required ImmutableArray<Link> PhotosBeside { get; init; }

    /// <summary>Its views that were photographed on several days.</summary>
    public required ImmutableArray<PhotoPair> Pairs { get; init; }

    /// <summary>Cables that end here; of very many, the first sheet.</summary>
    public required ImmutableArray<CableRow> Cables { get; init; }

    /// <summary>How many cables end here.</summary>
    public required int CableCount { get; init; }

    /// <summary>The list of its cables in the order to connect them again; null without cables.</summary>
    public required Link? Reconnection { get; init; }

    /// <summary>The steps of taking out that it alone needs; null where there is no such list.</summary>
    public required Link? TakingOut { get; init; }

    /// <summary>The sheets of its cables.</summary>
    public required PageOfList Sheet { get; init; }

    /// <summary>Its positions, as the record lists them.</summary>
    public required ImmutableArray<PositionRow> Positions { get; init; }

    /// <summary>What was in each of its slots; empty for a frame without slots and units.</summary>
    public required ImmutableArray<SlotRow> Slots { get; init; }

    /// <summary>How many units were found in it.</summary>
    public required int UnitCount { get; init; }

    /// <summary>Frames that it needs to run.</summary>
    public required ImmutableArray<NeedLine> Needs { get; init; }

    /// <summary>Frames that need it.</summary>
    public required ImmutableArray<RecordLink> NeededBy { get; init; }

    /// <summary>Displays that name it.</summary>
    public required ImmutableArray<RecordLink> WantedBy { get; init; }

    public required HtmlFragment About { get; init; }

    /// <summary>Condition as found.</summary>
    public required HtmlFragment Condition { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>What happened to it since.</summary>
    public required ImmutableArray<EventLine> Events { get; init; }

    /// <summary>What is still to be recorded of it.</summary>
    public required ImmutableArray<string> Lacks { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>A frame's place in a hall.</summary>
/// <param name="IsAsFound">Whether it was found there.</param>
/// <param name="Row">The row, in words, with its place in it.</param>
/// <param name="Previous">The frame before it in the row.</param>
/// <param name="Next">The frame behind it.</param>
/// <param name="Neighbours">The frame among its neighbours, seen from the front.</param>
/// <param name="Plan">A small plan with the frame marked; none in a great record.</param>
public sealed record FramePlaceView(
    RecordLink Hall, bool IsAsFound, string Row, RecordLink? Previous, RecordLink? Next, HtmlFragment Neighbours, HtmlFragment Plan);

/// <summary>A position of a frame as a line of a table.</summary>
/// <param name="Id">Its name on the frame.</param>
/// <param name="Anchor">Its anchor on the frame's page.</param>
/// <param name="FromFloor">Height of its lower edge above the floor.</param>
/// <param name="Ports">Its ports; empty where none is declared.</param>
/// <param name="Cables">How many cables end there.</param>
public sealed record PositionRow(
    string Id, string Anchor, FactText Holds, FactText FromFloor, FactText Height, string Ports, int Cables, HtmlFragment Note)
{
    /// <summary>Its ports one by one; empty where none is declared and no cable ends at one.</summary>
    public ImmutableArray<PortView> PortViews { get; init; } = [];

    /// <summary>To the first of its cables in the table of cables, or to the sheet that holds it; null where none ends there.</summary>
    public Link? CablesAt { get; init; }
}
