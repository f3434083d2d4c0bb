using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.Indexes;

/// <summary>A list of frames.</summary>
public sealed record FrameIndexPage(PageHead Head) : PageView(Head)
{
    /// <summary>How many frames the record has.</summary>
    public required int Count { get; init; }

    /// <summary>The same list in other orders.</summary>
    public required ImmutableArray<PageLink> Orders { get; init; }

    /// <summary>Whether they stand by module; else by row.</summary>
    public required bool IsByModule { get; init; }

    /// <summary>The frames of this sheet, by row or module.</summary>
    public required ImmutableArray<RowGroup<FrameLine>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }

    /// <summary>The whole list as a table.</summary>
    public required Link Csv { get; init; }
}

/// <summary>A list of cables.</summary>
public sealed record CableIndexPage(PageHead Head) : PageView(Head)
{
    /// <summary>What the list holds, in a sentence.</summary>
    public required string Says { get; init; }

    /// <summary>The same list in other orders.</summary>
    public required ImmutableArray<PageLink> Orders { get; init; }

    /// <summary>The cables of this sheet.</summary>
    public required ImmutableArray<RowGroup<CableRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }

    /// <summary>All cables for the script that filters and sorts them; null for the cables of one record.</summary>
    public Href? Filter { get; init; }

    /// <summary>The whole list as a table; null for the cables of one record.</summary>
    public required Link? Csv { get; init; }
}

/// <summary>A list of photos.</summary>
public sealed record PhotoIndexPage(PageHead Head) : PageView(Head)
{
    /// <summary>How many photos the record has.</summary>
    public required int Count { get; init; }

    /// <summary>The photos of this sheet.</summary>
    public required ImmutableArray<Thumbnail> Photos { get; init; }

    public required PageOfList Sheet { get; init; }

    /// <summary>The whole list as a table.</summary>
    public required Link Csv { get; init; }
}

/// <summary>A list of records of one kind: trays, halls, schemes, displays, stories, events, kinds.</summary>
public sealed record RecordIndexPage(PageHead Head) : PageView(Head)
{
    /// <summary>What they are, in a sentence.</summary>
    public required string Says { get; init; }

    /// <summary>The records of this sheet: trays by hall, events by year, others under no heading.</summary>
    public required ImmutableArray<RowGroup<RecordRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }

    /// <summary>The whole list as a table.</summary>
    public required Link Csv { get; init; }
}

/// <summary>A frame as a line of a table.</summary>
/// <param name="Module">Its module; null where it has none.</param>
/// <param name="Row">Its row in the hall as found; null where it stands in none.</param>
/// <param name="Cables">How many cables end there.</param>
/// <param name="Photos">How many photos show it.</param>
public sealed record FrameLine(RecordLink Frame, Link? Module, Link? Row, FactText Weight, int Cables, int Photos);

/// <summary>A record as a line of a list.</summary>
/// <param name="Of">Of an event that befell few records, these.</param>
/// <param name="Says">What helps to tell it from others.</param>
public sealed record RecordRow(RecordLink Record, ImmutableArray<RecordLink> Of, string Says);
