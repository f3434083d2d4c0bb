using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Archive.Markup.Links;
using Archive.Records.Wording;

namespace Archive.Site.Parts;

/// <summary>Cuts a long list into sheets, so that no page grows with the record.</summary>
/// <typeparam name="T">What a row is made from.</typeparam>
/// <param name="Rows">All rows, in order.</param>
/// <param name="First">Path of the first sheet.</param>
/// <param name="Folder">Folder of the others, such as <c>indexes/cables-by-id</c>.</param>
/// <param name="Begins">What a row is called on a link to the sheet that begins with it.</param>
internal sealed record PagedList<T>(IReadOnlyList<T> Rows, string First, string Folder, Func<T, string> Begins)
{
    // The checksum of a key decides, so it must be the same on all machines: FNV-1a (RFC 9923), over UTF-16 units as bytes.
    private const uint ChecksumStart = 2166136261, ChecksumFactor = 16777619;

    private ImmutableArray<int> _firsts;

    /// <summary>Most rows of a sheet.</summary>
    public int Size { get; init; } = SheetSizes.Lines;

    /// <summary>
    /// What a row is known by, whatever stands before it: such a list is cut where its rows say, so that one more moves hardly any cut.
    /// Null for steps, whose numbers move with every other step: each of their sheets but the last is full.
    /// </summary>
    public Func<T, string>? Key { get; init; }

    // Links to all of so many sheets; of more, evenly spread ones: else the links alone would grow with the square of the sheets.
    private const int MostLinks = 24;

    /// <summary>Number of sheets; an empty list has one.</summary>
    public int Count => Firsts.Length;

    // Where each sheet begins. It is found once, or twice by two threads, which find the same.
    private ImmutableArray<int> Firsts
    {
        get
        {
            if (_firsts.IsDefault) ImmutableInterlocked.InterlockedInitialize(ref _firsts, [.. Cut()]);
            return _firsts;
        }
    }

    /// <summary>Path of a sheet.</summary>
    /// <param name="number">Its number, from 1.</param>
    public string Path(int number) =>
        number == 1 ? First : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Folder}/{number}/index.html");

    /// <summary>The rows of a sheet.</summary>
    /// <param name="number">Its number, from 1.</param>
    public IEnumerable<T> RowsOf(int number)
    {
        var end = EndOf(number);
        for (var i = FirstOf(number); i < end; i++) yield return Rows[i];
    }

    /// <summary>The index of a sheet's first row.</summary>
    /// <param name="number">Its number, from 1.</param>
    public int FirstOf(int number) => Firsts[number - 1];

    /// <summary>The index behind a sheet's last row.</summary>
    /// <param name="number">Its number, from 1.</param>
    public int EndOf(int number) => number < Count ? Firsts[number] : Rows.Count;

    /// <summary>Which sheet a row stands on.</summary>
    /// <param name="row">Its index.</param>
    public int SheetOf(int row) => Firsts.BinarySearch(row) is var found && found < 0 ? ~found : found + 1;

    /// <summary>What is said of the whole list on its first sheet; each other says only which it is, so that one more row does not change
    /// it.</summary>
    /// <param name="number">Number of the sheet, from 1.</param>
    /// <param name="whole">What is said of the whole list.</param>
    public string Says(int number, string whole) => number == 1 ? whole : $"page {Phrase.Number(number)} of {Phrase.Count(Count)}";

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

        Link To(int other) => new(NameOf(other), location.To(Path(other)));

        PageLink Entry(int other) => new(NameOf(other), location.To(Path(other)), other == number);
    }

    private IEnumerable<int> Numbers(int current)
    {
        var step = Math.Max(1, (Count + MostLinks - 1) / MostLinks);
        for (var number = 1; number <= Count; number++)
        {
            if ((number - 1) % step == 0 || number == current || number == Count) yield return number;
        }
    }

    // What begins the first sheet changes with a row before all others, and every sheet has a link to it.
    private string NameOf(int number) => number == 1 && Key is not null ? "Start" : Begins(Rows[FirstOf(number)]);

    // A sheet ends in the second half of its room, before the row of the least checksum. Two lists that differ in one row soon find the
    // same rows again, and are cut alike from there on.
    private IEnumerable<int> Cut()
    {
        var first = 0;
        yield return first;
        while (Rows.Count - first > Size)
        {
            first = Key is null ? first + Size : LeastOf(Key, first + (Size / 2) + 1, first + Size);
            yield return first;
        }
    }

    private int LeastOf(Func<T, string> key, int from, int to)
    {
        var (best, least) = (to, uint.MaxValue);
        for (var i = from; i <= to; i++)
        {
            var checksum = Checksum(key(Rows[i]));
            if (checksum < least) (best, least) = (i, checksum);
        }

        return best;
    }

    private static uint Checksum(string text)
    {
        var sum = ChecksumStart;
        foreach (var unit in MemoryMarshal.AsBytes(text.AsSpan())) sum = (sum ^ unit) * ChecksumFactor;
        return sum;
    }
}
