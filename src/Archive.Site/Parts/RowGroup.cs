using System.Collections.Immutable;

namespace Archive.Site.Parts;

/// <summary>Rows under one heading.</summary>
/// <typeparam name="T">A row.</typeparam>
/// <param name="Heading">The heading; empty for a list without headings.</param>
/// <param name="IsContinued">Whether it began on a sheet before.</param>
public sealed record RowGroup<T>(string Heading, string Anchor, bool IsContinued, ImmutableArray<T> Rows)
{
    /// <summary>The same rows in parts, each of which a jump may lead to.</summary>
    public ImmutableArray<RowPart<T>> Parts { get; init; } = [new RowPart<T>("", Rows)];
}

/// <summary>Rows that follow each other under one heading.</summary>
/// <typeparam name="T">A row.</typeparam>
/// <param name="Anchor">Its anchor; empty where no jump leads there.</param>
public sealed record RowPart<T>(string Anchor, ImmutableArray<T> Rows);
