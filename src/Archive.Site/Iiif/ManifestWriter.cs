using System.Collections.Immutable;
using System.Text.Json.Nodes;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Layout;

namespace Archive.Site.Iiif;

/// <summary>
/// Writes manifests and the collection (IIIF Presentation API 3.0): each photo a canvas with its picture painted on it, its regions as
/// comments.
/// </summary>
internal sealed class ManifestWriter(SiteContents site, PageFactory pageFactory)
{
    private const string Context = "http://iiif.io/api/presentation/3/context.json";
    private const int ThumbnailWidth = 480;

    /// <summary>The manifest of a frame.</summary>
    /// <param name="photos">The published photos that show it; at least one.</param>
    public JsonObject ForFrame(Frame frame, ImmutableArray<Photo> photos)
    {
        var manifest = Manifest(IiifFiles.PathOf(frame.Id), LabelOf(frame), photos);
        manifest["metadata"] = new JsonArray([Entry("Frame", frame.Id), .. frame.Module is { } module
            ? [Entry("Module", module.Value)]
            : Enumerable.Empty<JsonNode>(), .. OfArchive()]);
        if (frame.About is { } about) manifest["summary"] = Text(MarkdownText.Plain(about.Value));
        manifest["homepage"] = Page(PagePaths.For(frame), LabelOf(frame));
        return manifest;
    }

    /// <summary>The manifest of a document that was scanned.</summary>
    /// <param name="pages">The published pages; at least one.</param>
    public JsonObject ForDocument(Document document, ImmutableArray<Photo> pages)
    {
        var manifest = Head("Manifest", IiifFiles.PathOf(document.Id), document.Title);
        AddRights(manifest, document.Rights ?? site.Record.Statement.Licence);
        manifest["behavior"] = new JsonArray(JsonValue.Create("individuals"));
        manifest["thumbnail"] = Thumbnail(site.Photos[pages[0].Id]);
        var folder = FolderOf(IiifFiles.PathOf(document.Id));
        manifest["items"] = new JsonArray([.. pages.Select(page =>
            Canvas(page, $"{folder}/canvas/{page.Id.Split('/')[^1]}", $"Page {page.Id.Split('/')[^1]}", PagePaths.For(document), []))]);
        manifest["metadata"] = new JsonArray(
        [
            Entry("Document", Phrase.Sentence(DocumentText.Describe(document))[..^1]),
            .. document.Date is { } date ? [Entry("Date", DateText.Format(date.Value))] : Enumerable.Empty<JsonNode>(),
            .. document.Author is { } author ? [Entry("Author", author.Value)] : Enumerable.Empty<JsonNode>(),
            .. OfArchive()
        ]);
        manifest["homepage"] = Page(PagePaths.For(document), document.Title);
        return manifest;
    }

    /// <summary>The manifest of photos that show no frame.</summary>
    /// <param name="photos">The photos; at least one.</param>
    public JsonObject ForOthers(string path, ImmutableArray<Photo> photos)
    {
        var manifest = Manifest(path, "Photos without a frame", photos);
        manifest["metadata"] = new JsonArray([.. OfArchive()]);
        return manifest;
    }

    /// <summary>The collection of all manifests.</summary>
    /// <param name="frames">The frames that have a manifest.</param>
    /// <param name="documents">The documents that have one.</param>
    /// <param name="others">Path of the manifest of other photos; null if there is none.</param>
    public JsonObject All(string path, IEnumerable<Frame> frames, IEnumerable<Document> documents, string? others)
    {
        var collection = Head("Collection", path, Title);
        collection["metadata"] = new JsonArray([.. OfArchive()]);
        if (site.Record.Statement.About is { } about) collection["summary"] = Text(MarkdownText.Plain(about.Value));
        AddRights(collection, site.Record.Statement.Licence);
        collection["homepage"] = Page("index.html", Title);
        collection["items"] = new JsonArray(
        [
            .. frames.Select(frame => Reference(IiifFiles.PathOf(frame.Id), LabelOf(frame))),
            .. documents.Select(document => Reference(IiifFiles.PathOf(document.Id), document.Title)),
            .. others is null ? [] : new[] { Reference(others, "Photos without a frame") },
        ]);
        return collection;
    }

    private string Title => site.Record.Statement.Title?.Value ?? "Untitled archive";

    private JsonObject Manifest(string path, string label, ImmutableArray<Photo> photos)
    {
        var manifest = Head("Manifest", path, label);
        AddRights(manifest, site.Record.Statement.Licence);
        manifest["thumbnail"] = Thumbnail(site.Photos[photos[0].Id]);
        var folder = FolderOf(path);
        manifest["items"] = new JsonArray([.. photos.Select(photo => Canvas(
            photo,
            $"{folder}/canvas/{photo.Id}",
            photo.Caption is { } caption ? $"{photo.Id}: {MarkdownText.Plain(caption.Value)}" : photo.Id,
            PagePaths.For(photo),
            [.. MetadataOf(photo, site.Photos[photo.Id])]))]);
        return manifest;
    }

    private string FolderOf(string manifest) => pageFactory.Permalink(manifest)[..^"/manifest.json".Length];

    private JsonObject Canvas(Photo photo, string id, string label, string page, ImmutableArray<JsonNode> metadata)
    {
        var published = site.Photos[photo.Id];
        var canvas = new JsonObject
        {
            ["id"] = id,
            ["type"] = "Canvas",
            ["label"] = Text(label),
            ["width"] = published.Width,
            ["height"] = published.Height,
            ["metadata"] = new JsonArray([.. metadata]),
            ["homepage"] = Page(page, page == PagePaths.For(photo) ? $"Photo {photo.Id}" : label),
            ["thumbnail"] = Thumbnail(published),
            ["items"] = new JsonArray(AnnotationPage($"{id}/page", Painting(published, id))),
        };
        if (!photo.Regions.IsEmpty)
        {
            canvas["annotations"] = new JsonArray(
                AnnotationPage($"{id}/regions", [.. photo.Regions.Select((region, number) => Comment(region, published, id, number + 1))]));
        }

        return canvas;
    }

    private JsonObject Painting(PublishedPhoto photo, string canvas) => new()
    {
        ["id"] = canvas + "/picture",
        ["type"] = "Annotation",
        ["motivation"] = "painting",
        ["body"] = Image(photo, photo.Derivatives[0]),
        ["target"] = canvas,
    };

    private JsonObject Comment(PhotoRegion region, PublishedPhoto photo, string canvas, int number)
    {
        var box = region.Box.Value;
        var (left, top) = ((int)(box.Left * photo.Width), (int)(box.Top * photo.Height));
        var (right, bottom) = (Past(box.Left + box.Width, photo.Width), Past(box.Top + box.Height, photo.Height));
        string[] said =
        [
            string.Join(", ", region.Shows.Select(id => id.Value)),
            region.Reads is { } reads ? $"“{reads.Value}”" : "",
            region.Note is { } note ? MarkdownText.Plain(note.Value) : ""
        ];
        var text = string.Join(": ", said.Where(part => part.Length > 0));
        return new JsonObject
        {
            ["id"] = $"{canvas}/region/{Phrase.Number(number)}",
            ["type"] = "Annotation",
            ["motivation"] = "commenting",
            ["body"] = new JsonObject
            {
                ["type"] = "TextualBody",
                ["value"] = text.Length > 0 ? text : $"part {Phrase.Number(number)}",
                ["language"] = Language,
                ["format"] = "text/plain"
            },
            ["target"] =
                $"{canvas}#xywh={Phrase.Number(left)},{Phrase.Number(top)},{Phrase.Number(Math.Max(1, right - left))},{Phrase.Number(Math.Max(1, bottom - top))}",
        };
    }

    // The first pixel behind a box; 0.1 + 0.2 is not to count for more than 0.3.
    private static int Past(double edge, int length) => Math.Min(length, (int)Math.Ceiling(Math.Round(edge * length, 6)));

    private JsonArray Thumbnail(PublishedPhoto photo) =>
        new(Image(photo, photo.Derivatives.LastOrDefault(picture => picture.Width >= ThumbnailWidth) ?? photo.Derivatives[0]));

    private JsonObject Image(PublishedPhoto photo, PublishedPicture picture) => new()
    {
        ["id"] = pageFactory.Permalink(picture.Path),
        ["type"] = "Image",
        ["format"] = "image/jpeg",
        ["width"] = picture.Width,
        ["height"] = picture.Height,
        ["service"] = ImageInformation.ServiceAt(pageFactory.Permalink(photo.Folder)),
    };

    private IEnumerable<JsonNode> MetadataOf(Photo photo, PublishedPhoto published)
    {
        yield return Entry("Photo", photo.Id);
        if (photo.Taken is { } taken) yield return Entry("Taken", DateText.Format(taken.Value));
        else if (published.Taken is { } camera) yield return Entry("Taken", camera + ", according to the camera");
        if (photo.By is { } by) yield return Entry("Taken by", EvidenceText.PersonName(by.Value, site.Record));
        if (photo.View is { } view) yield return Entry("View", Phrase.For(view.Value));
        if (!photo.Shows.IsEmpty) yield return Entry("Shows", string.Join(", ", photo.Shows.Select(id => id.Value)));
    }

    private IEnumerable<JsonNode> OfArchive()
    {
        yield return Entry("Archive", Title);
        if (site.Record.Statement.AsFound is { } found) yield return Entry("As found", DateText.Format(found.Value));
        if (site.Record.Statement.Custodian is { } custodian) yield return Entry("Custodian", custodian.Value);
    }

    private void AddRights(JsonObject to, Stated<string>? licence)
    {
        var statement = site.Record.Statement;
        if (statement.Credit is { } credit) to["requiredStatement"] = Entry("Credit", credit.Value);
        if (LicenceText.LinkedDataOf(licence?.Value) is { } rights) to["rights"] = rights;
        if (statement.Custodian is { } custodian)
        {
            to["provider"] = new JsonArray(new JsonObject
            {
                ["id"] = pageFactory.Permalink("index.html"),
                ["type"] = "Agent",
                ["label"] = Text(custodian.Value),
                ["homepage"] = Page("index.html", Title)
            });
        }
    }

    private JsonObject Head(string type, string path, string label) =>
        new() { ["@context"] = Context, ["id"] = pageFactory.Permalink(path), ["type"] = type, ["label"] = Text(label) };

    private JsonObject Reference(string path, string label) =>
        new() { ["id"] = pageFactory.Permalink(path), ["type"] = "Manifest", ["label"] = Text(label) };

    private static JsonObject AnnotationPage(string id, params JsonObject[] items) =>
        new() { ["id"] = id, ["type"] = "AnnotationPage", ["items"] = new JsonArray([.. items]) };

    private JsonArray Page(string path, string label) =>
        new(new JsonObject { ["id"] = pageFactory.Permalink(path), ["type"] = "Text", ["label"] = Text(label), ["format"] = "text/html" });

    private JsonObject Entry(string label, string value) =>
        new() { ["label"] = new JsonObject { ["en"] = new JsonArray(label) }, ["value"] = Text(value) };

    private JsonObject Text(string text) => new() { [Language] = new JsonArray(text) };

    private string Language => site.Record.Statement.Language?.Value ?? "en";

    private static string LabelOf(Frame frame) => frame.Title == frame.Id ? frame.Id : $"{frame.Id} {frame.Title}";
}
