using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Templates;
using Archive.Records.Model;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Site.Pages;
using Archive.Storage.Output;

namespace Archive.Site;

/// <summary>All pages of the site; the theme's assets; and what IIIF viewers read.</summary>
public static class SitePages
{
    /// <param name="site">All that they are made from.</param>
    /// <returns>Files in a fixed order: the same contents give the same files.</returns>
    public static IEnumerable<OutputFile> All(SiteContents site) => Parts(site).SelectMany(part => part.All());

    /// <summary>The same in parts.</summary>
    /// <param name="site">All that they are made from. What a page does not need is not calculated for it.</param>
    public static ImmutableArray<SitePart> Parts(SiteContents site)
    {
        var (record, make) = (site.Record, new PageBuilders(site));
        return
        [
            SitePart.Below(() => Assets(site.Theme), "assets/", Worker),
            SitePart.Below(() => [PrintDate.File(record, site.Basis.Progress), make.Home.Page()], PrintDate.Path, "index.html"),
            SitePart.Near(
                () => Standing(record).Concat(Withdrawn(record)).SelectMany(each => PagesOf(each, make)),
                path => IdIn(path) is { } id && record.ById.GetValueOrDefault(id) is { } named ? PagesOf(named, make) : []),
            SitePart.Near(
                make.Plain.Forwards,
                path => IdIn(path) is { } id && record.Former.GetValueOrDefault(id) is { } now ? make.Plain.ForwardsTo(now) : []),
            SitePart.Below(() => make.Lists.Frames.Pages(), "frames/index.html", "indexes/frames-"),
            SitePart.Below(() => make.Lists.Cables.Pages(), "cables/index.html", "indexes/cables"),
            SitePart.Below(make.RecordIndexes.Pages, ["indexes/", .. RecordFolders.All.Select(folder => $"{folder}/index.html")]),
            SitePart.Below(() => make.Lacks.Pages(), "lacks/"),
            SitePart.Below(make.Plain.Pages, "search/index.html", "offline/index.html", "404.html", "plans/index.html"),
            SitePart.Below(() => [make.Data.Page()], PagePaths.Data),
            SitePart.Below(make.Format.Pages, "format/"),
            SitePart.Below(
                () => make.Labels.Pages().Concat(make.ReadyLabels.Files()).Concat(make.ReadySubjects.Files()), "labels/"),
            .. site.Plans.Kinds.Select(kind => SitePart.Below(() => make.PagesOf(site.Plans[kind]), kind.Page, kind.Folder + "/")),
            SitePart.Below(make.Iiif, "data/iiif/", "images/"),
            SitePart.Below(() => DocumentFiles.All(site), DocumentFiles.Folder),
        ];
    }

    private const string Worker = "service-worker.js";

    // A worker answers only for what lies below it, so it stands at the root.
    private static IEnumerable<OutputFile> Assets(Theme theme)
    {
        foreach (var asset in theme.Assets)
        {
            yield return asset.Published;
            if (asset.Path == "assets/offline-worker.js") yield return new StreamedFile(
                Worker, stream => stream.Write("importScripts('assets/offline-worker.js');\n"u8));
        }
    }

    private static IEnumerable<OutputFile> PagesOf(ArchiveRecord record, PageBuilders make) => record switch
    {
        { IsWithdrawn: true } => [make.Plain.Withdrawn(record)],
        Frame frame => make.Frames.Create(frame),
        Cable cable => [make.Cables.Create(cable)],
        Photo photo => [make.Photos.Create(photo)],
        Tray tray => make.Trays.Create(tray),
        Unit unit => [make.Units.Create(unit)],
        Piece piece => [make.Pieces.Create(piece)],
        Document document => [make.Documents.Create(document)],
        Box box => [make.Boxes.Create(box)],
        Hall hall => make.Halls.Create(hall),
        LabelScheme scheme => [make.Schemes.Create(scheme)],
        Story story => [make.Stories.Create(story)],
        Display display => [make.Displays.Create(display)],
        CableKind kind => [make.Kinds.Create(kind)],
        ArchiveEvent happened => [make.Events.Create(happened)],
        _ => throw new InvalidOperationException($"a {record.RecordKind.Noun()} has no page"),
    };

    private static IEnumerable<ArchiveRecord> Standing(ArchiveModel record) => ((IEnumerable<ArchiveRecord>)record.Frames)
        .Concat(record.Cables)
        .Concat(record.Photos)
        .Concat(record.Trays)
        .Concat(record.Units)
        .Concat(record.Pieces)
        .Concat(record.Documents)
        .Concat(record.Boxes)
        .Concat(record.Halls)
        .Concat(record.Schemes)
        .Concat(record.Stories)
        .Concat(record.Displays)
        .Concat(record.Kinds)
        .Concat(record.Events)
        .Where(each => !each.IsWithdrawn);

    private static IEnumerable<ArchiveRecord> Withdrawn(ArchiveModel record) =>
        record.ById.Values.Where(each => each.IsWithdrawn).OrderBy(each => each.Id, StringComparer.Ordinal);

    // The id in the path of a record's page, such as frames/R2-05/index.html.
    private static string? IdIn(string path) =>
        path.Split('/') is [var folder, var id, _, ..] && RecordFolders.All.Contains(folder) ? id : null;
}
