using Archive.Records;

namespace Archive.Site;

/// <summary>All pages of the site, one after the other, each made when its turn comes; and the theme's assets.</summary>
public static class SitePages
{
    /// <summary>The pages.</summary>
    /// <param name="contents">All that they are made from.</param>
    /// <returns>Files in a fixed order: the same contents give the same files.</returns>
    public static IEnumerable<SiteFile> Of(SiteContents contents)
    {
        var desk = new Desk(contents);
        return Assets(contents.Theme).Concat(Records(desk)).Concat(desk.Lists.Frames.Pages()).Concat(desk.Lists.Cables.Pages());
    }

    private static IEnumerable<SiteFile> Assets(Theme theme) => theme.Assets.Select(asset => new CopiedFile(asset.Path, asset.FullPath, null));

    private static IEnumerable<SiteFile> Records(Desk desk)
    {
        var record = desk.Record;
        yield return new HomePages(desk).Page();
        var frames = new FramePages(desk);
        foreach (var page in Standing(record.Frames).SelectMany(frames.Of)) yield return page;
        var cables = new CablePages(desk);
        foreach (var cable in Standing(record.Cables)) yield return cables.Of(cable);
        var stories = new StoryPages(desk);
        foreach (var story in Standing(record.Stories)) yield return stories.Of(story);
    }

    private static IEnumerable<T> Standing<T>(IEnumerable<T> records)
        where T : ArchiveRecord => records.Where(record => !record.IsWithdrawn);
}
