using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Markup.Links;

/// <summary>A link to a record.</summary>
/// <param name="Name">What people call it; empty where that is the id.</param>
/// <param name="Href">Its page; null for an id that the record names but does not hold.</param>
public sealed record RecordLink(string Id, string Name, Href? Href)
{
    /// <summary>
    /// Whether the name says enough: of halls, schemes, displays, stories and kinds, not of things that carry their id on them.
    /// </summary>
    public bool IsByName { get; init; }

    /// <summary>A record's link as a page names it.</summary>
    public static RecordLink To(ArchiveRecord record, PageLocation location) =>
        new(record.Id, record.Title == record.Id ? "" : Phrase.OneLine(record.Title), location.To(record))
        {
            IsByName = record.Title != record.Id && !RecordNames.IsById(record)
        };
}
