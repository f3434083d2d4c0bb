namespace Archive.Data.Tables;

/// <summary>A key of the JSON or a column of the CSV, as <c>data/index.json</c> describes it.</summary>
/// <param name="Name">Its name; it never changes its meaning.</param>
/// <param name="Type"><c>text</c>, <c>markdown</c>, <c>number</c>, <c>integer</c>, <c>flag</c>, <c>date</c>, <c>list</c> or
/// <c>object</c>.</param>
/// <param name="Unit">Unit of a number; null where it has none.</param>
public sealed record DataColumn(string Name, string Type, string Means, string? Unit = null)
{
    /// <summary>What each entry of a list of objects holds; empty for all others.</summary>
    public IReadOnlyList<DataColumn> Entries { get; init; } = [];
}
