using System.Text.Json.Nodes;
using Archive.Site.Contents;

namespace Archive.Site.Iiif;

/// <summary>
/// Writes what a picture's folder holds, as the IIIF Image API 3.0 has it (section 5): the sizes and tiles that may be asked for by
/// address.
/// </summary>
internal static class ImageInformation
{
    public static string PathOf(PublishedPhoto photo) => photo.Folder + "/info.json";

    /// <summary>The document.</summary>
    /// <param name="id">Whole address of the picture's folder, without a slash at its end.</param>
    /// <param name="rights">The licence's address; null where there is none that may be named.</param>
    public static JsonObject Create(PublishedPhoto photo, string id, string? rights)
    {
        var widest = photo.Derivatives[0];
        var info = new JsonObject
        {
            ["@context"] = "http://iiif.io/api/image/3/context.json",
            ["id"] = id,
            ["type"] = "ImageService3",
            ["protocol"] = "http://iiif.io/api/image",
            ["profile"] = "level0",
            ["width"] = photo.Width,
            ["height"] = photo.Height,
        };

        // The whole is never given larger than its widest print; closer looks are for tiles.
        if (widest.Width < photo.Width)
        {
            info["maxWidth"] = widest.Width;
            info["maxHeight"] = widest.Height;
        }

        var sizes = photo.Derivatives.Skip(1).Select(picture => (picture.Width, picture.Height)).ToHashSet();
        if (photo.Pyramid.ScaleFactors is [.., var coarsest]) sizes.Add((Ceiling(photo.Width, coarsest), Ceiling(photo.Height, coarsest)));
        if (sizes.Count > 0) info["sizes"] =
            new JsonArray([.. sizes.Order().Select(size => new JsonObject { ["width"] = size.Width, ["height"] = size.Height })]);
        if (photo.Pyramid.IsCut)
        {
            info["tiles"] = new JsonArray(new JsonObject
            {
                ["width"] = photo.Pyramid.TileSize,
                ["scaleFactors"] = new JsonArray([.. photo.Pyramid.ScaleFactors.Select(scale => JsonValue.Create(scale))]),
            });
        }

        if (rights is not null) info["rights"] = rights;
        return info;
    }

    /// <summary>How other documents refer to it.</summary>
    /// <param name="id">Whole address of the picture's folder.</param>
    public static JsonArray ServiceAt(string id) => new(new JsonObject { ["id"] = id, ["type"] = "ImageService3", ["profile"] = "level0" });

    private static int Ceiling(int length, int scale) => (length + scale - 1) / scale;
}
