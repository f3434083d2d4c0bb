using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>Cuts a long list into sheets, so that no page grows with the record.</summary>
/// <typeparam name="T">What a row is made from.</typeparam>
/// <param name="Rows">All rows, in order.</param>
/// <param name="First">Path of the first sheet.</param>
/// <param name="Folder">Folder of the others, such as <c>indexes/cables-by-id</c>.</param>
/// <param name="Begins">What a row is called on a link to the sheet that begins with it.</param>
internal sealed record PagedList<T>(IReadOnlyList<T> Rows, string First, string Folder, Func<T, string> Begins)
{
    /// <summary>Most rows of a sheet.</summary>
    public int Size { get; init; } = 500;

    // Links to all of so many sheets; of more, evenly spread ones: else the links alone would grow with the square of the sheets.
    private const int MostLinks = 24;

    /// <summary>Number of sheets; an empty list has one.</summary>
    public int Count => Math.Max(1, (Rows.Count + Size - 1) / Size);

    /// <summary>Path of a sheet.</summary>
    /// <param name="number">Its number, from 1.</param>
    public string Path(int number) =>
        number == 1 ? First : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Folder}/{number}/index.html");

    /// <summary>The rows of a sheet.</summary>
    /// <param name="number">Its number, from 1.</param>
    public IEnumerable<T> RowsOf(int number)
    {
        var end = Math.Min(Rows.Count, number * Size);
        for (var i = (number - 1) * Size; i < end; i++) yield return Rows[i];
    }

    /// <summary>Which sheet a row stands on.</summary>
    /// <param name="row">Its index.</param>
    public int SheetOf(int row) => (row / Size) + 1;

    /// <summary>A sheet and the way to the others.</summary>
    /// <param name="number">Its number, from 1.</param>
    /// <param name="location">The page it stands on.</param>
    public PageOfList On(int number, PageLocation location)
    {
        return new PageOfList(
            number,
            Count,
            number > 1 ? To(number - 1) : null,
            number < Count ? To(number + 1) : null,
            Count == 1 ? [] : [.. Numbers(number).Select(Entry)]);

        Link To(int other) => new($"Page {other}", location.To(Path(other)));

        PageLink Entry(int other) => new(Begins(Rows[(other - 1) * Size]), location.To(Path(other)), other == number);
    }

    private IEnumerable<int> Numbers(int current)
    {
        var step = Math.Max(1, (Count + MostLinks - 1) / MostLinks);
        for (var number = 1; number <= Count; number++)
        {
            if ((number - 1) % step == 0 || number == current || number == Count) yield return number;
        }
    }
}
