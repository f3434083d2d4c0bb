using System.Text.RegularExpressions;

namespace Archive.Testing;

/// <summary>The page <c>data/</c> of a published site.</summary>
public static partial class DataPage
{
    /// <summary>
    /// CSV and JSON files below <c>data/</c> that the page does not link to; of manifests, those that the linked collection does not name.
    /// </summary>
    /// <param name="site">The site's folder.</param>
    public static IReadOnlyList<string> Missing(string site)
    {
        var folder = Path.Combine(site, "data");
        var linked = Link().Matches(File.ReadAllText(Path.Combine(folder, "index.html")))
            .Select(link => Path.GetRelativePath(folder, Path.Combine(folder, link.Groups[1].Value)).Replace('\\', '/'))
            .ToHashSet(StringComparer.Ordinal);
        var iiif = Path.Combine(folder, "iiif/collection.json");
        var collection = linked.Contains("iiif/collection.json") ? File.ReadAllText(iiif) : "";
        return
        [
            .. Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
                .Select(file => Path.GetRelativePath(folder, file).Replace('\\', '/'))
                .Where(file => file.EndsWith(".csv", StringComparison.Ordinal) || file.EndsWith(".json", StringComparison.Ordinal))
                .Where(file => file.EndsWith("/manifest.json", StringComparison.Ordinal)
                    ? !collection.Contains($"/data/{file}\"", StringComparison.Ordinal)
                    : !linked.Contains(file)),
        ];
    }

    [GeneratedRegex("href=\"([^\"]+)\"")]
    private static partial Regex Link();
}
