using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Records.References;

/// <summary>
/// What refers to what, turned round once: the record says which frames a cable ends at; a frame's page needs its cables.
/// </summary>
/// <remarks>Linear in the record. Withdrawn records refer to nothing here. Keys are present ids, whichever id was written.</remarks>
public sealed class CrossReferences
{
    private readonly ArchiveModel _record;

    /// <summary>Turns the record's references round.</summary>
    public CrossReferences(ArchiveModel record)
    {
        _record = record;
        var cables = record.Cables.Where(cable => !cable.IsWithdrawn).ToList();
        var frames = record.Frames.Where(frame => !frame.IsWithdrawn).ToList();
        CablesOver = Turned(cables, cable => cable.LiesOver);
        CablesOf = Turned(cables, cable => cable.Kind is { } kind ? [kind] : []);
        var photos = record.Photos.Where(photo => !photo.IsWithdrawn);
        PhotosOf = Turned(photos, photo => photo.Shows.Concat(photo.Regions.SelectMany(region => region.Shows)));
        DocumentsOf = record.Documents
            .Where(document => !document.IsWithdrawn)
            .SelectMany(document => Mentions(document))
            .ToLookup(pair => pair.Id, pair => pair.Mention, StringComparer.Ordinal);
        EventsOf = Turned(
            record.Events.Where(archiveEvent => !archiveEvent.IsWithdrawn).OrderBy(archiveEvent => archiveEvent, EventOrder),
            archiveEvent =>
                archiveEvent.Subjects);
        NeededBy = Turned(frames, frame => FramesNeeded(frame.Needs));
        WantedBy = Turned(record.Displays.Where(display => !display.IsWithdrawn), display => FramesNeeded(display.Needs));
        ByModule = frames.Where(frame => frame.Module is not null).ToLookup(frame => frame.Module!.Value.Value, StringComparer.Ordinal);
    }

    /// <summary>Cables by the cable that they lie over.</summary>
    public ILookup<string, Cable> CablesOver { get; }

    /// <summary>Cables by kind.</summary>
    public ILookup<string, Cable> CablesOf { get; }

    /// <summary>Photos by what they show, as a whole or in a region.</summary>
    public ILookup<string, Photo> PhotosOf { get; }

    /// <summary>Documents by what they, or some of their pages, explain.</summary>
    public ILookup<string, DocumentMention> DocumentsOf { get; }

    /// <summary>Events by what they happened to, earliest first.</summary>
    public ILookup<string, ArchiveEvent> EventsOf { get; }

    /// <summary>Frames by a frame that they need, by itself or as one of several.</summary>
    public ILookup<string, Frame> NeededBy { get; }

    /// <summary>Displays by a frame that they name.</summary>
    public ILookup<string, Display> WantedBy { get; }

    public ILookup<string, Frame> ByModule { get; }

    /// <summary>Events in the order in which they happened; those of one day by id.</summary>
    public static IComparer<ArchiveEvent> EventOrder { get; } = Comparer<ArchiveEvent>.Create(static (a, b) =>
    {
        var by = (a.On?.Value.Earliest ?? DateOnly.MaxValue).CompareTo(b.On?.Value.Earliest ?? DateOnly.MaxValue);
        if (by == 0) by = string.CompareOrdinal(a.On?.Value.Text, b.On?.Value.Text);
        return by != 0 ? by : string.CompareOrdinal(a.Id, b.Id);
    });

    /// <summary>The frames that needs name, however deep.</summary>
    /// <param name="needs">Needs of a frame or display.</param>
    public static IEnumerable<Stated<string>> FramesNeeded(IEnumerable<Need> needs) => needs.SelectMany(need => need switch
    {
        FrameNeed frame => [frame.Frame],
        AnyNeed any => FramesNeeded(any.Of),
        _ => [],
    });

    private IEnumerable<(string Id, DocumentMention Mention)> Mentions(Document document) =>
        document.Explains.Select(name => (Name: name, Page: 0))
            .Concat(document.PagesExplain.SelectMany(page => page.Explains.Select(name => (Name: name, Page: page.Page.Value))))
            .GroupBy(each => _record.Find(each.Name.Value)?.Id ?? each.Name.Value, StringComparer.Ordinal)
            .Select(each => (each.Key, new DocumentMention(
                document, [.. each.Select(mention => mention.Page).Where(page => page > 0).Distinct().Order()])));

    private ILookup<string, T> Turned<T>(IEnumerable<T> records, Func<T, IEnumerable<Stated<string>>> named)
        where T : ArchiveRecord =>
        records.SelectMany(record => named(record)
            .Select(name => _record.Find(name.Value)?.Id ?? name.Value)
            .Distinct(StringComparer.Ordinal)
            .Select(id => (Id: id, Record: record)))
            .ToLookup(pair => pair.Id, pair => pair.Record, StringComparer.Ordinal);
}

/// <summary>A document that explains a record.</summary>
/// <param name="Pages">The pages that do, in order; none where the document as a whole does.</param>
public sealed record DocumentMention(Document Document, ImmutableArray<int> Pages);
