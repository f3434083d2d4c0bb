using System.Collections.Immutable;

namespace Archive.Site;

/// <summary>What rows of a list stand under.</summary>
/// <param name="Heading">The heading.</param>
/// <param name="Anchor">Its anchor; one a heading of the list.</param>
internal sealed record RowHeading(string Heading, string Anchor)
{
    /// <summary>No heading.</summary>
    public static RowHeading None { get; } = new("", "");
}

/// <summary>A long list under headings, cut into sheets.</summary>
/// <typeparam name="T">What a row is made from.</typeparam>
internal sealed class GroupedRows<T>
{
    private readonly Dictionary<string, int> _firstSheet = new(StringComparer.Ordinal);

    /// <summary>Cuts a list.</summary>
    /// <param name="rows">All rows in order, those of a heading together.</param>
    /// <param name="first">Path of the first sheet.</param>
    /// <param name="folder">Folder of the others.</param>
    /// <param name="begins">What a row is called on a link to the sheet that it begins.</param>
    /// <param name="size">Most rows of a sheet.</param>
    public GroupedRows(ImmutableArray<(RowHeading Heading, T Row)> rows, string first, string folder, Func<(RowHeading Heading, T Row), string> begins, int size = 500)
    {
        Sheets = new Sheets<(RowHeading Heading, T Row)>(rows, first, folder, begins) { Size = size };
        for (var i = 0; i < rows.Length; i++) _firstSheet.TryAdd(rows[i].Heading.Anchor, Sheets.SheetOf(i));
    }

    /// <summary>The sheets.</summary>
    public Sheets<(RowHeading Heading, T Row)> Sheets { get; }

    /// <summary>Where a heading stands.</summary>
    /// <param name="heading">A heading of the list.</param>
    /// <param name="place">The page that asks.</param>
    /// <returns>The address, or null where the list does not have it.</returns>
    public Href? To(RowHeading heading, PagePlace place) =>
        _firstSheet.TryGetValue(heading.Anchor, out var number) ? place.To(Sheets.Path(number), heading.Anchor) : null;

    /// <summary>The rows of a sheet under their headings.</summary>
    /// <typeparam name="TRow">A row as the page shows it.</typeparam>
    /// <param name="number">The sheet.</param>
    /// <param name="row">Makes a row.</param>
    public ImmutableArray<RowGroup<TRow>> On<TRow>(int number, Func<T, TRow> row)
    {
        var groups = ImmutableArray.CreateBuilder<RowGroup<TRow>>();
        var rows = ImmutableArray.CreateBuilder<TRow>();
        RowHeading? heading = null;
        foreach (var (over, item) in Sheets.RowsOf(number))
        {
            if (heading is not null && over.Anchor != heading.Anchor) Close();
            heading = over;
            rows.Add(row(item));
        }

        if (heading is not null) Close();
        return groups.ToImmutable();

        void Close()
        {
            groups.Add(new RowGroup<TRow>(heading.Heading, heading.Anchor, _firstSheet[heading.Anchor] < number, rows.ToImmutable()));
            rows.Clear();
        }
    }
}
