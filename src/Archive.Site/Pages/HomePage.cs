using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.Pages;

/// <summary>The home page.</summary>
public sealed record HomePage(PageHead Head) : PageView(Head)
{
    /// <summary>How things stand, in sentences; empty where no plan says so.</summary>
    public required ImmutableArray<string> Now { get; init; }

    /// <summary>The page that says more of it.</summary>
    public required Link NowPage { get; init; }

    /// <summary>The hall as found; null where none is marked.</summary>
    public required RecordLink? Hall { get; init; }

    /// <summary>Its floor plan.</summary>
    public required HtmlFragment Plan { get; init; }

    /// <summary>Its rows with their frames: what the plan shows, as text.</summary>
    public required ImmutableArray<RowOfFrames> Rows { get; init; }

    /// <summary>What the record holds, in figures.</summary>
    public required ImmutableArray<Holding> Holdings { get; init; }

    public required HtmlFragment About { get; init; }

    /// <summary>Stories in their order.</summary>
    public required ImmutableArray<RecordLink> Stories { get; init; }

    public required ImmutableArray<RecordLink> Displays { get; init; }

    public required ImmutableArray<RecordLink> OtherHalls { get; init; }

    /// <summary>The latest events, latest first.</summary>
    public required ImmutableArray<EventLine> Latest { get; init; }

    /// <summary>Photos of the whole.</summary>
    public required ImmutableArray<Thumbnail> Overall { get; init; }

    /// <summary>Who made the record.</summary>
    public required ImmutableArray<FactLine> People { get; init; }
}

/// <summary>A row of a hall as text.</summary>
/// <param name="Name">The row.</param>
/// <param name="Frames">Its frames in order.</param>
/// <param name="More">How many further frames it has.</param>
public sealed record RowOfFrames(string Name, ImmutableArray<RecordLink> Frames, int More);

/// <summary>A figure on the home page.</summary>
/// <param name="Of">Of what.</param>
/// <param name="Href">Where they are listed.</param>
/// <param name="Says">What more there is to say; empty for nothing.</param>
public sealed record Holding(string Number, string Of, Href Href, string Says);
