using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Archive.Diagnostics.Rendering;
using Archive.Markup.Facts;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Storage.Output;

namespace Archive.Site.Iiif;

/// <summary>
/// What IIIF viewers read: for each picture <c>info.json</c> beside its tiles (IIIF Image API 3.0, level 0), for each frame a manifest of
/// its photos, for each scanned document one of its pages, and one collection of all manifests (IIIF Presentation API 3.0) in
/// <c>data/iiif/</c>.
/// </summary>
/// <remarks>Both want whole addresses, which an archive without <c>base</c> does not have: such a site has none of these files.</remarks>
internal static class IiifFiles
{
    /// <summary>The collection's path.</summary>
    public const string Collection = "data/iiif/collection.json";

    // No id begins so: photos that show no frame are found here.
    private const string Others = "_others";

    private static readonly JsonSerializerOptions Readable = new() { WriteIndented = true, NewLine = "\n", Encoder = JsonText.InMarkup };

    /// <summary>The path of the manifest of a frame or document.</summary>
    /// <param name="id">Its id.</param>
    public static string PathOf(string id) => $"data/iiif/{id}/manifest.json";

    /// <summary>Whether a frame has a manifest: the archive has a base, and a photo of it is published.</summary>
    public static bool Has(SiteContents site, CrossReferences references, Frame frame) =>
        site.Record.Statement.Base is not null && PhotosOf(site, references, frame).Any();

    /// <summary>Whether a document has a manifest: the archive has a base, and a page of it is published as a picture.</summary>
    public static bool HasDocument(SiteContents site, Document document) =>
        site.Record.Statement.Base is not null && PagesOf(site, document).Any();

    /// <summary>Whether there is a collection: the archive has a base, and a photo or a page is published.</summary>
    public static bool HasCollection(SiteContents site) =>
        site.Record.Statement.Base is not null
        && (site.Record.Photos.Any(photo => IsPublished(site, photo))
            || site.Record.Documents.Any(document => HasDocument(site, document)));

    /// <summary>All files; none for an archive without a base.</summary>
    /// <param name="pageFactory">Knows the lasting addresses of pages.</param>
    public static IEnumerable<OutputFile> Create(SiteContents site, CrossReferences references, PageFactory pageFactory)
    {
        if (site.Record.Statement.Base is null) return [];
        var manifests = new ManifestWriter(site, pageFactory);
        var published = site.Record.Photos.Where(photo => IsPublished(site, photo)).ToList();
        var documents = site.Record.Documents.Where(document => HasDocument(site, document)).ToList();
        var frames = site.Record.Frames.Where(frame => !frame.IsWithdrawn && PhotosOf(site, references, frame).Any()).ToList();
        var shown = frames.SelectMany(frame => PhotosOf(site, references, frame))
            .Select(photo => photo.Id)
            .ToHashSet(StringComparer.Ordinal);
        var others = published.Where(photo => !shown.Contains(photo.Id)).ToImmutableArray();
        return
        [
            .. published.Concat(documents.SelectMany(document => PagesOf(site, document)))
                .Select(photo => site.Photos[photo.Id]).DistinctBy(photo => photo.Folder, StringComparer.Ordinal)
                .Select(photo => File(ImageInformation.PathOf(photo), () => ImageInformation.Create(
                    photo, pageFactory.Permalink(photo.Folder), LicenceText.LinkedDataOf(site.Record.Statement.Licence?.Value)))),
            .. frames.Select(frame => File(PathOf(frame.Id), () => manifests.ForFrame(frame, [.. PhotosOf(site, references, frame)]))),
            .. others.IsEmpty ? [] : new[] { File(PathOf(Others), () => manifests.ForOthers(PathOf(Others), others)) },
            .. documents.Select(document => File(
                PathOf(document.Id), () => manifests.ForDocument(document, [.. PagesOf(site, document)]))),
            .. published.Count + documents.Count == 0
                ? []
                : new[] { File(Collection, () => manifests.All(Collection, frames, documents, others.IsEmpty ? null : PathOf(Others))) },
        ];
    }

    private static IEnumerable<Photo> PagesOf(SiteContents site, Document document) =>
        (site.Documents.GetValueOrDefault(document.Id)?.Pictures ?? []).Where(page => IsPublished(site, page));

    private static IEnumerable<Photo> PhotosOf(SiteContents site, CrossReferences references, Frame frame) =>
        references.PhotosOf[frame.Id].Where(photo => IsPublished(site, photo));

    private static bool IsPublished(SiteContents site, Photo photo) => site.Photos.GetValueOrDefault(photo.Id) is { Folder.Length: > 0 };

    private static StreamedFile File(string path, Func<JsonObject> make) =>
        new(path, stream => stream.Write(Encoding.UTF8.GetBytes(make().ToJsonString(Readable) + "\n")));
}
