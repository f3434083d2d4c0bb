using System.Collections.Frozen;

namespace Archive.Cli;

/// <summary>From an address to a file of the site, and to what kind of file it is.</summary>
internal static class SitePaths
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
        [".woff2"] = "font/woff2",
        [".pdf"] = "application/pdf",
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    /// <summary>The file that an address names.</summary>
    /// <param name="site">Full path of the site's folder.</param>
    /// <param name="path">Path of the address, percent-encoded, beginning with <c>/</c>.</param>
    /// <returns>Null where there is none below the folder.</returns>
    internal static FoundFile? Find(string site, string path)
    {
        var parts = Uri.UnescapeDataString(path).Split('/', StringSplitOptions.RemoveEmptyEntries);

        // No part may lead upwards, be hidden, or mean something else to a disk than a name.
        if (parts.Any(part => part.StartsWith('.') || part.AsSpan().ContainsAny('\\', ':', '\0'))) return null;
        var full = Path.Combine([site, .. parts]);
        if (File.Exists(full)) return path.EndsWith('/') ? null : new FoundFile(full, IsFolderWithoutSlash: false);
        var index = Path.Combine(full, "index.html");
        return File.Exists(index) ? new FoundFile(index, IsFolderWithoutSlash: !path.EndsWith('/')) : null;
    }

    /// <summary>The media type of a file, by the end of its name.</summary>
    /// <param name="file">Its name.</param>
    internal static string ContentType(string file) => ContentTypes.GetValueOrDefault(Path.GetExtension(file), "application/octet-stream");
}

/// <summary>A file that an address names.</summary>
/// <param name="FullPath">The file.</param>
/// <param name="IsFolderWithoutSlash">Whether the address is of its folder but lacks the slash by which the page's links are resolved.</param>
internal readonly record struct FoundFile(string FullPath, bool IsFolderWithoutSlash);
