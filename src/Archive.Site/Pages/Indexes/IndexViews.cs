using System.Collections.Immutable;

namespace Archive.Site;

/// <summary>A list of frames.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record FrameIndexPage(PageHead Head) : PageView(Head)
{
    /// <summary>How many frames the record has.</summary>
    public required int Count { get; init; }

    /// <summary>The same list in other orders.</summary>
    public required ImmutableArray<SheetLink> Orders { get; init; }

    /// <summary>Whether they stand by module; else by row.</summary>
    public required bool IsByModule { get; init; }

    /// <summary>The frames of this sheet, by row or module.</summary>
    public required ImmutableArray<RowGroup<FrameLine>> Groups { get; init; }

    /// <summary>Which page of the list this is.</summary>
    public required Sheet Sheet { get; init; }
}

/// <summary>A list of cables.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record CableIndexPage(PageHead Head) : PageView(Head)
{
    /// <summary>What the list holds, in a sentence.</summary>
    public required string Says { get; init; }

    /// <summary>The same list in other orders.</summary>
    public required ImmutableArray<SheetLink> Orders { get; init; }

    /// <summary>The cables of this sheet.</summary>
    public required ImmutableArray<RowGroup<CableRow>> Groups { get; init; }

    /// <summary>Which page of the list this is.</summary>
    public required Sheet Sheet { get; init; }
}

/// <summary>A list of photos.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record PhotoIndexPage(PageHead Head) : PageView(Head)
{
    /// <summary>How many photos the record has.</summary>
    public required int Count { get; init; }

    /// <summary>The photos of this sheet.</summary>
    public required ImmutableArray<Thumb> Photos { get; init; }

    /// <summary>Which page of the list this is.</summary>
    public required Sheet Sheet { get; init; }
}

/// <summary>A list of records of one kind: trays, halls, schemes, displays, stories, events, kinds.</summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record RecordIndexPage(PageHead Head) : PageView(Head)
{
    /// <summary>What they are, in a sentence.</summary>
    public required string Says { get; init; }

    /// <summary>The records of this sheet: trays by hall, events by year, others under no heading.</summary>
    public required ImmutableArray<RowGroup<RecordRow>> Groups { get; init; }

    /// <summary>Which page of the list this is.</summary>
    public required Sheet Sheet { get; init; }
}

/// <summary>Rows under one heading.</summary>
/// <typeparam name="T">A row.</typeparam>
/// <param name="Heading">The heading; empty for a list without headings.</param>
/// <param name="Anchor">Its anchor.</param>
/// <param name="IsContinued">Whether it began on a sheet before.</param>
/// <param name="Rows">The rows.</param>
public sealed record RowGroup<T>(string Heading, string Anchor, bool IsContinued, ImmutableArray<T> Rows)
{
    /// <summary>The same rows in parts, each of which a jump may lead to.</summary>
    public ImmutableArray<RowPart<T>> Parts { get; init; } = [new RowPart<T>("", Rows)];
}

/// <summary>Rows that follow each other under one heading.</summary>
/// <typeparam name="T">A row.</typeparam>
/// <param name="Anchor">Its anchor; empty where no jump leads there.</param>
/// <param name="Rows">The rows.</param>
public sealed record RowPart<T>(string Anchor, ImmutableArray<T> Rows);

/// <summary>A frame as a line of a table.</summary>
/// <param name="Frame">The frame.</param>
/// <param name="Module">Its module; null where it has none.</param>
/// <param name="Row">Its row in the hall as found; null where it stands in none.</param>
/// <param name="Weight">Its weight.</param>
/// <param name="Cables">How many cables end there.</param>
/// <param name="Photos">How many photos show it.</param>
public sealed record FrameLine(RecordLink Frame, Link? Module, Link? Row, Figure Weight, int Cables, int Photos);

/// <summary>A record as a line of a list.</summary>
/// <param name="Record">The record.</param>
/// <param name="Of">Of an event that befell few records, these.</param>
/// <param name="Says">What helps to tell it from others.</param>
public sealed record RecordRow(RecordLink Record, ImmutableArray<RecordLink> Of, string Says);
