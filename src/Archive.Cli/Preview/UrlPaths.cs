using System.Collections.Frozen;

namespace Archive.Cli.Preview;

/// <summary>From an address to a file of the site, and to what kind of file it is.</summary>
internal static class UrlPaths
{
    private static readonly FrozenDictionary<string, string> ContentTypes = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase)
    {
        [".html"] = "text/html; charset=utf-8",
        [".css"] = "text/css; charset=utf-8",
        [".js"] = "text/javascript; charset=utf-8",
        [".json"] = "application/json; charset=utf-8",
        [".csv"] = "text/csv; charset=utf-8",
        [".svg"] = "image/svg+xml; charset=utf-8",
        [".txt"] = "text/plain; charset=utf-8",
        [".sha256"] = "text/plain; charset=utf-8",
        [".jpg"] = "image/jpeg",
        [".png"] = "image/png",
        [".webp"] = "image/webp",
        [".heic"] = "image/heic",
        [".heif"] = "image/heif",
        [".avif"] = "image/avif",
        [".woff2"] = "font/woff2",
        [".pdf"] = "application/pdf",
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    /// <summary>The file that an address names.</summary>
    /// <param name="has">Whether the site has a file of a path.</param>
    /// <param name="path">Path of the address, decoded, beginning with <c>/</c>.</param>
    /// <returns>Null where there is none among them.</returns>
    internal static FoundFile? Find(Func<string, bool> has, string path)
    {
        if (!path.StartsWith('/')) return null;
        var name = path[1..];
        if (has(name)) return new FoundFile(name, IsFolderWithoutSlash: false);
        var index = name.Length == 0 || name.EndsWith('/') ? name + "index.html" : name + "/index.html";
        return has(index) ? new FoundFile(index, IsFolderWithoutSlash: name.Length > 0 && !name.EndsWith('/')) : null;
    }

    /// <summary>The media type of a file, by the end of its name.</summary>
    internal static string ContentType(string file) => ContentTypes.GetValueOrDefault(Path.GetExtension(file), "application/octet-stream");
}

/// <summary>A file that an address names.</summary>
/// <param name="Path">Its path below the site's folder.</param>
/// <param name="IsFolderWithoutSlash">Whether the address is of its folder but without the slash by which the page's links are
/// resolved.</param>
internal readonly record struct FoundFile(string Path, bool IsFolderWithoutSlash);
