using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Records.Wording;

namespace Archive.Site.Parts;

/// <summary>A long list under headings, cut into sheets.</summary>
/// <typeparam name="T">What a row is made from.</typeparam>
internal sealed class GroupedRows<T>
{
    // A sheet shorter than this needs no jumps; on a longer one they are at most so many, and between headings so far apart (chosen by
    // looking at a phone).
    private const int ShortSheet = 40;
    private const int MostJumps = 20;
    private const int Stride = 50;

    private readonly Dictionary<string, int> _firstSheet = new(StringComparer.Ordinal);

    /// <summary>Cuts a list.</summary>
    /// <param name="rows">All rows in order, those of a heading together.</param>
    /// <param name="first">Path of the first sheet.</param>
    /// <param name="folder">Folder of the others.</param>
    /// <param name="begins">What a row is called on a link to the sheet that it begins.</param>
    /// <param name="size">Most rows of a sheet.</param>
    /// <param name="key">What a row is known by, whatever stands before it; null for numbered steps. See
    /// <see cref="PagedList{T}.Key"/>.</param>
    public GroupedRows(
        ImmutableArray<(RowHeading Heading, T Row)> rows,
        string first,
        string folder,
        Func<(RowHeading Heading, T Row), string> begins,
        int size = SheetSizes.Lines,
        Func<T, string>? key = null)
    {
        Sheets = new PagedList<(RowHeading Heading, T Row)>(rows, first, folder, begins)
        {
            Size = size,
            Key = key is null ? null : row => $"{row.Heading.Anchor}\n{key(row.Row)}",
        };
        for (var i = 0; i < rows.Length; i++) _firstSheet.TryAdd(rows[i].Heading.Anchor, Sheets.SheetOf(i));
    }

    public PagedList<(RowHeading Heading, T Row)> Sheets { get; }

    /// <summary>Where a heading stands.</summary>
    /// <param name="heading">A heading of the list.</param>
    /// <param name="location">The page that asks.</param>
    /// <returns>The address, or null where the list does not have it.</returns>
    public Href? To(RowHeading heading, PageLocation location) =>
        _firstSheet.TryGetValue(heading.Anchor, out var number) ? location.To(Sheets.Path(number), heading.Anchor) : null;

    /// <summary>A sheet, the way to the others and the ways down it.</summary>
    /// <param name="number">Its number, from 1.</param>
    /// <param name="location">The page it stands on.</param>
    public PageOfList Sheet(int number, PageLocation location) =>
        Sheets.On(number, location) with { Jumps = [.. Stops(number).Select(stop => new Link(stop.Text, Href.Here(stop.Anchor)))] };

    /// <summary>The rows of a sheet under their headings.</summary>
    /// <typeparam name="TRow">A row as the page shows it.</typeparam>
    /// <param name="number">The sheet.</param>
    /// <param name="row">Makes a row.</param>
    public ImmutableArray<RowGroup<TRow>> On<TRow>(int number, Func<T, TRow> row) => On(number, (item, _) => row(item));

    /// <summary>The same, for rows that need their place.</summary>
    /// <typeparam name="TRow">A row as the page shows it.</typeparam>
    /// <param name="number">The sheet.</param>
    /// <param name="row">Makes a row; its place on the sheet counts from 0.</param>
    public ImmutableArray<RowGroup<TRow>> On<TRow>(int number, Func<T, int, TRow> row)
    {
        var stops = Stops(number).ToDictionary(stop => stop.Index, stop => stop.Anchor);
        var groups = ImmutableArray.CreateBuilder<RowGroup<TRow>>();
        var parts = ImmutableArray.CreateBuilder<RowPart<TRow>>();
        var rows = ImmutableArray.CreateBuilder<TRow>();
        RowHeading? heading = null;
        var (anchor, index) = ("", Sheets.FirstOf(number));
        foreach (var (over, item) in Sheets.RowsOf(number))
        {
            if (heading is not null && over.Anchor != heading.Anchor) Close();
            else if (rows.Count > 0 && stops.ContainsKey(index)) ClosePart();
            // The heading bears its own anchor.
            if (rows.Count == 0) anchor = stops.GetValueOrDefault(index, "") is var at && at == over.Anchor ? "" : at;
            heading = over;
            rows.Add(row(item, index - Sheets.FirstOf(number)));
            index++;
        }

        if (heading is not null) Close();
        return groups.ToImmutable();

        void ClosePart()
        {
            parts.Add(new RowPart<TRow>(anchor, rows.ToImmutable()));
            rows.Clear();
        }

        void Close()
        {
            ClosePart();
            groups.Add(new RowGroup<TRow>(heading.Heading, heading.Anchor, _firstSheet[heading.Anchor] < number, [
                .. parts.SelectMany(part => part.Rows)
            ])
            { Parts = parts.ToImmutable() });
            parts.Clear();
        }
    }

    // Where jumps lead: to headings, and into what is long under one, never close to each other.
    private List<(int Index, string Text, string Anchor)> Stops(int number)
    {
        var stops = new List<(int Index, string Text, string Anchor)>();
        var (first, end) = (Sheets.FirstOf(number), Sheets.EndOf(number));
        if (end - first < ShortSheet) return stops;
        var apart = (end - first) / MostJumps;
        for (var i = first; i < end; i++)
        {
            var heading = Sheets.Rows[i].Heading;
            var begins = i == first || heading.Short != Sheets.Rows[i - 1].Heading.Short;
            var since = i == first ? Stride : i - stops[^1].Index;
            if (begins && heading.Anchor.Length > 0 && since >= apart) stops.Add((i, heading.Short, heading.Anchor));
            else if (since >= Stride && end - i >= Stride / 2)
                stops.Add((i, Sheets.Begins(Sheets.Rows[i]), "from-" + Phrase.Number(i - first + 1)));
        }

        return stops.Count > 1 ? stops : [];
    }
}
