using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Safety;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.PlanPages;

/// <summary>All re-connection lists.</summary>
public sealed record ReconnectionPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>What can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The lists of displays, by id.</summary>
    public required ImmutableArray<ListLine> Displays { get; init; }

    /// <summary>The lists of frames, in walking order: those of this sheet.</summary>
    public required ImmutableArray<ListLine> Frames { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A list among others.</summary>
/// <param name="List">The list, named as what it is of.</param>
/// <param name="Cables">How many cables it has.</param>
/// <param name="TooShort">How many of them are too short for a hall.</param>
/// <param name="Disagreeing">How many of them bear print that disagrees with what was seen.</param>
/// <param name="Knotted">How many of them are part of tangles.</param>
/// <param name="Unseen">How many ends of theirs, at a frame those there, no photo shows.</param>
public sealed record ListLine(RecordLink List, int Cables, int TooShort, int Disagreeing, int Knotted, int Unseen);

/// <summary>A re-connection list: of a frame or of a display.</summary>
public sealed record ReconnectionListPage(PageHead Head) : PageView(Head)
{
    /// <summary>The frame or display.</summary>
    public required RecordLink Of { get; init; }

    /// <summary>Whether it is a frame's: each cable then begins here.</summary>
    public required bool IsFrames { get; init; }

    /// <summary>What it holds, in sentences.</summary>
    public required ImmutableArray<string> Says { get; init; }

    /// <summary>How many are connected, and up to when the record says so; empty without events.</summary>
    public required ImmutableArray<string> Progress { get; init; }

    /// <summary>What every end waits for that is not connected; nothing if they have nothing in common.</summary>
    public required HtmlFragment WaitFor { get; init; }

    /// <summary>What can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>The frame from the rear, where most cables end, before anything was moved.</summary>
    public required ImmutableArray<Thumbnail> Photos { get; init; }

    /// <summary>The document of all steps.</summary>
    public required Link Whole { get; init; }

    /// <summary>Cables that are too short for the hall, on the last sheet; empty on the others.</summary>
    public required ImmutableArray<ShortLine> TooShort { get; init; }

    /// <summary>The steps of this sheet, stage by stage.</summary>
    public required ImmutableArray<RowGroup<ReconnectionRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A cable that is too short for the hall.</summary>
/// <param name="Cable">The cable.</param>
/// <param name="Warnings">By how much, and where.</param>
public sealed record ShortLine(RecordLink Cable, ImmutableArray<WarningLine> Warnings);

/// <summary>A step of putting back.</summary>
/// <param name="Step">Its number in this list, from 1.</param>
/// <param name="Of">The cable or frame.</param>
/// <param name="Action">What is done, in a few words.</param>
public sealed record ReconnectionRow(int Step, RecordLink Of, string Action)
{
    /// <summary>Whether it is a step on a cable; else on a frame.</summary>
    public bool IsCable { get; init; }

    /// <summary>Whether the cable is laid in it, from its first end; else one end is connected.</summary>
    public bool Lays { get; init; }

    /// <summary>
    /// What is to be read on the cable, exactly as written: its label, else the tags at its ends; empty where there is nothing.
    /// </summary>
    public ImmutableArray<string> Prints { get; init; } = [];

    /// <summary>The cable's kind; null where that is not known.</summary>
    public Link? Kind { get; init; }

    /// <summary>The cable's ends: the one that is connected, or that it is laid from, first; at least two.</summary>
    public ImmutableArray<ReconnectionPlace> Ends { get; init; } = [];

    /// <summary>The cable's length, where it is laid; else null.</summary>
    public FactText? Length { get; init; }

    /// <summary>The trays that it is laid through; empty where none are known.</summary>
    public ImmutableArray<RecordLink> Trays { get; init; } = [];

    /// <summary>Whether the record says that it was done.</summary>
    public required bool IsDone { get; init; }

    /// <summary>When it was done, or what it waits for that others do not; nothing if that is all.</summary>
    public required HtmlFragment State { get; init; }

    /// <summary>What to watch out for, the worst first.</summary>
    public required ImmutableArray<WarningLine> Warnings { get; init; }
}

/// <summary>Where an end is connected again.</summary>
/// <param name="At">The place.</param>
/// <param name="Connector">Its connector; empty where that is not said.</param>
/// <param name="Photo">The photo that shows the end as it was; null where none does.</param>
/// <param name="StaysFast">Whether the cable was coiled and lashed here, and never taken off.</param>
public sealed record ReconnectionPlace(EndPlace At, string Connector, RecordLink? Photo, bool StaysFast);
