using Archive.Markup.Links;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.Indexes;

/// <summary>The lists of the site, sorted once, when first needed, and shared by the pages that link into them.</summary>
/// <param name="frames">Lists of frames.</param>
/// <param name="cables">Lists of cables.</param>
internal sealed class SharedIndexes(PageFactory pageFactory, Lazy<FrameIndexes> frames, Lazy<CableIndexes> cables)
{
    /// <summary>Lists of frames.</summary>
    public FrameIndexes Frames => frames.Value;

    /// <summary>Lists of cables.</summary>
    public CableIndexes Cables => cables.Value;

    /// <summary>A further sheet of the cables of one record.</summary>
    /// <typeparam name="T">A cable, or one of its ends.</typeparam>
    /// <param name="record">A frame or tray.</param>
    /// <param name="sheets">The sheets of its cables.</param>
    /// <param name="row">Makes a row.</param>
    public CableIndexPage CablesOf<T>(ArchiveRecord record, PagedList<T> sheets, int number, PageLocation location, Func<T, CableRow> row)
    {
        var title = $"Cables of {record.Id}, page {Phrase.Number(number)}";
        var trail = new Link(RecordNames.For(record), location.To(record));
        return new CableIndexPage(pageFactory.Head("cable-index", location, title, $"{title} of {Phrase.Count(sheets.Count)}.", trail))
        {
            Says = "",
            Orders = [],
            Groups = [new RowGroup<CableRow>("", "", false, [.. sheets.RowsOf(number).Select(row)])],
            Sheet = sheets.On(number, location),
            Csv = null,
        };
    }
}
