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
/// its photos, and one collection of all manifests (IIIF Presentation API 3.0) in <c>data/iiif/</c>.
/// </summary>
/// <remarks>Both want whole addresses, which an archive without <c>base</c> does not have: such a site has none of these files.</remarks>
internal static class IiifFiles
{
    /// <summary>The collection's path.</summary>
    public const string Collection = "data/iiif/collection.json";

    // No id begins so: photos that show no frame are found here.
    private const string Others = "_others";

    private static readonly JsonSerializerOptions Readable = new() { WriteIndented = true, NewLine = "\n", Encoder = JsonText.InMarkup };

    /// <summary>The path of a frame's manifest.</summary>
    /// <param name="frame">Id of the frame.</param>
    public static string PathOf(string frame) => $"data/iiif/{frame}/manifest.json";

    /// <summary>Whether a frame has a manifest: the archive has a base, and a photo of it is published.</summary>
    public static bool Has(SiteContents site, CrossReferences references, Frame frame) =>
        site.Record.Statement.Base is not null && PhotosOf(site, references, frame).Any();

    /// <summary>Whether there is a collection: the archive has a base, and a photo is published.</summary>
    public static bool HasCollection(SiteContents site) =>
        site.Record.Statement.Base is not null && site.Record.Photos.Any(photo => IsPublished(site, photo));

    /// <summary>All files; none for an archive without a base.</summary>
    /// <param name="pageFactory">Knows the lasting addresses of pages.</param>
    public static IEnumerable<OutputFile> Create(SiteContents site, CrossReferences references, PageFactory pageFactory)
    {
        if (site.Record.Statement.Base is null) return [];
        var manifests = new ManifestWriter(site, pageFactory);
        var published = site.Record.Photos.Where(photo => IsPublished(site, photo)).ToList();
        var frames = site.Record.Frames.Where(frame => !frame.IsWithdrawn && PhotosOf(site, references, frame).Any()).ToList();
        var shown = frames.SelectMany(frame => PhotosOf(site, references, frame))
            .Select(photo => photo.Id)
            .ToHashSet(StringComparer.Ordinal);
        var others = published.Where(photo => !shown.Contains(photo.Id)).ToImmutableArray();
        return
        [
            .. published.Select(photo => site.Photos[photo.Id]).DistinctBy(photo => photo.Folder, StringComparer.Ordinal)
                .Select(photo => File(ImageInformation.PathOf(photo), () => ImageInformation.Create(
                    photo, pageFactory.Permalink(photo.Folder), LicenceText.LinkedDataOf(site.Record.Statement.Licence?.Value)))),
            .. frames.Select(frame => File(PathOf(frame.Id), () => manifests.ForFrame(frame, [.. PhotosOf(site, references, frame)]))),
            .. others.IsEmpty ? [] : new[] { File(PathOf(Others), () => manifests.ForOthers(PathOf(Others), others)) },
            .. published.Count == 0
                ? []
                : new[] { File(Collection, () => manifests.All(Collection, frames, others.IsEmpty ? null : PathOf(Others))) },
        ];
    }

    private static IEnumerable<Photo> PhotosOf(SiteContents site, CrossReferences references, Frame frame) =>
        references.PhotosOf[frame.Id].Where(photo => IsPublished(site, photo));

    private static bool IsPublished(SiteContents site, Photo photo) => site.Photos.GetValueOrDefault(photo.Id) is { Folder.Length: > 0 };

    private static StreamedFile File(string path, Func<JsonObject> make) =>
        new(path, stream => stream.Write(Encoding.UTF8.GetBytes(make().ToJsonString(Readable) + "\n")));
}
