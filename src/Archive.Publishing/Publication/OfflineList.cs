using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace Archive.Publishing.Publication;

/// <summary>
/// What a device keeps for a hall without network: pages, style, scripts, the search, and small pictures; not data files, not pictures in
/// full size, not labels, which want a printer.
/// <c>offline/files.json</c> lists them as <c>[path, bytes, checksum]</c>, the first 16 hexadecimal digits of SHA-256;
/// <c>offline/now.json</c> is their sum, small enough to be asked for on each page.
/// </summary>
/// <param name="smallPictures">Paths of the pictures that are kept.</param>
internal sealed class OfflineList(FrozenSet<string> smallPictures)
{
    private const int ChecksumLength = 16;
    private const string List = "offline/files.json", Sum = "offline/now.json";
    private static readonly string[] Endings = [".html", ".css", ".js", ".svg", ".woff2"];

    /// <summary>The paths of the two files.</summary>
    public static ImmutableArray<string> Paths { get; } = [List, Sum];

    /// <summary>The two files.</summary>
    /// <param name="files">All other files of the site, ordinal by path.</param>
    public IEnumerable<(string Path, byte[] Bytes)> Of(ImmutableArray<PublishedFile> files)
    {
        var kept = files.Where(IsKept).ToList();
        using var list = new MemoryStream();
        using (var json = new Utf8JsonWriter(list))
        {
            json.WriteStartArray();
            foreach (var file in kept)
            {
                json.WriteStartArray();
                json.WriteStringValue(file.Path);
                json.WriteNumberValue(file.Size);
                json.WriteStringValue(file.Sha256[..ChecksumLength]);
                json.WriteEndArray();
            }

            json.WriteEndArray();
        }

        var version = Convert.ToHexStringLower(SHA256.HashData(list.GetBuffer().AsSpan(0, (int)list.Length)))[..ChecksumLength];
        yield return (List, list.ToArray());
        yield return (Sum, Encoding.UTF8.GetBytes(
            $$"""{"version":"{{version}}","files":{{kept.Count}},"bytes":{{kept.Sum(file => file.Size)}}}""" + "\n"));
    }

    private bool IsKept(PublishedFile file) => file.Path.StartsWith("images/", StringComparison.Ordinal)
        ? smallPictures.Contains(file.Path)
        : !file.Path.StartsWith("data/", StringComparison.Ordinal)
            && !file.Path.StartsWith("labels/", StringComparison.Ordinal)
            && file.Path != "service-worker.js"
            && Endings.Any(ending => file.Path.EndsWith(ending, StringComparison.Ordinal));
}
