using Archive.Records.Model;

namespace Archive.Markup.Links;

/// <summary>Where a page lies in the site, and thereby how it names other files of the site.</summary>
/// <param name="Path">Path below the site's folder, such as <c>frames/R2-05/index.html</c>.</param>
public sealed record PageLocation(string Path)
{
    private readonly string _root = string.Concat(Enumerable.Repeat("../", Path.Count(c => c == '/')));

    /// <summary>A page of the site.</summary>
    /// <param name="anchor">Anchor on it, or null.</param>
    public Href To(string path, string? anchor = null) => Href.Within(_root, path, anchor);

    /// <summary>A record's page.</summary>
    public Href To(ArchiveRecord record) => To(PagePaths.For(record));
}

/// <summary>What records are called in running text.</summary>
public static class RecordNames
{
    /// <summary>The id of things that carry their id on them, such as frames and cables; the title of the others.</summary>
    public static string For(ArchiveRecord record) => IsById(record) ? record.Id : record.Title;

    /// <summary>Whether a record is called by its id.</summary>
    public static bool IsById(ArchiveRecord record) =>
        record.RecordKind is RecordKind.Frame or RecordKind.Cable or RecordKind.Tray or RecordKind.Unit or RecordKind.Piece
            or RecordKind.Box or RecordKind.Photo or RecordKind.Event;
}
