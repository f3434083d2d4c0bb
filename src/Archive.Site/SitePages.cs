using Archive.Markup.Templates;
using Archive.Records.Model;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Storage.Output;

namespace Archive.Site;

/// <summary>
/// All pages of the site, one after the other, each made when its turn comes; the theme's assets; and what IIIF viewers read.
/// </summary>
public static class SitePages
{
    /// <param name="site">All that they are made from.</param>
    /// <returns>Files in a fixed order: the same contents give the same files.</returns>
    public static IEnumerable<OutputFile> All(SiteContents site)
    {
        var (record, make) = (site.Record, new PageBuilders(site));
        return Assets(site.Theme)
            .Append(PrintDate.File(record, site.Basis.Progress))
            .Append(make.Home.Page())
            .Concat(Standing(record.Frames).SelectMany(make.Frames.Create))
            .Concat(Standing(record.Cables).Select(make.Cables.Create))
            .Concat(make.Photos.Pages())
            .Concat(Standing(record.Trays).SelectMany(make.Trays.Create))
            .Concat(Standing(record.Halls).Select(make.Halls.Create))
            .Concat(Standing(record.Schemes).Select(make.Schemes.Create))
            .Concat(Standing(record.Stories).Select(make.Stories.Create))
            .Concat(Standing(record.Displays).Select(make.Displays.Create))
            .Concat(Standing(record.Kinds).Select(make.Kinds.Create))
            .Concat(Standing(record.Events).Select(make.Events.Create))
            .Concat(record.ById.Values
                .Where(one => one.IsWithdrawn)
                .OrderBy(one => one.Id, StringComparer.Ordinal)
                .Select(make.Plain.Withdrawn))
            .Concat(make.Plain.Forwards())
            .Concat(make.Lists.Frames.Pages())
            .Concat(make.Lists.Cables.Pages())
            .Concat(make.RecordIndexes.Pages())
            .Concat(make.Lacks.Pages())
            .Concat(make.Plain.Pages())
            .Concat(make.Format.Pages())
            .Concat(make.Labels.Pages())
            .Concat(make.ReadyLabels.Files())
            .Concat(make.ReadySubjects.Files())
            .Concat(site.Plans.SelectMany(make.PagesOf))
            .Concat(make.Iiif);
    }

    // A worker answers only for what lies below it, so it stands at the root.
    private static IEnumerable<OutputFile> Assets(Theme theme)
    {
        foreach (var asset in theme.Assets)
        {
            yield return new CopiedFile(asset.Path, asset.FullPath, null);
            if (asset.Path == "assets/offline-worker.js") yield return new StreamedFile(
                "service-worker.js", stream => stream.Write("importScripts('assets/offline-worker.js');\n"u8));
        }
    }

    private static IEnumerable<T> Standing<T>(IEnumerable<T> records)
        where T : ArchiveRecord => records.Where(record => !record.IsWithdrawn);
}
