using Archive.Records;

namespace Archive.Site;

/// <summary>All pages of the site, one after the other, each made when its turn comes; the theme's assets; and what viewers of other archives read.</summary>
public static class SitePages
{
    /// <summary>The pages.</summary>
    /// <param name="contents">All that they are made from.</param>
    /// <returns>Files in a fixed order: the same contents give the same files.</returns>
    public static IEnumerable<SiteFile> Of(SiteContents contents)
    {
        var desk = new Desk(contents);
        var plain = new PlainPages(desk);
        return Assets(contents.Theme)
            .Append(new HomePages(desk).Page())
            .Concat(Records(desk))
            .Concat(desk.Record.ById.Values.Where(record => record.IsWithdrawn).OrderBy(record => record.Id, StringComparer.Ordinal).Select(plain.Withdrawn))
            .Concat(plain.Forwards())
            .Concat(desk.Lists.Frames.Pages())
            .Concat(desk.Lists.Cables.Pages())
            .Concat(new RecordIndexes(desk).Pages())
            .Concat(new LacksPages(desk).Pages())
            .Concat(plain.Pages())
            .Concat(new LabelPages(desk).Pages())
            .Concat(desk.ReadyLabels.Files())
            .Concat(contents.Plans.SelectMany(plan => plan.Pages(desk)))
            .Concat(IiifFiles.Of(desk));
    }

    // A worker answers only for what lies below it, so it stands at the root.
    private static IEnumerable<SiteFile> Assets(Theme theme)
    {
        foreach (var asset in theme.Assets)
        {
            yield return new CopiedFile(asset.Path, asset.FullPath, null);
            if (asset.Path == "assets/offline-worker.js") yield return new StreamedFile("service-worker.js", stream => stream.Write("importScripts('assets/offline-worker.js');\n"u8));
        }
    }

    private static IEnumerable<SiteFile> Records(Desk desk)
    {
        var (frames, cables, photos, trays, halls) = (new FramePages(desk), new CablePages(desk), new PhotoPages(desk), new TrayPages(desk), new HallPages(desk));
        var (schemes, stories, displays, kinds, events) = (new SchemePages(desk), new StoryPages(desk), new DisplayPages(desk), new KindPages(desk), new EventPages(desk));
        var record = desk.Record;
        return Standing(record.Frames).SelectMany(frames.Of)
            .Concat(Standing(record.Cables).Select(cables.Of))
            .Concat(photos.Pages())
            .Concat(Standing(record.Trays).SelectMany(trays.Of))
            .Concat(Standing(record.Halls).Select(halls.Of))
            .Concat(Standing(record.Schemes).Select(schemes.Of))
            .Concat(Standing(record.Stories).Select(stories.Of))
            .Concat(Standing(record.Displays).Select(displays.Of))
            .Concat(Standing(record.Kinds).Select(kinds.Of))
            .Concat(Standing(record.Events).Select(events.Of));
    }

    private static IEnumerable<T> Standing<T>(IEnumerable<T> records)
        where T : ArchiveRecord => records.Where(record => !record.IsWithdrawn);
}
