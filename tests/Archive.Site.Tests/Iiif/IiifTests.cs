using System.Collections.Frozen;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Archive.Markup.Facts;
using Archive.Records.References;
using Archive.Site.Contents;
using Archive.Site.Iiif;
using Archive.Site.Layout;
using Archive.Site.Tests.Pages;
using Archive.Storage.Output;
using Xunit;

namespace Archive.Site.Tests.Iiif;

/// <summary>Documents for IIIF viewers, compared with the required properties of the Presentation API 3.0 (its appendix A) and the Image
/// API 3.0 (sections 4 and 5, compliance level 0), rule by rule: <see cref="IiifRules"/>.</summary>
public sealed class IiifTests
{
    private const string Statement =
        "title: A sketch\nlanguage: en\ncustodian: A trust\nrights: {licence: CC-BY-4.0, credit: A trust}\nas_found: 2026-05-12\n";

    [Fact]
    public void Every_document_keeps_the_rules()
    {
        var files = Files(Statement + "base: https://archive.example/sketch/\n");
        Assert.Equal(
            [
                "data/iiif/R-1/manifest.json", "data/iiif/R-2/manifest.json", "data/iiif/_others/manifest.json",
                "data/iiif/collection.json", "images/aa/p1/info.json", "images/aa/p2/info.json", "images/aa/p3/info.json"
            ],
            files.Keys.Order(StringComparer.Ordinal));
        foreach (var (path, document) in files)
        {
            Assert.Equal("https://archive.example/sketch/" + (path.EndsWith("info.json", StringComparison.Ordinal)
                ? path[..^"/info.json".Length]
                : path), (string?)document["id"]);
            Assert.Equal([], IiifRules.Broken(document));
        }
    }

    [Fact]
    public void A_manifest_shows_the_frame_s_photos_with_their_regions_and_rights()
    {
        var manifest = Files(Statement + "base: https://archive.example/sketch/\n")["data/iiif/R-1/manifest.json"];
        Assert.Equal("http://creativecommons.org/licenses/by/4.0/", (string?)manifest["rights"]);
        Assert.Equal("A trust", (string?)manifest["requiredStatement"]!["value"]!["en"]![0]);
        var canvases = manifest["items"]!.AsArray();
        Assert.Equal(["P-1: Front <b>", "P-2"], canvases.Select(canvas => (string?)canvas!["label"]!["en"]![0]));
        Assert.Equal((6000, 4000), ((int)canvases[0]!["width"]!, (int)canvases[0]!["height"]!));
        var painting = canvases[0]!["items"]![0]!["items"]![0]!;
        Assert.Equal("https://archive.example/sketch/images/aa/p1/full/max/0/default.jpg", (string?)painting["body"]!["id"]);
        Assert.Equal("https://archive.example/sketch/images/aa/p1", (string?)painting["body"]!["service"]![0]!["id"]);
        var region = canvases[0]!["annotations"]![0]!["items"]![0]!;
        Assert.Equal(("commenting", "R-2: the jack", "https://archive.example/sketch/data/iiif/R-1/canvas/P-1#xywh=600,1600,1200,401"),
            ((string?)region["motivation"], (string?)region["body"]!["value"], (string?)region["target"]));
    }

    [Theory]
    [InlineData(6000, 4000, "2400x1600 1280x853 480x320", 2400, 1600, "480x320 750x500 1280x853", "1 2 4 8")]
    [InlineData(2000, 1500, "2000x1500 1280x960 480x360", null, null, "480x360 1280x960", "")]
    [InlineData(900, 600, "900x600 480x320", null, null, "480x320", "")]
    public void Information_names_what_there_is(
        int width, int height, string prints, int? maxWidth, int? maxHeight, string sizes, string scales)
    {
        var pictures = prints.Split(' ')
            .Select(size => size.Split('x'))
            .Select(size => new PublishedPicture(Number(size[0]), Number(size[1]), "x"));
        var info = ImageInformation.Create(
            new PublishedPhoto(width, height, null, [.. pictures]) { Folder = "images/aa/p1" },
            "https://archive.example/images/aa/p1",
            null);
        Assert.Equal([], IiifRules.Broken(info));
        Assert.Equal((maxWidth, maxHeight), ((int?)info["maxWidth"], (int?)info["maxHeight"]));
        Assert.Equal(sizes, string.Join(' ', info["sizes"]!.AsArray().Select(size => $"{size!["width"]}x{size["height"]}")));
        Assert.Equal(scales, string.Join(' ', info["tiles"]?[0]!["scaleFactors"]!.AsArray().Select(scale => scale!.ToString()) ?? []));
    }

    /// <summary>Whole addresses are demanded, and an archive without a base has none.</summary>
    [Fact]
    public void Without_a_base_there_are_none() => Assert.Empty(Files(Statement));

    [Theory]
    [InlineData("CC-BY-SA-4.0", "http://creativecommons.org/licenses/by-sa/4.0/"), InlineData(
        "CC0-1.0", "http://creativecommons.org/publicdomain/zero/1.0/")]
    [InlineData("https://rightsstatements.org/vocab/InC/1.0/", "http://rightsstatements.org/vocab/InC/1.0/"), InlineData(
        "MIT", null), InlineData("https://elsewhere.example/l", null), InlineData(null, null)]
    public void Rights_are_in_the_form_that_is_asked_for(string? licence, string? rights) =>
        Assert.Equal(rights, LicenceText.LinkedDataOf(licence));

    /// <summary>The test of the rules: each sees what it is for.</summary>
    [Theory]
    [InlineData("id", "\"relative\""), InlineData("id", "null"), InlineData("type", "\"Manifesto\""), InlineData(
        "label", "\"plain\""), InlineData("items", "[]"), InlineData("@context", "\"http://iiif.io/api/presentation/2/context.json\"")]
    [InlineData(
        "rights", "\"https://creativecommons.org/licenses/by/4.0/\""), InlineData("requiredStatement", "{}"), InlineData("thumbnail", "{}")]
    public void A_broken_manifest_is_seen(string key, string value)
    {
        var manifest = Files(Statement + "base: https://archive.example/sketch/\n")["data/iiif/R-1/manifest.json"];
        manifest[key] = JsonNode.Parse(value);
        Assert.NotEmpty(IiifRules.Broken(manifest));
    }

    private static int Number(string digits) => int.Parse(digits, System.Globalization.CultureInfo.InvariantCulture);

    private static Dictionary<string, JsonObject> Files(string statement)
    {
        var sketch = Sketch.Of(
            ("archive.yaml", statement),
            ("frames/f.yaml", "- {id: R-1, name: one, module: m, about: 'It *is*.'}\n- {id: R-2, name: two}\n- {id: R-3, name: three}\n"),
            (
                "photos/p.yaml",
                "- {id: P-1, file: a.jpg, shows: R-1, caption: 'Front <b>', view: front, taken: 2026-05-12, regions: [{box: [0.1, 0.4, 0.2, 0.1001], shows: R-2, note: the jack}, {box: [0.9, 0.9, 0.1, 0.1]}]}\n"
                    + "- {id: P-2, file: b.jpg, shows: [R-1]}\n- {id: P-3, file: c.jpg}\n- {id: P-4, file: d.jpg, shows: R-3}\n"));
        var photos = new[] { "1", "2", "3" }.ToFrozenDictionary(n => "P-" + n, n => new PublishedPhoto(6000, 4000, "2026-05-12 10:00",
            [.. new[] { (2400, 1600), (1280, 853), (480, 320) }.Select(size => new PublishedPicture(
                size.Item1,
                size.Item2,
                $"images/aa/p{n}/full/{(size.Item1 == 2400 ? "max" : $"{size.Item1},{size.Item2}")}/0/default.jpg"))])
        { Folder = "images/aa/p" + n });
        var site = sketch.Contents with { Photos = photos };
        return IiifFiles.Create(site, new CrossReferences(site.Record), new PageFactory(site))
            .Cast<StreamedFile>()
            .ToDictionary(file => file.Path, file =>
            {
                using var stream = new MemoryStream();
                file.Write(stream);
                return JsonNode.Parse(Encoding.UTF8.GetString(stream.ToArray()))!.AsObject();
            });
    }
}

/// <summary>The rules of both APIs that a document of ours must keep.</summary>
internal static partial class IiifRules
{
    private static readonly FrozenSet<string> Resources = FrozenSet.Create(
        "Manifest", "Collection", "Canvas", "AnnotationPage", "Annotation", "Image", "Text", "Agent", "TextualBody", "ImageService3");

    /// <summary>The rules that a document breaks.</summary>
    public static List<string> Broken(JsonObject document)
    {
        var broken = new List<string>();
        var type = Text(document["type"]);
        Need(Text(document["@context"]) == (type == "ImageService3"
            ? "http://iiif.io/api/image/3/context.json"
            : "http://iiif.io/api/presentation/3/context.json"), "@context", document, broken);
        if (type == "ImageService3") Information(document, broken);
        else
        {
            Need(type is "Manifest" or "Collection", "a manifest or collection at the top", document, broken);
            Resource(document, broken, null);
        }

        var ids = Ids(document).ToList();
        foreach (var twice in ids.GroupBy(id => id).Where(group => group.Count() > 1)) broken.Add($"id {twice.Key} stands twice");
        return broken;
    }

    private static void Information(JsonObject info, List<string> broken)
    {
        Need(IsAddress(info["id"]) && !Text(info["id"])!.EndsWith('/'), "id without a slash at its end", info, broken);
        Need(Text(info["protocol"]) == "http://iiif.io/api/image"
            && Text(info["profile"]) == "level0", "protocol and profile", info, broken);
        var (width, height) = ((int?)info["width"] ?? 0, (int?)info["height"] ?? 0);
        Need(width > 0 && height > 0, "width and height", info, broken);
        Need(info["maxHeight"] is null || info["maxWidth"] is not null, "maxWidth where maxHeight is given", info, broken);
        foreach (var size in info["sizes"]?.AsArray() ?? [])
        {
            Need((int)size!["width"]! <= width && (int)size["height"]! <= height, "sizes within the picture", info, broken);
        }

        foreach (var tile in info["tiles"]?.AsArray() ?? [])
        {
            var factors = tile!["scaleFactors"]!.AsArray().Select(factor => (int)factor!).ToList();
            Need((int)tile["width"]! > 0
                && factors.Count == factors.Distinct().Count()
                && factors.TrueForAll(factor => factor > 0), "tiles", info, broken);
        }
    }

    private static void Resource(JsonObject resource, List<string> broken, string? canvas)
    {
        var type = Text(resource["type"]) ?? "";
        Need(Resources.Contains(type), "a known type", resource, broken);
        if (type != "TextualBody") Need(IsAddress(resource["id"]), "a whole http(s) address as id", resource, broken);
        foreach (var text in new[] { "label", "summary" }.Where(resource.ContainsKey))
            Need(IsLanguageMap(resource[text]), $"a language map as {text}", resource, broken);
        foreach (var entry in (resource["metadata"]?.AsArray()
            ?? []).Concat(resource.ContainsKey("requiredStatement") ? [resource["requiredStatement"]] : []))
        {
            Need(entry is JsonObject pair
                && IsLanguageMap(pair["label"])
                && IsLanguageMap(pair["value"]), "label and value as language maps", resource, broken);
        }

        if (resource.ContainsKey("rights"))
            Need(Rights().IsMatch(Text(resource["rights"]) ?? ""), "rights in the http form", resource, broken);
        foreach (var list in new[] { "thumbnail", "homepage", "provider", "service", "annotations" }.Where(resource.ContainsKey))
            Need(resource[list] is JsonArray { Count: > 0 }, $"{list} as an array", resource, broken);
        if (type is "Manifest" or "Collection" or "Agent") Need(IsLanguageMap(resource["label"]), "a label", resource, broken);
        if (type is "Manifest" or "Collection")
            Need(resource["items"] is JsonArray { Count: > 0 } || canvas is "", "items", resource, broken);
        if (type == "Canvas")
        {
            Need((int?)resource["width"] > 0 && (int?)resource["height"] > 0, "width and height of a canvas", resource, broken);
            Need(!Text(resource["id"])!.Contains('#', StringComparison.Ordinal), "a canvas id without #", resource, broken);
            canvas = Text(resource["id"]);
            Need((resource["annotations"]?.AsArray() ?? [])
                .SelectMany(page => page!["items"]!.AsArray())
                .All(item => Text(item!["motivation"]) != "painting"), "no painting among annotations", resource, broken);
            Need(resource["items"]!
                .AsArray()
                .SelectMany(page => page!["items"]!.AsArray())
                .All(item => Text(item!["motivation"]) == "painting"), "only painting among items", resource, broken);
        }

        if (type == "Annotation") Need(Text(resource["target"])?.Split('#')[0] == canvas
            && Text(resource["motivation"]) is not null, "a target on the canvas", resource, broken);
        if (type == "Annotation" && Text(resource["target"])!.Contains('#', StringComparison.Ordinal))
            Need(Fragment().IsMatch(Text(resource["target"])!), "a media fragment in whole pixels", resource, broken);
        foreach (var list in new[] { "items", "annotations", "thumbnail", "homepage", "provider", "service" })
        {
            foreach (var part in (resource[list] as JsonArray ?? []).OfType<JsonObject>())
                Resource(part, broken, type == "Collection" ? "" : canvas);
        }

        if (resource["body"] is JsonObject body) Resource(body, broken, canvas);
    }

    private static IEnumerable<string> Ids(JsonNode? node) => node switch
    {
        JsonObject { } part when Text(part["type"]) is "Canvas" or "AnnotationPage" or "Annotation" or "Manifest" =>
            part.Select(pair => pair.Value).SelectMany(Ids).Prepend(Text(part["id"]) ?? ""),
        JsonObject part => part.Select(pair => pair.Value).SelectMany(Ids),
        JsonArray list => list.SelectMany(Ids),
        _ => [],
    };

    private static void Need(bool holds, string rule, JsonObject where, List<string> broken)
    {
        if (!holds) broken.Add($"{rule}: {Text(where["id"])}");
    }

    private static string? Text(JsonNode? node) => node is JsonValue value && value.TryGetValue<string>(out var text) ? text : null;

    private static bool IsAddress(JsonNode? node) =>
        Uri.TryCreate(Text(node), UriKind.Absolute, out var address) && address.Scheme is "http" or "https";

    private static bool IsLanguageMap(JsonNode? node) => node is JsonObject { Count: > 0 } map
        && map.All(pair => Language().IsMatch(pair.Key)
            && pair.Value is JsonArray { Count: > 0 } list
            && list.All(text => Text(text) is not null));

    [GeneratedRegex("^http://(creativecommons[.]org|rightsstatements[.]org)/.+/\\z")]
    private static partial Regex Rights();

    [GeneratedRegex("#xywh=[0-9]+,[0-9]+,[1-9][0-9]*,[1-9][0-9]*\\z")]
    private static partial Regex Fragment();

    [GeneratedRegex("^([a-z]{2,3}(-[A-Za-z0-9]+)*|none)\\z")]
    private static partial Regex Language();
}
