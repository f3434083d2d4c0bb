using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Drawings.Halls;

/// <summary>What a floor plan shows, and where its parts lead.</summary>
public sealed record FloorPlanOptions
{
    /// <summary>Address of a record's page, as seen from the page that carries the plan.</summary>
    public required Func<ArchiveRecord, string> Href { get; init; }

    /// <summary>Address of a row, used where a hall has too many frames to link each; null for no link.</summary>
    public Func<FrameRow, string>? RowHref { get; init; }

    /// <summary>Units of the dimensions and of the scale.</summary>
    public DisplayUnits Units { get; init; }

    /// <summary>Id of the frame or tray that the page is about: marked in the accent colour.</summary>
    public string? Marked { get; init; }

    /// <summary>Ids of frames that belong together, such as a working set: shaded.</summary>
    public FrozenSet<string> Shaded { get; init; } = FrozenSet<string>.Empty;

    /// <summary>What the shaded frames are, for the key of signs.</summary>
    public string ShadedAs { get; init; } = "chosen";

    /// <summary>How far each frame has come in this hall, by its id; a frame that is not named stands.</summary>
    public FrozenDictionary<string, FrameSign> Signs { get; init; } = FrozenDictionary<string, FrameSign>.Empty;

    /// <summary>Way of a cable, in millimetres of the hall: drawn in the accent colour.</summary>
    public ImmutableArray<PlanPoint> Route { get; init; } = [];

    /// <summary>Ways of a harness's other tails, in millimetres of the hall: drawn as its route is.</summary>
    public ImmutableArray<ImmutableArray<PlanPoint>> Tails { get; init; } = [];

    /// <summary>Ids of the trays that are shown, such as those of one height; null for all.</summary>
    public FrozenSet<string>? OnlyTrays { get; init; }

    /// <summary>Stretches of trays with a number each, such as of short cables in them: the wider, the greater.</summary>
    public ImmutableArray<PlanStretch> Stretches { get; init; } = [];

    /// <summary>What the number of a stretch counts, for the key of signs.</summary>
    public string StretchesAs { get; init; } = "cables";

    /// <summary>Frames with a side that an arrow points to, by their ids.</summary>
    public FrozenDictionary<string, Compass> Arrows { get; init; } = FrozenDictionary<string, Compass>.Empty;

    /// <summary>What an arrow means, for the key of signs.</summary>
    public string ArrowsAs { get; init; } = "";

    /// <summary>Something that is shown of every frame; null for none.</summary>
    public PlanLayer? Layer { get; init; }

    /// <summary>What else the drawing shows, in whole sentences, for those who have it read out.</summary>
    public string Says { get; init; } = "";

    /// <summary>
    /// Address of the hall's ground (<see cref="PlanGround"/>), for a small plan beside other matter: on that it draws only what its page
    /// is about, without dimensions and key; made for 340 pixels. Null for a whole plan.
    /// </summary>
    public string? Ground { get; init; }

    internal bool IsInset => Ground is not null;
}

/// <summary>A stretch of a tray with a number.</summary>
/// <param name="Line">Its points, in millimetres of the hall.</param>
public sealed record PlanStretch(ImmutableArray<PlanPoint> Line, int Count);

/// <summary>How far a frame has come in the hall of a plan; distinguished by line and mark, not by colour.</summary>
public enum FrameSign
{
    /// <summary>Planned, and not in the hall: dotted, without a heavy front.</summary>
    Planned,

    /// <summary>In the hall, and not in its place: a line across it.</summary>
    Arrived,

    /// <summary>In its place.</summary>
    Standing,

    /// <summary>In its place, with at least one cable connected: a filled corner.</summary>
    Connected,

    /// <summary>It belongs to someone else and is not touched: crossed out.</summary>
    NotOurs,
}
