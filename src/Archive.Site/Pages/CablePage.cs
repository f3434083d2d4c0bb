using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Safety;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.Pages;

/// <summary>The page of a cable.</summary>
public sealed record CablePage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people call it; usually empty.</summary>
    public required string Name { get; init; }

    /// <summary>What it is called where it has no name: the frames that it runs between, as far as they are known; empty
    /// where none is.</summary>
    public required string Between { get; init; }

    /// <summary>What is printed on it, exactly as written; empty without a label.</summary>
    public required string Label { get; init; }

    public required Link? Kind { get; init; }

    /// <summary>Length, kind, fate and the like.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>What can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>Its ends in full.</summary>
    public required ImmutableArray<EndLine> Ends { get; init; }

    /// <summary>How its label reads, compared with what was seen; null without print.</summary>
    public required LabelComparisonView? Print { get; init; }

    /// <summary>Where it is, how it is, and what comes next.</summary>
    public required HtmlFragment Status { get; init; }

    /// <summary>What becomes of it, in a sentence; empty where nothing is said.</summary>
    public required string FateSentence { get; init; }

    /// <summary>Why it is severed or left; empty where that is not said.</summary>
    public required HtmlFragment Reason { get; init; }

    /// <summary>The trays it lies in, in order from the first end.</summary>
    public required ImmutableArray<TrayStop> Trays { get; init; }

    /// <summary>Cables it lies upon.</summary>
    public required ImmutableArray<RecordLink> LiesOver { get; init; }

    /// <summary>Cables that lie upon it.</summary>
    public required ImmutableArray<RecordLink> LiesUnder { get; init; }

    /// <summary>Its route through the hall, drawn.</summary>
    public required HtmlFragment Route { get; init; }

    /// <summary>The way to its route in the drawing of the hall; null where there is none.</summary>
    public required Link? InHall { get; init; }

    /// <summary>Whether it reaches in each hall where it may stand again.</summary>
    public required ImmutableArray<CableInHall> Again { get; init; }

    /// <summary>Photos that show it, by view.</summary>
    public required ImmutableArray<PhotoGroup> Photos { get; init; }

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

/// <summary>A cable in a hall where it may stand again.</summary>
/// <param name="Verdict">Whether it reaches, and what is left over or missing, in a sentence.</param>
/// <param name="Says">What it needs; empty where that is not known.</param>
/// <param name="Route">Its shortest way through the hall, drawn.</param>
public sealed record CableInHall(Link Hall, string Verdict, string Says, HtmlFragment Route);

/// <summary>An end of a cable in full.</summary>
/// <param name="At">Where it is.</param>
/// <param name="Holds">What stands at that position; empty where that is not known.</param>
/// <param name="Connector">Its connector; empty where that is not said.</param>
/// <param name="Label">A tag of its own, exactly as written; empty without one.</param>
public sealed record EndLine(EndPlace At, string Holds, string Connector, string Label, HtmlFragment Note)
{
    /// <summary>What it looks like; null where no photo shows it or its frame.</summary>
    public EndPhoto? Photo { get; init; }

    /// <summary>The cables before and after it on its shelf.</summary>
    public Beside Beside { get; init; } = Beside.None;
}
